/** Every row of the route list is asked what nobody would ask, and tells nothing of how it is made (criteria E16). */
import { setTimeout as sleep } from 'node:timers/promises';
import { ROUTES } from '@middenry/contract';
import { afterAll, expect, test } from 'vitest';
import { insidesIn, oddRequestsToEach } from '../api/odd-requests.ts';
import { ask } from './feeders.ts';
import { startServer } from './server-process.ts';
import { Folders } from './stage.ts';

const folders = new Folders();
afterAll(() => folders.remove());

const LEAST_REQUESTS = 5000;
const PER_ROW = Math.ceil(LEAST_REQUESTS / (ROUTES.length - 1));
const SIGN_IN_EVERY = 50;
const CODE = /^[23456789abcdefghjkmnpqrstuvwxyz]{10}$/;

test('E16 at length: 5,000 odd requests to every route, no stack, SQL, path or version, and each refusal finds its line', async () => {
  const server = await startServer({ dataDir: await folders.withDemo(), env: { LOG: 'yes' } });
  const faults: string[] = [];
  const codes = new Map<string, { row: string; status: number }>();
  const rows = new Set<string>();
  let sent = 0;
  try {
    const enter = async (as: string) => (await ask(server.url, 'POST', '/api/session/demo', { body: { as } })).cookie;
    let cookies: Readonly<Record<string, string>> = {};
    for (const { row, who, method, url, body } of oddRequestsToEach(['nobody', 'volunteer', 'coordinator'], PER_ROW)) {
      // Some of them sign out.
      if (sent % SIGN_IN_EVERY === 0) cookies = { volunteer: await enter('volunteer'), coordinator: await enter('coordinator') };
      const { status, text } = await ask(server.url, method, url, { body, cookie: cookies[who] ?? '' });
      sent += 1;
      rows.add(row);
      if (status < 400) continue;
      const { requestId = '' } = JSON.parse(text) as { requestId?: string };
      codes.set(requestId, { row, status });
      const told = insidesIn(text);
      if (status >= 500 || told.length > 0 || !CODE.test(requestId))
        faults.push(`${method} ${url}: ${status} ${told.join()} ${text.slice(0, 200)}`);
    }
    await sleep(500);
  } finally {
    server.child.kill('SIGTERM');
    await server.ended;
  }
  const lines = server
    .output()
    .split('\n')
    .filter((line) => line.startsWith('{'));
  const logged = new Map(
    lines.map((line) => JSON.parse(line) as { incident: string; status: number }).map((line) => [line.incident, line.status]),
  );
  const unfound = [...codes].filter(([code, { status }]) => logged.get(code) !== status);
  console.log(`${sent} requests to ${rows.size} routes, ${codes.size} refusals, ${logged.size} lines of the log`);
  expect(faults).toEqual([]);
  expect(unfound).toEqual([]);
  expect([sent >= LEAST_REQUESTS, rows.size]).toEqual([true, ROUTES.length - 1]);
  expect(codes.size).toBeGreaterThan(LEAST_REQUESTS / 2);
});
