import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Answer, BINS, type Cast, freshId, openCast, type PersonKey } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
afterAll(() => cast.close());

const harvest = { binId: BINS.tote, happenedAt: '2026-11-20T10:00:00Z', massKg: 1, destination: 'beds' };

type Case = readonly [status: number, who: PersonKey | null, method: string, url: string, body: unknown];

const problems: readonly Case[] = [
  [401, null, 'GET', '/api/board', undefined],
  [403, 'pupil', 'GET', '/api/people', undefined],
  [404, 'owner', 'GET', '/api/bins/ffffffff-ffff-4fff-8fff-ffffffffffff', undefined],
  [404, 'owner', 'GET', '/api/no-such-thing', undefined],
  [422, 'volunteer', 'POST', '/api/harvests', { ...harvest, id: freshId(), massKg: -1 }],
  [422, 'volunteer', 'POST', '/api/harvests', { ...harvest, id: freshId(), happenedAt: '2020-01-01T00:00:00Z' }],
  [413, 'volunteer', 'POST', '/api/harvests', { note: 'x'.repeat(100_000) }],
  [401, null, 'POST', '/api/session', { email: 'nobody@example.org', password: 'not the password' }],
];

/** RFC 9457, section 3.1 (members) and 3.2 (names of extensions); https://www.rfc-editor.org/rfc/rfc9457 */
describe.each(problems)('RFC 9457: %i for %s at %s %s', (status, who, method, url, body) => {
  let answer: Answer;
  beforeAll(async () => {
    answer = await cast.call(who, method, url, body);
  });

  test('is application/problem+json with the status it says', () => {
    expect(answer.status).toBe(status);
    expect(String(answer.headers['content-type']).split(';')[0]).toBe('application/problem+json');
    expect(answer.body.status).toBe(status);
  });

  test('has a type that is a URI, a title and a detail', () => {
    expect(URL.canParse(answer.body.type, 'https://middenry.example/')).toBe(true);
    expect(answer.body.title).toMatch(/\S/);
    expect(answer.body.detail).toMatch(/\S/);
    expect(answer.body.detail).not.toBe(answer.body.title);
  });

  test('names its extensions as the standard asks', () => {
    const standard = ['type', 'title', 'status', 'detail', 'instance'];
    const extensions = Object.keys(answer.body).filter((name) => !standard.includes(name));
    expect(extensions).toContain('code');
    for (const name of extensions) expect(name).toMatch(/^[A-Za-z][A-Za-z0-9_]{2,}$/);
  });
});

test('RFC 9457: one type has one title, whatever the occurrence', async () => {
  const titles = new Map<string, Set<string>>();
  for (const [, who, method, url, body] of problems) {
    const { type, title } = (await cast.call(who, method, url, body)).body;
    titles.set(type, (titles.get(type) ?? new Set()).add(title));
  }
  expect(titles.size).toBeGreaterThan(4);
  expect([...titles].filter(([, words]) => words.size !== 1)).toEqual([]);
});

test('RFC 6901: a field error points into what was sent', async () => {
  const sent: Record<string, unknown> = { ...harvest, id: freshId(), massKg: -1, destination: 'the moon' };
  const { body } = await cast.call('volunteer', 'POST', '/api/harvests', sent);
  const pointers: string[] = body.errors.map(({ pointer }: { pointer: string }) => pointer);
  expect(pointers.sort()).toEqual(['/destination', '/massKg']);
  for (const pointer of pointers) expect(sent[pointer.slice(1)]).toBeDefined();
});
