/** What was expected of castings stands beside what was weighed, and stays what it was beforehand. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { BINS, type Cast, freshId, openCast } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast({ at: '2026-11-01T10:00:00.000Z' });
  for (const day of ['09-08', '09-15', '09-22', '09-29', '10-06', '10-13', '10-20', '10-27'])
    await post('/api/feedings', {
      happenedAt: `2026-${day}T09:00:00Z`,
      zone: 1,
      items: [{ materialId: 'apple', massKg: 1.5, how: 'weighed' }],
    });
});
afterAll(() => cast.close());

const binId = BINS.tote;
async function post(url: string, body: object): Promise<string> {
  const id = freshId();
  const answer = await cast.call('coordinator', 'POST', url, { id, binId, ...body });
  expect([url, answer.status]).toEqual([url, 201]);
  return id;
}
const harvest = (massKg: number, happenedAt: string, how = 'weighed') =>
  post('/api/harvests', { massKg, how, happenedAt, destination: 'beds' });
const entry = async (id: string) => (await cast.call('volunteer', 'GET', `/api/entries/${id}`)).body;
const harvests = async () =>
  (await cast.call('volunteer', 'GET', `/api/bins/${binId}/life`)).body.lastHarvests as {
    readonly on: string;
    readonly entryId: string;
    readonly massKg: number;
    readonly expected: Record<'lowKg' | 'midKg' | 'highKg', number>;
  }[];
const castingsOn = async (day: string) =>
  (await cast.call('volunteer', 'GET', `/api/bins/${binId}/outlook`)).body.history.find(({ on }: { on: string }) => on === day)
    .castingsKgWb;

test('D2: a harvest stands beside what its bin held the evening before, wherever it is told', async () => {
  const before = await castingsOn('2026-10-31');
  const grams = (kg: number) => Math.round(kg * 1000) / 1000;
  const expected = { lowKg: grams(before.p10), midKg: grams(before.p50), highKg: grams(before.p90) };
  expect(expected.lowKg).toBeLessThan(expected.highKg);
  const id = await harvest(grams(before.p50 * 2), '2026-11-01T09:30:00Z');
  expect((await entry(id)).expected).toEqual(expected);
  expect(await harvests()).toEqual([{ on: '2026-11-01', entryId: id, massKg: grams(before.p50 * 2), how: 'weighed', expected }]);
  const log = (await cast.call('volunteer', 'GET', `/api/bins/${binId}/entries`)).body.items;
  expect(log.find((one: { id: string }) => one.id === id).expected).toEqual(expected);

  // What is noted of the days before changes what the model says today, not what it had said beforehand.
  await post('/api/feedings', { happenedAt: '2026-10-30T09:00:00Z', zone: 1, items: [{ materialId: 'apple', massKg: 9, how: 'weighed' }] });
  expect((await castingsOn('2026-10-31')).p50).not.toBeCloseTo(before.p50, 3);
  expect((await entry(id)).expected).toEqual(expected);
});

test('D2, D3: the season adds up what was weighed and expected of the same harvests; one that was guessed is in neither', async () => {
  cast.clock.at = new Date('2026-11-20T10:00:00.000Z');
  const next = await harvest(1.5, '2026-11-20T09:00:00Z');
  await harvest(0.25, '2026-11-20T09:30:00Z');
  const guessed = await harvest(4, '2026-11-19T09:00:00Z', 'guessed');
  const early = await harvest(3, '2026-06-02T09:00:00Z');
  const first = (await harvests()).find(({ on }) => on === '2026-11-01')!;
  expect((await entry(guessed)).expected).not.toBeNull();
  expect((await entry(early)).expected).toBeNull();
  const at = (await entry(next)).expected;
  const { expected } = (await cast.call('coordinator', 'GET', '/api/season?from=2026-06-01&to=2026-11-30')).body.castings;
  // Twice on one day: both weights, and what stood in the bin once.
  const g = (name: 'lowKg' | 'midKg' | 'highKg') => Math.round((first.expected[name] + at[name]) * 1000);
  const sum = {
    harvests: 3,
    weighedG: Math.round(first.massKg * 1000) + 1750,
    expectedG: { low: g('lowKg'), mid: g('midKg'), high: g('highKg') },
  };
  expect(expected).toMatchObject({ ...sum, notExpected: 1, bySite: [sum] });
});

test('D2: a harvest that was of another day was expected otherwise', async () => {
  const id = await harvest(0.5, '2026-11-18T09:00:00Z');
  const was = (await entry(id)).expected;
  const content = { kind: 'harvest', binId, massKg: 0.5, happenedAt: '2026-11-05T09:00:00Z', destination: 'beds' };
  const change = (body: object, revision: string) =>
    cast.call('coordinator', 'PUT', `/api/entries/${id}`, body, { 'if-match': `"${revision}"` });
  expect((await change({ ...content, massKg: 0.6, happenedAt: '2026-11-18T09:00:00Z' }, '1')).status).toBe(200);
  expect((await entry(id)).expected).toEqual(was);
  expect((await change(content, '2')).status).toBe(200);
  const now = (await entry(id)).expected;
  expect(now).not.toBeNull();
  expect(now).not.toEqual(was);
});

test.each([
  ['above', 'p90', 1.3, 1],
  ['below', 'p10', 1, -1],
] as const)(
  'D2: a harvest well %s what was expected moves the next expectation that way if it was weighed',
  async (_, mark, times, way) => {
    const first = (await harvests()).find(({ on }) => on === '2026-11-01')!;
    const massKg = Math.round((await castingsOn('2026-10-31'))[mark] * times * 1000) / 1000;
    const next = async (how: string) => {
      const { revision, happenedAt } = await entry(first.entryId);
      const content = { kind: 'harvest', binId, massKg, how, happenedAt, destination: 'beds' };
      const headers = { 'if-match': `"${revision}"` };
      expect((await cast.call('coordinator', 'PUT', `/api/entries/${first.entryId}`, content, headers)).status).toBe(200);
      const { p10, p50, p90 } = await castingsOn('2026-11-19');
      return p10 + p50 + p90;
    };
    // The same mass is gone from the bin either way.
    const [weighed, guessed] = [await next('weighed'), await next('guessed')];
    expect(Math.sign(weighed - guessed)).toBe(way);
    expect((await entry(first.entryId)).expected).toEqual(first.expected);
  },
);
