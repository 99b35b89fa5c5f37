/** Laws of learning: what is seen moves a signal's probability the right way, and the number of members does not matter. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { advance, runBin, startRun } from '../bin/run.ts';
import { type BinEvent, LEFTOVERS, type Scenario, SQUEEZES } from '../bin/scenario.ts';
import { type Outlook, outlookOf } from '../outlook.ts';
import { courseOf, daysAt } from '../signals/assess.ts';
import { SIGNALS } from '../signals/registry.ts';
import type { SignalId } from '../signals/types.ts';
import { standingOf } from '../standing.ts';
import { encodeCheckpoint, restoreRun } from './checkpoint.ts';
import { seenIn } from './likelihood.ts';
import { effectiveMembers } from './resample.ts';
import { shareOf } from './spread.ts';

const TODAY = 17;
const AREA_M2 = 0.2;
type Check = Partial<Omit<Extract<BinEvent, { type: 'check' }>, 'day' | 'type'>>;
const check = (day: number, seen: Check): BinEvent => ({ day, type: 'check', ...seen });
const feeding = (day: number, zone: number, massKg: number): BinEvent => ({
  day,
  type: 'feeding',
  zone,
  items: [{ material: 'food_scraps_veg', massKg, how: 'guessed' }],
});

function toteOf(events: readonly BinEvent[], more: Partial<Omit<Scenario, 'events'>> = {}, bedWaterKg = 6): Scenario {
  return {
    schema: 'middenry-scenario/1',
    days: 60,
    members: 64,
    seed: 3,
    bin: {
      ...{ kind: 'tote', areaM2: AREA_M2, depthM: 0.35, zones: 2, openBase: false, ageDays: 120, bedWaterKg },
      worms: { massKg: 0.5 },
      bed: [{ material: 'cardboard_corrugated', massKg: 2 }],
    },
    climate: { tempC: 22 },
    ...more,
    events,
  };
}

/** Any bin in which something may be wrong: fed little or much, at any warmth, dry or wet. */
const anyBin = fc.record({
  massKg: fc.double({ min: 0.5, max: 5, noNaN: true }),
  tempC: fc.double({ min: 16, max: 30, noNaN: true }),
  bedWaterKg: fc.double({ min: 4, max: 14, noNaN: true }),
  seed: fc.integer({ min: 1, max: 1e6 }),
});

/**
 * A signal's probability within the week after each of some answers, from one state and one forecast: members are weighed and
 * never resampled.
 */
function afterEach(scenario: Scenario, id: SignalId, answers: readonly Check[]) {
  const standing = standingOf(scenario, TODAY, { checkIntervalDays: 7, resting: false });
  const days = [...standing.past, ...standing.coming];
  const { holds } = courseOf(SIGNALS[id], daysAt(standing, days, standing.log));
  const within = days.flatMap(({ day }, at) => (day >= TODAY && day <= TODAY + 7 ? [at] : []));
  const { state } = standing.run;
  return answers.map((answer) => {
    const seen = seenIn(check(TODAY, answer), AREA_M2);
    const weights = state.bed.weight.map((weight, m) => seen.reduce((product, each) => product * each.of(state, m), weight));
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const even = weights.map((weight) => weight / total);
    const share = shareOf(even, (m) => within.some((at) => holds[at]?.[m] === true));
    return { share, error: Math.sqrt((share * (1 - share)) / effectiveMembers(even)) };
  });
}

const LAWS: readonly (readonly [law: string, id: SignalId, answers: readonly Check[]])[] = [
  ['more left never lowers overfed', 'overfed', LEFTOVERS.map((left) => ({ leftover: { '2': left } }))],
  ['a wetter squeeze never lowers wet', 'wet', SQUEEZES.map((squeeze) => ({ squeeze }))],
  ['a hotter thermometer never lowers hot', 'hot', [18, 22, 26, 30, 34].map((tempC) => ({ tempC }))],
  ['a rotten smell never lowers airless', 'airless', [{ smell: 'earthy' }, { smell: 'rotten' }]],
];

