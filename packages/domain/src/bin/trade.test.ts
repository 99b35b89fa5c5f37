import { describe, expect, it } from 'vitest';
import { runBin, viewOf } from './run.ts';
import type { BinEvent, Scenario } from './scenario.ts';

type Change = Partial<Omit<Scenario, 'bin'>> & { readonly bin?: Partial<Scenario['bin']> };

function binOf(events: readonly BinEvent[], { bin, ...more }: Change = {}): Scenario {
  return {
    schema: 'middenry-scenario/1',
    days: 30,
    members: 1,
    seed: 1,
    bin: {
      kind: 'tote',
      areaM2: 0.2,
      depthM: 0.35,
      zones: 2,
      openBase: false,
      ageDays: 200,
      worms: { massKg: 0.4 },
      bed: [{ material: 'cardboard_corrugated', massKg: 2 }],
      bedWaterKg: 4,
      ...bin,
    },
    climate: { tempC: 20 },
    events,
    ...more,
  };
}

const feeding = (day: number, zone: number, massKg: number, material: string = 'food_scraps_veg'): BinEvent => ({
  day,
  type: 'feeding',
  zone,
  items: [{ material, massKg }],
});

/** What keepers say (model.md 2): common practice, no published source. */
describe('facts of the trade', () => {
  const weekly = (mass: number, food: string, weeks: number, beddingKg = 0.15): BinEvent[] =>
    Array.from(
      { length: weeks },
      (_, i): BinEvent => ({ day: i * 7, type: 'feeding', zone: (i % 4) + 1, items: [{ material: food, massKg: mass }], beddingKg }),
    );
  const well: Change = {
    days: 182,
    bin: {
      kind: 'flow-through',
      areaM2: 0.5,
      zones: 4,
      ageDays: 400,
      worms: { massKg: 2 },
      bed: [{ material: 'cardboard_corrugated', massKg: 3 }],
      bedWaterKg: 10,
    },
  };

  it('soft food is nearly gone by the next visit in a well-stocked bin, tough parts stay for weeks', () => {
    const left = (food: string, days: number): number => {
      const run = runBin(binOf([{ day: 0, type: 'feeding', zone: 1, items: [{ material: food, massKg: 1 }] }], { ...well, days }));
      return viewOf(run).zones[0]!.leftFrac.p50;
    };
    expect(left('strawberry', 7)).toBeLessThan(0.35);
    expect(left('lettuce', 7)).toBeLessThan(0.35);
    expect(left('corn_cobs', 7)).toBeGreaterThan(left('strawberry', 7));
  });

  it('a mature bin makes castings worth taking: kilograms a month, between a tenth and six tenths of what went in', () => {
    const rows = runBin(binOf(weekly(2, 'food_scraps_veg', 26), well)).rows;
    const made = rows.at(-1)!.castingsKgWb.p50;
    const put = 26 * 2.15;
    expect(made / put).toBeGreaterThan(0.1);
    expect(made / put).toBeLessThan(0.6);
  });

  it('finished compost speeds a new bin of plain card', () => {
    const left = (events: readonly BinEvent[]): number =>
      runBin(binOf([...events, feeding(0, 1, 1)], { days: 10, bin: { ageDays: 0 } })).rows.at(-1)!.foodLeftKgDb.p50;
    expect(left([{ day: 0, type: 'inoculate' }])).toBeLessThan(left([]));
  });

  it('larvae eat faster than worms', () => {
    const left = (events: readonly BinEvent[]): number =>
      runBin(binOf([feeding(0, 1, 2), ...events], { days: 10 })).rows.at(-1)!.foodLeftKgDb.p50;
    expect(left([{ day: 1, type: 'check', visitors: ['soldier-fly-larvae'] }])).toBeLessThan(left([]) * 0.75);
  });
});
