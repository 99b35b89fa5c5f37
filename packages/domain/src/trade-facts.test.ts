/**
 * Facts of the trade: common practice, no source. They judge the model and the plans; nothing is fitted to them.
 * One is not in the model and so not here: that edges run drier than the middle.
 */
import { describe, expect, it } from 'vitest';
import { advance, type BinRun, forkRun, rowsOf, runBin, viewOf } from './bin/run.ts';
import type { BinEvent, BinSetup, Scenario } from './bin/scenario.ts';
import { materialOf } from './materials/material.ts';
import { outlookOf } from './outlook.ts';
import { DUTY_PARAMETERS } from './plan/duties.ts';
import { KIND_MARKS } from './signals/kind-marks.ts';

const OLD_BIN: BinSetup = {
  kind: 'flow-through',
  areaM2: 1,
  depthM: 0.6,
  zones: 4,
  openBase: true,
  ageDays: 400,
  worms: { massKg: 4 },
  bed: [
    { material: 'cardboard_corrugated', massKg: 10 },
    { material: 'castings', massKg: 40 },
  ],
  bedWaterKg: 25,
};
const scenario = (events: readonly BinEvent[], bin: Partial<BinSetup> = {}, tempC = 20): Scenario => ({
  schema: 'middenry-scenario/1',
  days: 120,
  members: 1,
  seed: 1,
  bin: { ...OLD_BIN, ...bin },
  climate: { tempC },
  events,
});
const feed = (day: number, zone: number, material: string, massKg: number, beddingKg = 0): BinEvent => ({
  day,
  type: 'feeding',
  zone,
  items: [{ material, massKg, how: 'weighed' }],
  beddingKg,
});
const runTo = (day: number, events: readonly BinEvent[], bin: Partial<BinSetup> = {}): BinRun =>
  runBin(scenario(events, bin), { untilDay: day });
const leftOf = (run: BinRun, zone: number): number => viewOf(run).zones[zone - 1]?.leftFrac.p50 ?? Number.NaN;
const adviceOn = (day: number, bin: Partial<BinSetup>, events: readonly BinEvent[] = []) =>
  outlookOf(scenario([...events, { day, type: 'check', smell: 'earthy' }], bin), day, { checkIntervalDays: 7, resting: false }).advice;

