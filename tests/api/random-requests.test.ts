/** Requests that nobody would write: random methods, paths, bodies and headers, the same every time. */
import { ROUTES } from '@middenry/contract';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Cast, openCast, type PersonKey } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
afterAll(() => cast.close());

const REQUESTS = 1500;
// The event stream never ends by itself; it has its own tests.
const paths = ROUTES.map(({ path }) => path).filter((path) => path !== '/api/events');
const who = fc.constantFrom<(PersonKey | null)[]>(null, 'volunteer', 'pupil', 'siteLead', 'coordinator', 'disabled');
const filled = fc
  .tuple(fc.constantFrom(...paths), fc.oneof(fc.uuid(), fc.string({ maxLength: 40 })))
  .map(([path, value]) => path.replace(/:\w+/g, encodeURIComponent(value)));
const request = fc.record({
  who,
  method: fc.constantFrom('GET', 'POST', 'PUT', 'PATCH', 'DELETE'),
  url: fc.tuple(filled, fc.option(fc.webQueryParameters(), { nil: '' })).map(([path, query]) => (query ? `${path}?${query}` : path)),
  body: fc.option(fc.jsonValue({ maxDepth: 6 }), { nil: undefined }),
});

test('F19, E16: random requests get an answer below 500, in words where it is a refusal', async () => {
  const faults: string[] = [];
  for (const one of fc.sample(request, { numRuns: REQUESTS, seed: 20261125 })) {
    const answer = await cast.call(one.who, one.method, one.url, one.body);
    const said = answer.status < 400 || typeof answer.body?.code === 'string';
    if (answer.status >= 500 || !said) faults.push(`${one.method} ${one.url}: ${answer.status} ${answer.text.slice(0, 120)}`);
  }
  expect(faults).toEqual([]);
  expect(cast.store.sqlite.pragma('integrity_check', { simple: true })).toBe('ok');
}, 120_000);
