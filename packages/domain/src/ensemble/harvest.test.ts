import { describe, expect, it } from 'vitest';
import { advance, type BinRun, forkRun, rowsOf, runBin } from '../bin/run.ts';
import type { BinEvent, HowMeasured, Scenario } from '../bin/scenario.ts';
import { seenIn } from './likelihood.ts';

const HARVEST_DAY = 120;
const NEXT_DAYS = 60;

const weekly = Array.from(
  { length: 26 },
  (_, week): BinEvent => ({
    ...{ day: week * 7, type: 'feeding', zone: (week % 2) + 1, beddingKg: 0.1 },
    items: [{ material: 'food_scraps_veg', massKg: 1.5, how: 'container' }],
  }),
);
const scenario: Scenario = {
  ...{ schema: 'middenry-scenario/1', days: HARVEST_DAY + NEXT_DAYS, members: 256, seed: 11, climate: { tempC: 20 } },
  bin: {
    ...{ kind: 'tote', areaM2: 0.3, depthM: 0.4, zones: 2, openBase: false, ageDays: 0, worms: { massKg: 0.6 }, bedWaterKg: 4 },
    bed: [{ material: 'cardboard_corrugated', massKg: 2 }],
  },
  events: weekly,
};
const before = runBin(scenario, { untilDay: HARVEST_DAY - 1 });
const castingsKg = (run: BinRun) => rowsOf(run).at(-1)!.castingsKgWb;
const expected = castingsKg(before);

/** What is expected two months after a harvest of a share of what was expected then. */
function nextExpectedKg(share: number, how: HowMeasured): number {
  const harvest: BinEvent = { day: HARVEST_DAY, type: 'harvest', massKg: share * expected.p50, how };
  return castingsKg(advance(forkRun(before), NEXT_DAYS, [harvest])).p50;
}

describe('a harvest teaches what to expect of the next', () => {
  it.each([
    ['below', 0.6, -1, 0.002],
    ['above', 1.9, 1, 0.1],
  ] as const)('D2: well %s what nine in ten members hold, weighed, it moves the next expectation that way', (_, share, way, leastFrac) => {
    const harvestedKg = share * expected.p50;
    expect(harvestedKg < expected.p10 || harvestedKg > expected.p90).toBe(true);
    const [weighed, container, guessed] = (['weighed', 'container', 'guessed'] as const).map((how) => nextExpectedKg(share, how));
    expect(way * (weighed! / container! - 1)).toBeGreaterThan(leastFrac);
    expect(guessed).toBe(container);
  });

  it('D2: unweighed it teaches nothing: every member counts as before', () => {
    const after = (how: HowMeasured) =>
      advance(forkRun(before), 1, [{ day: HARVEST_DAY, type: 'harvest', massKg: 0.6 * expected.p50, how }]).state.bed.weight;
    for (const how of ['container', 'guessed'] as const) expect(after(how)).toEqual(before.state.bed.weight);
    expect(after('weighed')).not.toEqual(before.state.bed.weight);
  });

  it('takes the same out of the bin, weighed or not', () => {
    const out = (how: HowMeasured) => {
      const run = advance(forkRun(before), 1, [{ day: HARVEST_DAY, type: 'harvest', massKg: expected.p50, how }]);
      return run.state.bed.carbonHarvestedKg.some((kg) => kg > 0);
    };
    expect([out('weighed'), out('guessed')]).toEqual([true, true]);
  });

  it('a habit of taking a part does not pass for all that there is', () => {
    const habit = (how: HowMeasured) =>
      [0, 14, 28, 42].map((days): BinEvent => ({ day: HARVEST_DAY + days, type: 'harvest', massKg: 0.3 * expected.p50, how }));
    const [weighed, guessed] = (['weighed', 'guessed'] as const).map(
      (how) => castingsKg(advance(forkRun(before), NEXT_DAYS, habit(how))).p50,
    );
    expect(Math.abs(weighed! / guessed! - 1)).toBeLessThan(0.1);
  });

  it('an empty bin has a chance, and nothing taken is nothing seen', () => {
    const bare = runBin({ ...scenario, members: 4, events: [], bin: { ...scenario.bin, bed: [], bedWaterKg: 0 } }, { untilDay: 0 });
    const [seen] = seenIn({ day: 1, type: 'harvest', massKg: 300 }, 0.3);
    expect(seen!.of(bare.state, 0)).toBeGreaterThan(0);
    expect(seenIn({ day: 1, type: 'harvest', massKg: 0 }, 0.3)).toEqual([]);
  });
});