describe('common practice, no source', () => {
  it('soft foods are more than half gone by the next visit or two, and go before fibrous ones', () => {
    const few = { worms: { massKg: 0.3 } };
    const fortnight = runTo(
      14,
      [feed(0, 1, 'strawberry', 1), feed(0, 2, 'lettuce', 1), feed(0, 3, 'broccoli', 1), feed(0, 4, 'orange_peel', 1)],
      few,
    );
    for (const soft of [1, 2]) {
      expect(leftOf(fortnight, soft)).toBeLessThan(0.5);
      for (const fibrous of [3, 4]) expect(leftOf(fortnight, fibrous)).toBeGreaterThan(1.3 * leftOf(fortnight, soft));
    }
  });

  it('in a well-stocked bin soft food is gone by the next visit, peel and stems stay for weeks, and cobs for many', () => {
    const stocked = { worms: { massKg: 5 } };
    const foods = [feed(0, 1, 'strawberry', 1), feed(0, 2, 'lettuce', 1), feed(0, 3, 'broccoli', 1), feed(0, 4, 'corn_cobs', 1)];
    const [week, month] = [runTo(7, foods, stocked), runTo(28, foods, stocked)];
    for (const soft of [1, 2]) expect(leftOf(week, soft)).toBeLessThan(0.35);
    expect(leftOf(month, 3)).toBeGreaterThan(0.2);
    expect(leftOf(month, 4)).toBeGreaterThan(0.9);
  });

  it('worms fed by the square metre every week hold or grow, and a small stock doubles in two or three months', () => {
    const weekly = Array.from({ length: 18 }, (_, i) => ({ ...feed(i * 7, (i % 4) + 1, 'food_scraps_veg', 4.9, 0.5), waterKg: 1 }));
    const wormsKg = (massKg: number, day: number): number => rowsOf(runTo(day, weekly, { worms: { massKg } })).at(-1)?.wormsKg.p50 ?? 0;
    expect(wormsKg(2.5, 120)).toBeGreaterThan(2.5);
    expect(wormsKg(0.5, 40)).toBeLessThan(1);
    expect(wormsKg(0.5, 90)).toBeGreaterThan(1);
  });

  it('a wet corner filled again and again goes airless, the same food in one heap a week does not', () => {
    const tote: Partial<BinSetup> = {
      ...{ kind: 'tote', areaM2: 0.24, zones: 3, openBase: false, worms: { massKg: 0.5 }, bedWaterKg: 6 },
      bed: [
        { material: 'cardboard_corrugated', massKg: 2 },
        { material: 'castings', massKg: 6 },
      ],
    };
    const worst = (days: readonly number[]): number => {
      const run = runTo(
        14,
        days.map((day) => feed(day, 1, 'food_scraps_veg', 3)),
        tote,
      );
      return Math.max(...rowsOf(run).map((row) => row.airlessFrac.p50));
    };
    expect(worst([0, 3, 6, 9])).toBeGreaterThan(0.25);
    expect(worst([0, 7])).toBeLessThan(0.05);
  });

  it('digging through and fluffing lets air into a layer that lacks it', () => {
    const run = runTo(2, [feed(0, 1, 'food_scraps_veg', 60)], { worms: { massKg: 2 } });
    const left = advance(forkRun(run), 1);
    const fluffed = advance(forkRun(run), 1, [{ day: 3, type: 'loosen', zone: 1 }]);
    const airless = (each: BinRun): number => viewOf(each).zones[0]?.airlessFrac.p50 ?? Number.NaN;
    expect(airless(left)).toBeGreaterThan(0.25);
    expect(airless(fluffed)).toBeLessThan(0.7 * airless(left));
  });

  it('shredded card goes in with every feeding', () => {
    for (const massKg of [1, 2, 4]) {
      const advice = adviceOn(20, { worms: { massKg } });
      expect(advice.massKg).toBeGreaterThan(0);
      expect(advice.beddingKg / advice.massKg).toBeGreaterThanOrEqual(0.09);
    }
  });

  it('big feedings are only for an old, well-populated bin', () => {
    const old = adviceOn(20, { worms: { massKg: 2 } }).massKg;
    expect(adviceOn(20, { worms: { massKg: 2 }, ageDays: 0 }).massKg).toBeLessThanOrEqual(0.6 * old);
    expect(adviceOn(20, { worms: { massKg: 0.5 } }).massKg).toBeLessThan(0.5 * old);
  });

  it('a dose of finished compost speeds a bin that never had one, and hardly an old one', () => {
    const eaten = (ageDays: number, dose: boolean): number => {
      const events: BinEvent[] = [feed(0, 1, 'food_scraps_veg', 3, 0.3), ...(dose ? [{ day: 0, type: 'inoculate' } as const] : [])];
      const bin: Partial<BinSetup> = {
        ageDays,
        worms: { massKg: 0.5 },
        bed: [{ material: 'cardboard_corrugated', massKg: 20 }],
        bedWaterKg: 50,
      };
      return 1 - leftOf(runTo(7, events, bin), 1);
    };
    expect(eaten(0, true) / eaten(0, false)).toBeGreaterThan(1.05);
    expect(eaten(400, true) / eaten(400, false)).toBeLessThan(1.02);
  });

  it('a dose is due once a month or every other month', () => {
    expect([DUTY_PARAMETERS.inoculateFrom.value, DUTY_PARAMETERS.inoculateOverdue.value]).toEqual([30, 60]);
  });

  it('a mature flow-through bin is harvested every one to two weeks, and three weeks is late', () => {
    expect(KIND_MARKS['flow-through'].harvestAgeDays.value).toBeLessThanOrEqual(14);
    expect(DUTY_PARAMETERS.harvestOverdueAfter.value).toBe(21);
  });

  it('a bin of soldier-fly larvae shrinks to about a quarter of what was put in', () => {
    const fed = Array.from({ length: 14 }, (_, visit) => [1, 2, 3, 4].map((zone) => feed(visit * 2, zone, 'food_scraps_veg', 0.5))).flat();
    const larvae = [0, 7, 14, 21].map((day): BinEvent => ({ day, type: 'check', visitors: ['soldier-fly-larvae'] }));
    const dryFrac = 1 - materialOf({ material: 'food_scraps_veg' }).moistureFracWb;
    const leftFrac = (events: readonly BinEvent[]): number => {
      const run = runBin(scenario(events, { worms: { massKg: 0.3 } }, 25), { untilDay: 28 });
      return (rowsOf(run).at(-1)?.foodLeftKgDb.p50 ?? Number.NaN) / (28 * dryFrac);
    };
    expect(leftFrac([...larvae, ...fed])).toBeGreaterThan(0.15);
    expect(leftFrac([...larvae, ...fed])).toBeLessThan(0.35);
    expect(leftFrac([...larvae, ...fed])).toBeLessThan(0.8 * leftFrac(fed));
  });
});
