import { describe, expect, it } from 'vitest';
import { advance, forkRun, runBin, trackOf, weightsOf } from '../bin/run.ts';
import type { BinEvent, Scenario } from '../bin/scenario.ts';
import { fewOf } from './few.ts';
import { meanOf, spreadOf } from './spread.ts';

const feeding = (day: number, zone: number): BinEvent => ({
  ...{ day, type: 'feeding', zone, beddingKg: 0.1 },
  items: [{ material: 'food_scraps_veg', massKg: 1, how: 'guessed' }],
});
/** A bin in which a squeeze has just made members count unevenly. */
const scenario: Scenario = {
  schema: 'middenry-scenario/1',
  days: 30,
  members: 192,
  seed: 12,
  bin: {
    ...{ kind: 'tote', areaM2: 0.2, depthM: 0.35, zones: 2, openBase: false, ageDays: 90, bedWaterKg: 5 },
    worms: { massKg: 0.5 },
    bed: [{ material: 'cardboard_corrugated', massKg: 2 }],
  },
  climate: { tempC: 20 },
  events: [feeding(0, 1), feeding(5, 2), { day: 9, type: 'check', squeeze: 'few-drops' }],
};
const run = runBin(scenario, { untilDay: 10 });

describe('fewOf()', () => {
  const few = fewOf(run, 64);

  it('takes members as they are, each as often as its weight says', () => {
    expect(few.state.members).toBe(64);
    expect(new Set(weightsOf(few))).toEqual(new Set([1 / 64]));
    const all = new Set(run.state.bed.bedWaterKg);
    for (const waterKg of few.state.bed.bedWaterKg) expect(all.has(waterKg)).toBe(true);
    for (const name of ['moistureFracWb', 'wormsKg', 'foodInHandDays'] as const) {
      const [of, whole] = [few, run].map((each) => meanOf(trackOf(each, name, 10), weightsOf(each))) as [number, number];
      const { p10, p90 } = spreadOf(trackOf(run, name, 10), weightsOf(run));
      expect(Math.abs(of - whole), name).toBeLessThan(0.15 * (p90 - p10));
    }
  });

  it('goes its own way day by day, marks of the log with it, and leaves the others alone', () => {
    const before = run.state.buffer.slice();
    const later = advance(forkRun(few), 5, [feeding(11, 1)]);
    expect(later.day).toBe(15);
    expect(later.state.zoneMarks.zoneFedDay[1]).toBe(5);
    expect(few.state.marks.lastCheckDay[0]).toBe(9);
    expect(run.state.buffer).toEqual(before);
  });

  it('is the run itself where there are no more', () => {
    expect(fewOf(run, 192)).toBe(run);
  });
});
