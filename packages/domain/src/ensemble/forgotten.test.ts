import { describe, expect, it } from 'vitest';
import { runBin } from '../bin/run.ts';
import type { BinEvent, Scenario } from '../bin/scenario.ts';

const feedings = [0, 3, 7, 10].map(
  (day, i): BinEvent => ({
    ...{ day, type: 'feeding', zone: (i % 2) + 1, beddingKg: 0.1 },
    items: [{ material: 'food_scraps_veg', massKg: 1 + i, how: 'weighed' }],
    entryId: `fed-${i}`,
  }),
);
/** A look that tells next to nothing, so that no member takes the place of another. */
const CHECK: BinEvent = { day: 13, type: 'check', ph: 7, entryId: 'look' };

const carbonInKg = (events: readonly BinEvent[], members: number): Float64Array => {
  const scenario: Scenario = {
    schema: 'middenry-scenario/1',
    days: 20,
    members,
    seed: 5,
    bin: {
      ...{ kind: 'tote', areaM2: 0.2, depthM: 0.35, zones: 3, openBase: false, ageDays: 90, bedWaterKg: 5 },
      worms: { massKg: 0.5 },
      bed: [{ material: 'cardboard_corrugated', massKg: 2 }],
    },
    climate: { tempC: 20 },
    events,
  };
  return runBin(scenario, { untilDay: 13, recordsRows: false }).state.bed.carbonInKg;
};

describe('what nobody wrote down', () => {
  it('is held by about as many members as feedings are forgotten, once somebody looks', () => {
    const [looked, unlooked] = [carbonInKg([...feedings, CHECK], 512), carbonInKg(feedings, 512)];
    const moreKg = looked.map((carbonKg, m) => carbonKg - unlooked[m]!);
    // Four feedings in 13 days and one in ten forgotten: 0.44 expected, so that 1 - exp(-0.44) = 36 % hold one or two.
    expect(moreKg.filter((kg) => kg > 0).length / 512).toBeGreaterThan(0.3);
    expect(moreKg.filter((kg) => kg > 0).length / 512).toBeLessThan(0.42);
    expect(Math.min(...moreKg)).toBe(0);
    // One of one to four kilograms of scraps, or two; nothing that was never given.
    expect(Math.max(...moreKg) / Math.min(...moreKg.filter((kg) => kg > 0))).toBeGreaterThan(3.5);
  });

  it('is nothing for one member, which is the median, and nothing where nobody ever fed', () => {
    expect(carbonInKg([...feedings, CHECK], 1)).toEqual(carbonInKg(feedings, 1));
    expect(carbonInKg([CHECK], 64)).toEqual(carbonInKg([], 64));
  });
});
