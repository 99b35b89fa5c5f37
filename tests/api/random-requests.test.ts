import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Cast, openCast, type PersonKey } from '../cast.ts';
import { oddRequests } from './odd-requests.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
afterAll(() => cast.close());

const REQUESTS = 1500;
const WHOSE: readonly (PersonKey | null)[] = [null, 'volunteer', 'pupil', 'siteLead', 'coordinator', 'disabled'];

test('F19, E16: random requests get an answer below 500, in words where it is a refusal', async () => {
  const faults: string[] = [];
  for (const one of oddRequests(WHOSE, REQUESTS)) {
    const answer = await cast.call(one.who, one.method, one.url, one.body);
    const said = answer.status < 400 || typeof answer.body?.code === 'string';
    if (answer.status >= 500 || !said) faults.push(`${one.method} ${one.url}: ${answer.status} ${answer.text.slice(0, 120)}`);
  }
  expect(faults).toEqual([]);
  expect(cast.store.sqlite.pragma('integrity_check', { simple: true })).toBe('ok');
}, 120_000);
