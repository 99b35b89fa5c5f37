/** What may come in, how large and for how long. */
import type { AddressInfo } from 'node:net';
import { connect } from 'node:net';
import { setTimeout as sleep } from 'node:timers/promises';
import { Problem, ROUTES, type RouteSpec } from '@middenry/contract';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { watchLoop } from '../../apps/api/src/plugins/still.ts';
import { mostMsOf } from '../../apps/api/src/routing/route.ts';
import { type Cast, openCast } from '../cast.ts';

let cast: Cast;
let port: number;
beforeAll(async () => {
  cast = await openCast();
  await cast.app.listen({ port: 0, host: '127.0.0.1' });
  port = (cast.app.server.address() as AddressInfo).port;
});
afterAll(() => cast.close());

test('F30: every time-out is set, and a JSON body ends at 64 kB', () => {
  const { server, initialConfig } = cast.app;
  const { bodyLimit, handlerTimeout, connectionTimeout, keepAliveTimeout } = initialConfig as typeof initialConfig & {
    handlerTimeout: number;
  };
  expect({ bodyLimit, handlerTimeout, connectionTimeout, keepAliveTimeout }).toEqual({
    bodyLimit: 65_536,
    handlerTimeout: 10_000,
    connectionTimeout: 60_000,
    keepAliveTimeout: 10_000,
  });
  // As long as a photo may take; what is no photo is cut after 25 s (F18).
  expect([server.requestTimeout, server.headersTimeout, server.keepAliveTimeout, server.timeout]).toEqual([
    115_000, 25_000, 10_000, 60_000,
  ]);
});

test('F30: an answer has ten seconds, but for the rows that say why they need longer', () => {
  const rows: readonly RouteSpec[] = ROUTES;
  // A file may take an hour to fetch, and a picture two minutes to come.
  const isOther = ({ sends, takes }: RouteSpec) => sends === undefined && takes === undefined;
  const longer = rows.filter((row) => isOther(row) && mostMsOf(row) !== 10_000).map((row) => [row.name, mostMsOf(row) / 1000]);
  expect(Object.fromEntries(longer)).toEqual({
    ...{ planIntake: 30, addBackup: 120, checkBringBack: 1800, takeBringBack: 3600 },
    ...{ addSheetImport: 60, answerSheetImport: 60, takeSheetImport: 60, undoSheetImport: 60 },
  });
});

/** What the server says first to bytes that no client of ours would send. */
function raw(head: readonly string[], body: string | Buffer, path = '/api/feedings'): Promise<number> {
  const socket = connect(port, '127.0.0.1');
  let said = '';
  const first = [`POST ${path} HTTP/1.1`, `host: 127.0.0.1:${port}`, `cookie: ${cast.cookie('volunteer')}`, 'connection: close', ...head];
  socket.write(`${first.join('\r\n')}\r\n\r\n`);
  socket.write(body);
  socket.on('data', (piece) => {
    said += piece.toString('latin1');
  });
  socket.on('error', () => undefined);
  return new Promise((resolve) => socket.once('close', () => resolve(Number(/^HTTP\/1\.1 (\d{3})/.exec(said)?.[1] ?? Number.NaN))));
}

const json = (body: string | Buffer) => raw(['content-type: application/json', `content-length: ${Buffer.byteLength(body)}`], body);
const deep = (levels: number) => `${'['.repeat(levels)}${']'.repeat(levels)}`;

test.each<[string, () => Promise<number>, number]>([
  ['a byte more than 64 kB', () => json(JSON.stringify('x'.repeat(65_535))), 413],
  ['eight megabytes', () => json(Buffer.alloc(8_000_000, ' ')), 413],
  ['lists in lists, 32,000 deep', () => json(deep(32_000)), 422],
  ['objects in objects, 8,000 deep', () => json(`${'{"a":'.repeat(8000)}1${'}'.repeat(8000)}`), 422],
  ['lists that never end', () => json('['.repeat(60_000)), 400],
  ['half an object', () => json('{"items":[{"id":'), 400],
  ['nothing', () => json(''), 400],
  ['a number too large for any number', () => json(`{"zone":${'9'.repeat(60_000)}}`), 422],
  ['bytes that are no UTF-8', () => json(Buffer.from([0x7b, 0x22, 0xff, 0xfe, 0x22, 0x3a, 0x31, 0x7d])), 422],
  ['a prototype in disguise', () => json('{"__proto__":{"role":"coordinator"}}'), 400],
  [
    'pieces without end',
    () => raw(['content-type: application/json', 'transfer-encoding: chunked'], `11170\r\n${' '.repeat(70_000)}\r\n0\r\n\r\n`),
    413,
  ],
  [
    'a length and pieces at once',
    () => raw(['content-type: application/json', 'content-length: 4', 'transfer-encoding: chunked'], '0\r\n\r\n'),
    400,
  ],
  ['a length that is none', () => raw(['content-type: application/json', 'content-length: many'], '{}'), 400],
  ['a head of 100 kB', () => raw([`x-long: ${'x'.repeat(100_000)}`, 'content-length: 0'], ''), 431],
  ['an address of 15 kB', () => raw(['content-type: application/json', 'content-length: 2'], '{}', `/api/${'x'.repeat(15_000)}`), 404],
])('F19: %s is refused, and the server goes on', async (_, send, status) => {
  expect(await send()).toBe(status);
  expect((await cast.call('volunteer', 'GET', '/api/session')).status).toBe(200);
});

test('E16: bytes that are no request are refused in words, with a code to be found by', async () => {
  const socket = connect(port, '127.0.0.1');
  let said = '';
  socket.on('data', (piece) => {
    said += piece.toString('utf8');
  });
  socket.write('NONSENSE / HTTP/1.1\r\n\r\n');
  await new Promise((resolve) => socket.once('close', resolve));
  const [head = '', body = ''] = said.split('\r\n\r\n');
  expect(head).toMatch(/^HTTP\/1\.1 400 .*\r\ncontent-type: application\/problem\+json/);
  expect(Problem.strict().parse(JSON.parse(body))).toMatchObject({
    status: 400,
    requestId: expect.stringMatching(/^[2-9a-hj-kmnp-z]{10}$/),
  });
});

test('F26: a loop that stood still is told to the log with how long', async () => {
  const told: number[] = [];
  const log = { error: (({ stillMs }: { stillMs: number }) => told.push(stillMs)) as never };
  const stops = [watchLoop(log, { everyMs: 10, longestMs: 500 }), watchLoop(log, { everyMs: 10, longestMs: 60_000 })];
  await sleep(30);
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 700);
  await sleep(30);
  for (const stop of stops) stop();
  // By the one that was asked to, once.
  expect(told.filter((ms) => ms > 600)).toHaveLength(1);
});

test('F31: /livez answers within 50 ms, and also when the store does not', async () => {
  cast.store.sqlite.close();
  const times: number[] = [];
  for (let n = 0; n < 20; n += 1) {
    const since = performance.now();
    expect((await cast.call(null, 'GET', '/livez')).status).toBe(200);
    times.push(performance.now() - since);
  }
  expect(Math.min(...times)).toBeLessThan(50);
  expect((await cast.call(null, 'GET', '/readyz')).body.help).toEqual({ reason: 'store' });
});
