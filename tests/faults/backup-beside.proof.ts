/** A backup of a large store beside ordinary requests (criteria F8); the same requests without a backup tell what the machine itself makes of them. */
import { performance } from 'node:perf_hooks';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, expect, test } from 'vitest';
import { serve } from '../browser/harness.ts';
import { ask, enterDemo, uuid7 } from './feeders.ts';
import { growBytes } from './grown-store.ts';
import { Folders } from './stage.ts';

const folders = new Folders();
afterAll(() => folders.remove());

const STORE_BYTES = 100_000_000;
const MOST_MORE_MS = 50;
const LEAST_REQUESTS = 300;

const p99 = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length * 0.99)]!;

/** Looks and notes in turn, one after the other, until there are enough and `until` is over [ms each]. */
async function requestMs(origin: string, cookie: string, isOver: () => boolean): Promise<number[]> {
  const [{ id: binId } = { id: '' }] = (JSON.parse((await ask(origin, 'GET', '/api/bins', { cookie })).text) as { items: { id: string }[] })
    .items;
  const times: number[] = [];
  while (!isOver()) {
    const note = { id: uuid7(), binId, happenedAt: new Date(Date.now() - 60_000).toISOString(), note: 'Beside a backup' };
    const since = performance.now();
    const { status } =
      times.length % 2 === 0
        ? await ask(origin, 'GET', `/api/bins/${binId}`, { cookie })
        : await ask(origin, 'POST', '/api/notes', { cookie, body: note });
    times.push(performance.now() - since);
    if (status >= 300) throw new Error(`a request beside the backup was answered ${status}`);
    await sleep(5);
  }
  return times;
}

test('F8 at length: a backup of 100 MB holds up requests by at most 50 ms at p99', async () => {
  const dataDir = await folders.withDemo();
  const bytes = growBytes(dataDir, STORE_BYTES);
  const server = await serve({ dataDir, keepData: true });
  try {
    const { origin } = server;
    const cookie = await enterDemo(origin);
    let sent = 0;
    const enough = () => {
      sent += 1;
      return sent > LEAST_REQUESTS;
    };
    await requestMs(origin, cookie, enough);
    sent = 0;
    const before = await requestMs(origin, cookie, enough);
    let isOver = false;
    const since = performance.now();
    const backup = ask(origin, 'POST', '/api/keep/backups', { cookie, body: {} }).finally(() => {
      isOver = true;
    });
    const beside = await requestMs(origin, cookie, () => isOver);
    const { status, text } = await backup;
    const tookMs = performance.now() - since;
    sent = 0;
    const after = await requestMs(origin, cookie, enough);
    const say = (times: readonly number[]) =>
      `p99 ${p99(times).toFixed(0)} ms of ${times.length}, longest ${Math.max(...times).toFixed(0)}`;
    console.log(`${bytes} bytes in ${tookMs.toFixed(0)} ms; before: ${say(before)}; beside: ${say(beside)}; after: ${say(after)}`);
    expect([status, text.slice(0, 200)]).toEqual([201, expect.any(String)]);
    expect(beside.length).toBeGreaterThan(100);
    expect(p99(beside) - Math.max(p99(before), p99(after))).toBeLessThanOrEqual(MOST_MORE_MS);
  } finally {
    await server.stop('SIGKILL');
  }
});
