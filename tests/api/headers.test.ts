/** Answers to what is not there (criteria E9); those of the routes are looked at in access.test.ts. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openEmpty } from '../cast.ts';
import { headerFaults, NOTHING_TO_LOAD } from './access/headers.ts';

let empty: Awaited<ReturnType<typeof openEmpty>>;
beforeAll(async () => {
  empty = await openEmpty();
});
afterAll(() => empty.close());

const ask = (url: string, method = 'GET', headers: Record<string, string> = {}) =>
  empty.app.inject({ method: method as 'GET', url, headers });

it.each(['/', '/api/no-such-thing', '/%zz', `/${'x'.repeat(3000)}`, '/api/bins/seven', '/api/session?x=%00'])(
  'E9: %s is answered with every header, and may load, run and frame nothing',
  async (url) => {
    const { headers, body } = await ask(url, 'GET', { origin: 'https://elsewhere.example' });
    expect(headerFaults(headers, body !== '')).toEqual([]);
    expect([headers['content-security-policy'], headers['cache-control']]).toEqual([NOTHING_TO_LOAD, 'no-store']);
  },
);

it.each(['PATCH', 'OPTIONS', 'TRACE'])('E9: a method that is not there, %s, shows nothing of the request', async (method) => {
  const answer = await ask('/api/sign-up-seasons', method, { 'x-canary': 'seen-again', 'content-type': 'application/json' });
  expect([answer.statusCode >= 400, answer.body.includes('seen-again')]).toEqual([true, false]);
});

it.each([
  '/.git/config',
  '/.git/HEAD',
  '/package.json',
  '/package-lock.json',
  '/data/own.db',
  '/apps/api/src/app.ts',
  '/..%2fpackage.json',
  '/.env',
])('E9: %s is not there', async (url) => {
  expect((await ask(url)).statusCode).toBe(404);
});
