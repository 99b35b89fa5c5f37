import { describe, expect, it } from 'vitest';
import { advance, forkRun, runBin, trackOf, weightsOf } from '../bin/run.ts';
import type { BinEvent, Scenario } from '../bin/scenario.ts';
import { normalQuantile, quasiUniform, uniformOf } from './chance.ts';
import { encodeCheckpoint, restoreRun } from './checkpoint.ts';
import { wordProbability } from './likelihood.ts';
import { between, normalBelow } from './normal.ts';
import { effectiveMembers, systematic } from './resample.ts';
import { shareOf, spreadOf } from './spread.ts';

const feeding = (day: number, zone: number, massKg: number): BinEvent => ({
  day,
  type: 'feeding',
  zone,
  items: [{ material: 'food_scraps_veg', massKg, how: 'container' }],
  beddingKg: 0.05,
});

function toteOf(events: readonly BinEvent[], more: Partial<Scenario> = {}): Scenario {
  return {
    schema: 'middenry-scenario/1',
    days: 40,
    members: 128,
    seed: 7,
    bin: {
      kind: 'tote',
      areaM2: 0.2,
      depthM: 0.35,
      zones: 2,
      openBase: false,
      ageDays: 120,
      worms: { massKg: 0.5 },
      bed: [{ material: 'cardboard_corrugated', massKg: 2 }],
      bedWaterKg: 4,
    },
    climate: { tempC: 20 },
    events,
    ...more,
  };
}

const weekly = [0, 7, 14, 21, 28].map((day, i) => feeding(day, (i % 2) + 1, 1.5));

describe('chance', () => {
  it('gives even numbers that differ by every argument', () => {
    const draws = Array.from({ length: 4000 }, (_, i) => uniformOf(3, i));
    expect(draws.reduce((sum, each) => sum + each, 0) / draws.length).toBeCloseTo(0.5, 1.7);
    expect(
      new Set([uniformOf(1, 2, 3, 4), uniformOf(2, 2, 3, 4), uniformOf(1, 3, 3, 4), uniformOf(1, 2, 4, 4), uniformOf(1, 2, 3, 5)]).size,
    ).toBe(5);
  });
  it('covers each dimension evenly with few members', () => {
    for (let dimension = 0; dimension < 8; dimension++) {
      const low = Array.from({ length: 256 }, (_, m) => quasiUniform(1, m, dimension)).filter((share) => share < 0.25).length;
      expect(low).toBeGreaterThan(56);
      expect(low).toBeLessThan(72);
    }
  });
  it('knows the normal distribution', () => {
    for (const [p, z] of [
      [0.5, 0],
      [0.975, 1.959964],
      [0.01, -2.326348],
    ] as const) {
      expect(normalQuantile(p)).toBeCloseTo(z, 5);
      expect(normalBelow(z)).toBeCloseTo(p, 5);
    }
    expect(between(0, 1, -1, 1)).toBeCloseTo(0.682689, 5);
  });
});

describe('spreadOf()', () => {
  it('gives weighted quantiles in order', () => {
    const values = Float64Array.from([3, 1, 2]);
    expect(spreadOf(values, Float64Array.from([1, 1, 1]))).toEqual({ p10: 1, p50: 2, p90: 3 });
    expect(spreadOf(values, Float64Array.from([0.8, 0.1, 0.1]))).toEqual({ p10: 1, p50: 3, p90: 3 });
  });
});

describe('systematic()', () => {
  it('takes each member as often as its weight says, within one', () => {
    const weights = Float64Array.from([0.5, 0.25, 0.125, 0.125]);
    const chosen = Array.from(systematic(weights, 0.3));
    expect(chosen.filter((m) => m === 0).length).toBe(2);
    expect(effectiveMembers(Float64Array.from([0.25, 0.25, 0.25, 0.25]))).toBeCloseTo(4, 12);
  });
});

describe('a run with many members', () => {
  it('is the same to the byte for the same seed, and another for another seed', () => {
    const bytes = (seed: number) => Buffer.from(runBin(toteOf(weekly, { seed })).state.buffer.buffer).toString('base64');
    expect(bytes(7)).toBe(bytes(7));
    expect(bytes(8)).not.toBe(bytes(7));
  });

  it('keeps p10 <= p50 <= p90 everywhere and every figure finite', () => {
    for (const row of runBin(toteOf(weekly)).rows)
      for (const [name, spread] of Object.entries(row)) {
        if (typeof spread === 'number') continue;
        expect(spread.p10 <= spread.p50 && spread.p50 <= spread.p90, `${name} on day ${row.day}`).toBe(true);
        expect(Number.isFinite(spread.p10) && Number.isFinite(spread.p90), name).toBe(true);
      }
  });

  it('goes on from a checkpoint as if it had never stopped', () => {
    const check: BinEvent = { day: 16, type: 'check', leftover: { '1': 'most' }, squeeze: 'few-drops' };
    const scenario = toteOf([...weekly, check]);
    const straight = runBin(scenario);
    const blob = encodeCheckpoint(runBin(scenario, { untilDay: 15 }));
    const restarted = advance(restoreRun(scenario, blob), 25);
    expect(Buffer.from(restarted.state.buffer.buffer).equals(Buffer.from(straight.state.buffer.buffer))).toBe(true);
    expect(restarted.rows).toEqual(straight.rows.slice(16));
  });

  it('refuses a checkpoint of another layout', () => {
    const scenario = toteOf(weekly);
    const blob = encodeCheckpoint(runBin(scenario, { untilDay: 3 }));
    blob[0] = 99;
    expect(() => restoreRun(scenario, blob)).toThrow(RangeError);
  });

  it('agrees between 256 and 1024 members within 5 %', () => {
    const rows = (members: number) => runBin(toteOf(weekly, { members })).rows;
    const [few, many] = [rows(256), rows(1024)];
    // While there is food: the last grams of a feeding are a race of rates and differ by more.
    for (const day of [5, 13, 20, 30])
      for (const name of ['wormsKg', 'foodLeftKgDb', 'moistureFracWb'] as const)
        expect(Math.abs(few[day]![name].p50 / many[day]![name].p50 - 1), `${name} on day ${day}`).toBeLessThan(0.05);
  }, 60_000);

  it('is not touched by what happens to its fork', () => {
    const run = runBin(toteOf(weekly), { untilDay: 10 });
    const before = run.state.buffer.slice();
    advance(forkRun(run), 10, [feeding(12, 1, 5)]);
    expect(run.state.buffer).toEqual(before);
    expect(run.day).toBe(10);
    expect(run.rows.length).toBe(11);
  });
});

