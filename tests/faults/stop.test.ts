import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dropDataDir, freshDataDir, type ServerProcess, startRefused, startServer } from './server-process.ts';

let dir: string;
beforeAll(async () => {
  dir = freshDataDir();
});
afterAll(() => dropDataDir(dir));

async function enter(url: string): Promise<Record<string, string>> {
  const answer = await fetch(`${url}/api/session/demo`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ as: 'coordinator' }),
  });
  return { cookie: answer.headers.get('set-cookie')!.split(';')[0]!, 'content-type': 'application/json' };
}

let next = 0;
function siteId(): string {
  next += 1;
  return `0192f000-0000-7000-9000-${String(next).padStart(12, '0')}`;
}
const addSite = (url: string, headers: Record<string, string>) => {
  const id = siteId();
  const body = JSON.stringify({ id, name: `Plot ${id.slice(-6)}`, timeZone: 'Europe/London' });
  return fetch(`${url}/api/sites`, { method: 'POST', headers, body });
};
const plots = (file: string): number => {
  const sqlite = new Database(file, { readonly: true });
  const count = sqlite.prepare("SELECT count(*) FROM site WHERE name LIKE 'Plot %'").pluck().get() as number;
  sqlite.close();
  return count;
};

describe('the server', () => {
  it('F22: keeps a second one off its folder, F23: ends what runs at SIGTERM and loses nothing', async () => {
    const server = await startServer({ dataDir: dir });
    const second = await startRefused({ dataDir: dir });
    expect(second.code).toBe(5);
    expect(second.words).toContain('Another Middenry is already running');

    const headers = await enter(server.url);
    const running = Array.from({ length: 100 }, () =>
      addSite(server.url, headers).then(
        ({ status }) => status,
        () => 0,
      ),
    );
    await running[0];
    server.child.kill('SIGTERM');
    const statuses = await Promise.all(running);
    expect(await server.ended).toBe(0);
    const acknowledged = statuses.filter((status) => status === 201).length;
    expect(statuses.filter((status) => ![201, 503, 0].includes(status))).toEqual([]);
    expect(acknowledged).toBeGreaterThan(0);
    // Before anybody looks inside, since looking makes a log again.
    expect(existsSync(join(dir, 'demo.db-wal'))).toBe(false);
    expect(plots(join(dir, 'demo.db'))).toBe(acknowledged);
  });

  it('F2: syncs the disk at least once for every acknowledged write', async () => {
    const trace = join(dir, 'trace');
    const server: ServerProcess = await startServer({ dataDir: dir });
    const tracer = spawn('strace', ['-f', '-p', String(server.child.pid), '-e', 'trace=fsync,fdatasync', '-o', trace]);
    await new Promise((resolve, reject) => {
      tracer.once('error', () => reject(new Error('Cannot count syncs as strace is not installed: apt-get install strace')));
      tracer.stderr.once('data', resolve);
    });
    const headers = await enter(server.url);
    const syncs = () =>
      readFileSync(trace, 'utf8')
        .split('\n')
        .filter((line) => /f(data)?sync\(/.test(line) && !/resumed/.test(line)).length;
    const before = syncs();
    for (let at = 0; at < 100; at += 1) expect((await addSite(server.url, headers)).status).toBe(201);
    expect(syncs() - before).toBeGreaterThanOrEqual(100);
    tracer.kill();
    server.child.kill('SIGTERM');
    await server.ended;
  });
});
