/** A server that may use no more than 512 MB (criteria F24). Needs the rights to make a control group (cgroup v1, as Linux has it). */
import { existsSync, mkdirSync, readFileSync, rmdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, expect, test } from 'vitest';
import { flag } from '../api/photo-files.ts';
import { ask, enterDemo, uuid7 } from './feeders.ts';
import { growBins } from './grown-store.ts';
import { startServer } from './server-process.ts';
import { Folders } from './stage.ts';

const MOST_BYTES = 512 * 1024 * 1024;
const BINS = 60;
const PHOTOS = 12;

const folders = new Folders();
const group = `/sys/fs/cgroup/memory/middenry-proof-${process.pid}`;
const told = (name: string): string => readFileSync(join(group, name), 'utf8').trim();
afterAll(async () => {
  folders.remove();
  // What has just ended may count for a moment more.
  for (let tries = 0; tries < 40 && existsSync(group); tries += 1)
    try {
      rmdirSync(group);
    } catch {
      await sleep(100);
    }
});

/** 48 megapixels and turned by the phone, so that it cannot be read in stripes. */
const largePhoto = () => flag(7998, 6000).jpeg({ quality: 90, progressive: true }).withMetadata({ orientation: 6 }).toBuffer();

async function sendPhoto(url: string, cookie: string, binId: string, bytes: Buffer): Promise<number> {
  const query = new URLSearchParams({ binId, takenAt: new Date(Date.now() - 60_000).toISOString(), kind: 'bin', people: 'none' });
  const headers = { cookie, origin: url, 'content-type': 'image/jpeg' };
  const answer = await fetch(`${url}/api/photos/${uuid7()}?${query}`, { method: 'PUT', headers, body: new Uint8Array(bytes) });
  await answer.arrayBuffer();
  return answer.status;
}

test('F24 at length: 60 bins and large photos at once within 512 MB, and nothing is killed', async () => {
  mkdirSync(group);
  writeFileSync(join(group, 'memory.limit_in_bytes'), String(MOST_BYTES));
  writeFileSync(join(group, 'memory.memsw.limit_in_bytes'), String(MOST_BYTES));
  const dataDir = await folders.withDemo();
  growBins(dataDir, BINS);
  const photo = await largePhoto();
  const server = await startServer({ dataDir, under: ['sh', '-c', `echo $$ > ${group}/cgroup.procs && exec "$@"`, 'sh'] });
  try {
    const { url } = server;
    const cookie = await enterDemo(url);
    const read = (path: string) => ask(url, 'GET', path, { cookie });
    const bins = (JSON.parse((await read('/api/bins')).text) as { items: { id: string }[] }).items;
    let board = await read('/api/board');
    // On a busy machine the first look ends before it is through, and the next goes on from there.
    const isWhole = () => board.status === 200 && (JSON.parse(board.text) as { waiting: unknown[] }).waiting.length === 0;
    for (let looks = 0; !isWhole() && looks < 30; looks += 1) board = await read('/api/board');
    const photos = Promise.all(Array.from({ length: PHOTOS }, (_, at) => sendPhoto(url, cookie, bins[at]!.id, photo)));
    const each = [];
    for (const { id } of bins) each.push((await read(`/api/bins/${id}`)).status);
    const taken = await photos;
    const peakKb = Number(/^VmHWM:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${server.child.pid}/status`, 'utf8'))?.[1]);
    const kills = /^oom_kill (\d+)$/m.exec(told('memory.oom_control'))?.[1];
    console.log(
      `${bins.length} bins, ${PHOTOS} photos of ${photo.length} bytes: the process at most ${Math.round(peakKb / 1024)} MB, ` +
        `the group ${Math.round(Number(told('memory.max_usage_in_bytes')) / 1024 / 1024)} MB with what is read and written; killed ${kills}; photos ${taken}`,
    );
    expect(told('cgroup.procs').split('\n')).toContain(String(server.child.pid));
    expect([board.status, bins.length, new Set(each), new Set(taken)]).toEqual([200, BINS, new Set([200]), new Set([201])]);
    expect([server.child.exitCode, server.child.signalCode]).toEqual([null, null]);
    expect(kills ?? '0').toBe('0');
  } finally {
    server.child.kill('SIGTERM');
    await server.ended;
  }
});
