import { spawn, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { aptInstall, mayApt } from '../../scripts/lib.mjs';
import { cookieIn } from '../cast.ts';
import { startServer } from './server-process.ts';
import { Folders } from './stage.ts';

const isMissing = () => spawnSync('strace', ['--version']).error !== undefined;
beforeAll(async () => {
  if (isMissing() && mayApt()) await aptInstall(['strace']);
}, 180_000);

const folders = new Folders();
afterAll(() => folders.remove());

const json = { 'content-type': 'application/json' };
const WRITES = 100;

async function enter(url: string): Promise<Record<string, string>> {
  const answer = await fetch(`${url}/api/session/demo`, { method: 'POST', headers: json, body: '{"as":"coordinator"}' });
  return { ...json, cookie: cookieIn({ headers: { 'set-cookie': answer.headers.get('set-cookie') } }) };
}

it('F2: syncs the disk at least once for every acknowledged write', { timeout: 90_000 }, async () => {
  const dir = await folders.withDemo();
  const trace = join(dir, 'trace');
  const server = await startServer({ dataDir: dir });
  const headers = await enter(server.url);
  // The model works through every bin after a start; watched by the tracer that would take minutes.
  expect((await fetch(`${server.url}/api/board`, { headers })).status).toBe(200);
  const tracer = spawn('strace', ['-f', '-p', String(server.child.pid), '-e', 'trace=fsync,fdatasync', '-o', trace]);
  await new Promise((resolve, reject) => {
    tracer.once('error', () => reject(new Error('Cannot count syncs as strace is not installed: apt-get install strace')));
    tracer.stderr.once('data', resolve);
  });
  const syncs = () =>
    readFileSync(trace, 'utf8')
      .split('\n')
      .filter((line) => /f(data)?sync\(/.test(line) && !/resumed/.test(line)).length;
  const before = syncs();
  for (let at = 0; at < WRITES; at += 1) {
    const id = `0192f000-0000-7000-9000-${String(at).padStart(12, '0')}`;
    const body = JSON.stringify({ id, name: `Plot ${at}`, timeZone: 'Europe/London' });
    expect((await fetch(`${server.url}/api/sites`, { method: 'POST', headers, body })).status).toBe(201);
  }
  expect(syncs() - before).toBeGreaterThanOrEqual(WRITES);
  tracer.kill();
  server.child.kill('SIGTERM');
  await server.ended;
});
