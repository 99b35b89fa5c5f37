import { describe, expect, test } from 'vitest';
import type { EntryRow } from '../db/repositories/entry-types.ts';
import type { IntakeFeedingRow } from '../db/repositories/outlook.ts';
import { plannedFeedings } from './feed-plan.ts';
import { addDays, daysBetween } from './local-time.ts';

const TODAY = '2026-11-25';
const STARTED = '2026-06-01';

const fed = (daysAgo: number, zone: number, kg: number): EntryRow =>
  ({
    kind: 'feeding',
    id: `fed-${daysAgo}-${zone}`,
    localDate: addDays(TODAY, -daysAgo),
    zone,
    items: [{ materialId: 'lettuce', grams: kg * 1000, how: 'weighed', preparation: 'chopped' }],
  }) as unknown as EntryRow;
const planOf = (entries: readonly EntryRow[], change: { shiftDays?: string[]; state?: string; intake?: IntakeFeedingRow[] } = {}) =>
  plannedFeedings({
    bin: { startedOn: STARTED, zones: 3, state: change.state ?? 'active' },
    entries,
    shiftDays: change.shiftDays ?? [],
    intake: change.intake ?? [],
    today: TODAY,
    portionOf: (material, massKg) => ({ material, massKg, how: 'weighed' }),
    eventsOf: (entry) => [
      {
        day: daysBetween(STARTED, entry.localDate),
        entryId: entry.id,
        type: 'feeding',
        zone: entry.kind === 'feeding' ? entry.zone : 0,
        items: [{ material: 'lettuce', massKg: 1, how: 'weighed' }],
      },
    ],
  });
const briefly = (plan: ReturnType<typeof planOf>) => plan.map(({ on, zone, massKg, from }) => [daysBetween(TODAY, on), zone, massKg, from]);

const WEEKLY = [fed(30, 1, 1), fed(23, 2, 1.2), fed(16, 3, 3), fed(9, 1, 1.1), fed(2, 2, 1.3)];

describe('plannedFeedings()', () => {
  test('goes on as it was: the usual gap, the middle feeding of the last five, the zone longest since fed', () => {
    expect(briefly(planOf(WEEKLY))).toEqual([
      [5, 3, 1.2, 'habit'],
      [12, 1, 1.2, 'habit'],
    ]);
    expect(planOf(WEEKLY)[0]!.events).toEqual([
      { day: daysBetween(STARTED, TODAY) + 5, type: 'feeding', zone: 3, items: [{ material: 'lettuce', massKg: 1, how: 'weighed' }] },
    ]);
  });

  test('two zones fed on one visit are fed on one visit again', () => {
    const pairs = WEEKLY.flatMap((entry) => [entry, { ...entry, id: `${entry.id}-b` }]);
    expect(briefly(planOf(pairs)).map(([day, zone]) => [day, zone])).toEqual([
      [5, 3],
      [5, 1],
      [12, 2],
      [12, 3],
    ]);
  });

  test('shifts that are to feed it stand in place of the habit', () => {
    const shiftDays = [addDays(TODAY, 3), addDays(TODAY, 10)];
    expect(briefly(planOf(WEEKLY, { shiftDays })).map(([day, , , from]) => [day, from])).toEqual([
      [3, 'shift'],
      [10, 'shift'],
    ]);
    // One feeding is no habit, but says how much a shift would bring.
    expect(briefly(planOf([fed(40, 1, 2)], { shiftDays }))).toEqual([
      [3, 2, 2, 'shift'],
      [10, 3, 2, 'shift'],
    ]);
    expect(planOf([], { shiftDays })).toEqual([]);
  });

  test('a day with an accepted plan of scraps gets its amounts in its zones, other days the usual', () => {
    const shiftDays = [addDays(TODAY, 3), addDays(TODAY, 10)];
    const row = (part: 'scraps' | 'bedding', materialId: string, grams: number) => ({
      on: shiftDays[0]!,
      part,
      materialId,
      grams,
      zones: '[2,3]',
    });
    const intake = [row('scraps', 'coffee_grounds', 1500), row('scraps', 'lettuce', 500), row('bedding', 'newsprint', 300)];
    const plan = planOf(WEEKLY, { shiftDays, intake });
    expect(briefly(plan)).toEqual([
      [3, 2, 1, 'shift'],
      [3, 3, 1, 'shift'],
      [10, 3, 1.2, 'shift'],
    ]);
    const day = daysBetween(STARTED, shiftDays[0]!);
    const items = [
      { material: 'coffee_grounds', massKg: 0.75, how: 'weighed' },
      { material: 'lettuce', massKg: 0.25, how: 'weighed' },
    ];
    expect(plan[0]!.events).toEqual([
      { day, type: 'feeding', zone: 2, items },
      { day, type: 'bedding', zone: 2, mixedIn: true, items: [{ material: 'newsprint', massKg: 0.15, how: 'weighed' }] },
    ]);
    // A bin that rests is fed by nobody.
    expect(planOf(WEEKLY, { shiftDays, intake, state: 'resting' })).toEqual([]);
  });

  test('is late by a day or two and comes tomorrow; passed over twice, seldom or resting, it comes no more', () => {
    const late = WEEKLY.map((entry) => ({ ...entry, localDate: addDays(entry.localDate, -8) }));
    expect(briefly(planOf(late))[0]![0]).toBe(1);
    expect(planOf(WEEKLY.map((entry) => ({ ...entry, localDate: addDays(entry.localDate, -13) })))).toEqual([]);
    expect(planOf([fed(40, 1, 1), fed(20, 2, 1), fed(1, 3, 1)])).toEqual([]);
    expect(planOf([fed(9, 1, 1), fed(2, 2, 1)])).toEqual([]);
    expect(planOf(WEEKLY, { state: 'resting' })).toEqual([]);
  });
});