describe('before resampling, same prior and seed, within three Monte Carlo standard errors', () => {
  it.each(LAWS)('%s', (_law, id, answers) => {
    let moved = 0;
    fc.assert(
      fc.property(anyBin, ({ massKg, tempC, bedWaterKg, seed }) => {
        const fed = [0, 4, 8, 12].map((day, i) => feeding(day, (i % 2) + 1, massKg));
        const after = afterEach(toteOf(fed, { seed, climate: { tempC } }, bedWaterKg), id, answers);
        for (let i = 1; i < after.length; i++) {
          const [before, now] = [after[i - 1]!, after[i]!];
          expect(now.share).toBeGreaterThanOrEqual(before.share - 3 * Math.hypot(before.error, now.error));
        }
        moved = Math.max(moved, after.at(-1)!.share - after[0]!.share);
      }),
      { numRuns: 5, seed: 9 },
    );
    // A law that moved nothing in any bin would say nothing.
    expect(moved).toBeGreaterThan(0.1);
  });
});

const SEEN: readonly BinEvent[] = [
  check(6, { leftover: { '1': 'half' }, squeeze: 'one-two-drops' }),
  check(13, { leftover: { '2': 'little' }, squeeze: 'few-drops', tempC: 23 }),
  check(20, { leftover: { '1': 'half' }, squeeze: 'one-two-drops', smell: 'earthy' }),
];
const FED = [0, 5, 10, 15, 20, 25].map((day, i) => feeding(day, (i % 2) + 1, 1.2));

describe('number of members', () => {
  it('256 and 1024 agree within three standard errors with checks; the error is what other seeds of 256 give', () => {
    const medians = (members: number, seed: number) => {
      const run = advance(startRun(toteOf([...FED, ...SEEN], { members, seed }), { recordsRows: false }), 24);
      run.recordsRows = true;
      const row = advance(run, 1).rows.at(-1)!;
      return [row.wormsKg.p50, row.foodLeftKgDb.p50, row.moistureFracWb.p50];
    };
    const many = medians(1024, 5);
    const few = [5, 6, 7, 8, 9].map((seed) => medians(256, seed));
    many.forEach((whole, at) => {
      const values = few.map((each) => each[at]!);
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      const error = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
      expect(Math.abs(values[0]! - whole)).toBeLessThanOrEqual(3 * Math.hypot(error, error / 2));
    });
  }, 20_000);
});

describe('a restart', () => {
  it('from a checkpoint of any day equals the straight run to the byte, with checks that teach', () => {
    const scenario = toteOf([...FED, ...SEEN], { members: 32 });
    const straight = runBin(scenario, { untilDay: 30 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 29 }), (day) => {
        const kept = encodeCheckpoint(runBin(scenario, { untilDay: day, recordsRows: false }), 0);
        const again = advance(restoreRun(scenario, kept, { recordsRows: false }), 30 - day);
        return Buffer.from(again.state.buffer.buffer).equals(Buffer.from(straight.state.buffer.buffer));
      }),
      { numRuns: 8, seed: 4 },
    );
  });
});

describe('p10 <= p50 <= p90', () => {
  it('everywhere in an outlook: rows, fan, zones and the bin of today', () => {
    let count = 0;
    const look = (value: unknown, path: string): void => {
      if (typeof value !== 'object' || value === null) return;
      if ('p50' in value) {
        const { p10, p50, p90 } = value as Outlook['now']['ph'];
        expect(p10 <= p50 && p50 <= p90, path).toBe(true);
        count++;
      } else for (const [name, part] of Object.entries(value)) look(part, `${path}.${name}`);
    };
    const outlook = outlookOf(toteOf([...FED, ...SEEN], { members: 48 }), 24, { checkIntervalDays: 7, resting: false });
    look(outlook, 'outlook');
    expect(outlook.fan.map(({ day }) => day)).toEqual(Array.from({ length: 29 }, (_, at) => 10 + at));
    expect(count).toBeGreaterThan(900);
  });
});
