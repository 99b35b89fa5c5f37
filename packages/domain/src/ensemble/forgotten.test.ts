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
const CHECK: BinEvent = { day: 13, type: 'check', squeeze: 'one-two-drops', entryId: 'look' };

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
  const mean = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0) / values.length;

  it('is held by about as many members as feedings are forgotten, once somebody looks', () => {
    const [looked, unlooked] = [carbonInKg([...feedings, CHECK], 512), carbonInKg(feedings, 512)];
    // Four feedings in 13 days and one in ten forgotten: a third of a feeding expected, so that 1 - exp(-0.44) = 36 % hold one.
    const more = looked.filter((carbonKg) => carbonKg > mean(unlooked) * 1.08);
    expect(more.length / 512).toBeGreaterThan(0.28);
    expect(more.length / 512).toBeLessThan(0.44);
    expect(Math.min(...looked)).toBeGreaterThan(Math.min(...unlooked) * 0.99);
  });

  it('is nothing for one member, which is the median, and nothing where nobody ever fed', () => {
    expect(carbonInKg([...feedings, CHECK], 1)).toEqual(carbonInKg(feedings, 1));
    expect(carbonInKg([CHECK], 64)).toEqual(carbonInKg([], 64));
  });
});
