/** Requests that nobody would write, at a real server, and what they leave in its memory (criteria F19). */
import { readFileSync } from 'node:fs';
import { afterAll, expect, test } from 'vitest';
import { oddRequests } from '../api/odd-requests.ts';
import { ask } from './feeders.ts';
import { startServer } from './server-process.ts';
import { Folders, soundness } from './stage.ts';

const folders = new Folders();
afterAll(() => folders.remove());

const REQUESTS = 10_000;
/** Before these, code is compiled and caches fill, whoever asks for what. */
const WARM_UP = 1000;
const MOST_GROWTH_MB = 50;
const SIGN_IN_EVERY = 100;

const rssMb = (pid: number | undefined): number =>
  Number(/^VmRSS:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024;

test('F19 at length: 10,000 random requests, none ends the server or stays in its memory', async () => {
  const server = await startServer({ dataDir: await folders.withDemo() });
  try {
    const enter = async (as: string) => (await ask(server.url, 'POST', '/api/session/demo', { body: { as } })).cookie;
    const faults: string[] = [];
    const statuses = new Map<number, number>();
    const firstMb = rssMb(server.child.pid);
    let [warmMb, highestMb] = [0, 0];
    let cookies: Readonly<Record<string, string>> = {};
    for (const [at, { who, method, url, body }] of oddRequests(['nobody', 'volunteer', 'coordinator'], REQUESTS + WARM_UP).entries()) {
      // Some of them sign out.
      if (at % SIGN_IN_EVERY === 0) cookies = { volunteer: await enter('volunteer'), coordinator: await enter('coordinator') };
      if (at === WARM_UP) warmMb = rssMb(server.child.pid);
      const { status, text } = await ask(server.url, method, url, { body, cookie: cookies[who] ?? '' });
      statuses.set(status, (statuses.get(status) ?? 0) + 1);
      if (status >= 500) faults.push(`${method} ${url}: ${status} ${text.slice(0, 120)}`);
      if (at >= WARM_UP && at % SIGN_IN_EVERY === 0) highestMb = Math.max(highestMb, rssMb(server.child.pid));
    }
    const lastMb = rssMb(server.child.pid);
    const of = [...statuses].sort(([a], [b]) => a - b).map(([status, n]) => `${status} x ${n}`);
    console.log(
      `RSS [MB]: ${[firstMb, warmMb, highestMb, lastMb].map((mb) => mb.toFixed(0))} at start, warm, at most, last; ${of.join(', ')}`,
    );
    expect(faults).toEqual([]);
    expect(lastMb - warmMb).toBeLessThanOrEqual(MOST_GROWTH_MB);
    expect(server.child.exitCode).toBe(null);
  } finally {
    server.child.kill('SIGTERM');
    await server.ended;
  }
  expect(soundness(server.dataDir)).toMatchObject({ integrity: 'ok', strays: [], halves: 0 });
});