/** Share of members in which something holds after a check, before any resampling could change the members. */
function shareAfter(
  check: Partial<Extract<BinEvent, { type: 'check' }>>,
  holds: (run: ReturnType<typeof runBin>, m: number) => boolean,
): number {
  // Even weights and one mild check: the effective size stays above half, or the comparison is made on weights before it.
  const run = runBin(toteOf(weekly, { members: 512 }), { untilDay: 12 });
  advance(run, 1, [{ day: 13, type: 'check', ...check } as BinEvent]);
  return shareOf(weightsOf(run), (m) => holds(run, m));
}

describe('what people see teaches', () => {
  const orderly = (shares: readonly number[]): void => {
    const slack = 3 * Math.sqrt(0.25 / 512);
    for (let i = 1; i < shares.length; i++) expect(shares[i]!).toBeGreaterThanOrEqual(shares[i - 1]! - slack);
    expect(shares.at(-1)!).toBeGreaterThan(shares[0]!);
  };

  it('more left never lowers the share with much labile food in hand', () => {
    orderly(
      (['none', 'little', 'half', 'most', 'all'] as const).map((left) =>
        shareAfter({ leftover: { '2': left } }, (run, m) => trackOf(run, 'foodInHandDays', 13)[m]! > 4),
      ),
    );
  });

  it('a wetter squeeze never lowers the share of wet members', () => {
    orderly(
      (['crumbles', 'damp', 'one-two-drops', 'few-drops', 'trickle'] as const).map((squeeze) =>
        shareAfter({ squeeze }, (run, m) => trackOf(run, 'moistureFracWb', 13)[m]! > 0.735),
      ),
    );
  });

  it('a hotter thermometer never lowers the share of warm members', () => {
    orderly([19, 21, 23].map((tempC) => shareAfter({ tempC }, (run, m) => trackOf(run, 'bedTempC', 13)[m]! > 21.2)));
  });

  it('a word is likelier the nearer the quantity is to it', () => {
    const chances = [0.05, 0.2, 0.5, 0.9].map((left) => wordProbability(left, 0.45, [0.1, 0.3, 0.6, 0.85], 3));
    expect(chances[0]!).toBeLessThan(chances[1]!);
    expect(chances[1]!).toBeLessThan(chances[2]!);
    const all = [0, 1, 2, 3, 4].map((word) => wordProbability(0.4, 0.45, [0.1, 0.3, 0.6, 0.85], word));
    expect(all.reduce((sum, each) => sum + each, 0)).toBeCloseTo(1, 9);
  });

  it('reports what nearly no member foresaw, with its likely causes', () => {
    const run = runBin(toteOf([...weekly, { day: 20, type: 'check', tempC: 38, entryId: 'entry-20' }]));
    expect(run.surprises.map(({ day, entryId, kind }) => ({ day, entryId, kind }))).toEqual([
      { day: 20, entryId: 'entry-20', kind: 'temperature' },
    ]);
    expect(run.surprises[0]!.causes).toContain('mistaken-reading');
  });

  it('narrows what it did not know: repeated squeezes bring the spread of moisture in', () => {
    const width = (checks: readonly BinEvent[]) => {
      const { p10, p90 } = runBin(toteOf([...weekly, ...checks])).rows.at(-1)!.moistureFracWb;
      return p90 - p10;
    };
    const checks = [10, 14, 18, 22, 26, 30, 34, 38].map((day): BinEvent => ({ day, type: 'check', squeeze: 'one-two-drops' }));
    expect(width(checks)).toBeLessThan(width([]));
  });

  it('lowers the weight of a member that holds less than was harvested and books the excess', () => {
    const run = runBin(toteOf([...weekly, { day: 20, type: 'harvest', massKg: 60 }], { members: 64 }));
    expect(Math.max(...run.state.bed.waterUnaccountedKg)).toBeGreaterThan(0);
  });
});
