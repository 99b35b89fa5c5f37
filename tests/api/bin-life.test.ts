/** A bin's life added up from its log, and what the fan's marks stand on. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { shortName } from '../../apps/api/src/services/names.ts';
import { BINS, type Cast, freshId, openCast, PEOPLE } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
afterAll(() => cast.close());

const binId = BINS.tote;
const post = (who: 'volunteer' | 'coordinator', path: string, body: object) =>
  cast.call(who, 'POST', path, { id: freshId(), binId, happenedAt: '2026-11-24T09:30:00.000Z', ...body });
const read = async (path: string) => (await cast.call('pupil', 'GET', `/api/bins/${binId}/${path}`)).body;

test('a life counts what stands in the log and not what was undone', async () => {
  const before = await read('life');
  const feeding = { zone: 1, items: [1.5, 0.25].map((massKg) => ({ materialId: 'lettuce', massKg, how: 'weighed' })) };
  await post('volunteer', '/api/feedings', feeding);
  await post('coordinator', '/api/harvests', { massKg: 2, how: 'weighed', destination: 'beds' });
  await post('volunteer', '/api/cares', { action: 'moved', exposure: 'shade' });
  const slip = await post('volunteer', '/api/feedings', feeding);
  await cast.call('volunteer', 'DELETE', `/api/entries/${slip.body.id}`);
  const after = await read('life');
  expect(after.fedKg - before.fedKg).toBeCloseTo(1.75, 9);
  expect(after.feedings - before.feedings).toBe(1);
  expect([after.harvestedKg, after.harvests, after.keepers, after.wormsThenKg]).toEqual([2, 1, 2, 0.5]);
  expect(after.changes).toMatchObject([{ what: 'moved', exposure: 'shade', on: '2026-11-24', massKg: null }]);
  expect(after.ageDays).toBe(177);
  // A pupil sees a first name and an initial of each, the latest first.
  const { keeping } = after;
  expect(keeping.map(({ by }: { by: { name: string } }) => by.name).sort()).toEqual(
    [PEOPLE.coordinator.name, PEOPLE.volunteer.name].map(shortName).sort(),
  );
  expect(keeping).toContainEqual(expect.objectContaining({ firstOn: '2026-11-24', lastOn: '2026-11-24', times: 2 }));
});

test('an outlook names every kind of note once a day, as far back as its history goes', async () => {
  await post('volunteer', '/api/checks', { happenedAt: '2026-11-20T09:30:00.000Z', smell: 'earthy', leftover: [], visitors: [] });
  await post('volunteer', '/api/notes', { happenedAt: '2026-11-20T10:30:00.000Z', note: 'All quiet.' });
  const noted = async (days: number) => (await read(`outlook?historyDays=${days}`)).noted;
  expect(await noted(30)).toEqual([
    { on: '2026-11-20', kind: 'seen', times: 2 },
    { on: '2026-11-24', kind: 'cared', times: 1 },
    { on: '2026-11-24', kind: 'fed', times: 1 },
    { on: '2026-11-24', kind: 'taken', times: 1 },
  ]);
  expect((await noted(3)).map(({ on }: { on: string }) => on)).not.toContain('2026-11-20');
});

test('what lies where is what was fed there last; what was undone never lay there', async () => {
  const feed = (day: string, zone: number, ...items: readonly (readonly [string, number])[]) =>
    post('volunteer', '/api/feedings', {
      happenedAt: `2026-11-${day}T08:00:00.000Z`,
      zone,
      items: items.map(([materialId, massKg]) => ({ materialId, massKg, how: 'weighed' })),
    });
  await feed('21', 2, ['carrot', 0.4]);
  await feed('22', 2, ['apple', 0.2], ['banana_peel', 0.5]);
  const slip = await feed('23', 2, ['onion', 0.3]);
  await cast.call('volunteer', 'DELETE', `/api/entries/${slip.body.id}`);
  expect((await read('outlook')).laid).toEqual([
    // Noted twice in one feeding, told once.
    { zone: 1, materials: [{ materialId: 'lettuce', name: 'Lettuce, leaf' }] },
    {
      zone: 2,
      materials: [
        { materialId: 'banana_peel', name: 'Banana peel' },
        { materialId: 'apple', name: 'Apple, whole with skin' },
      ],
    },
  ]);
});
