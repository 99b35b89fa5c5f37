import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bulkDensityFromContainer, massFromVolume, volatileLossFromAsh, wetMassAfterLoss } from '../materials/measure.ts';
import { yearBefore } from '../units/local-day.ts';
import { correctedCastingsG } from './castings-corrected.ts';
import { castingsVolumeMl } from './castings-volume.ts';
import { completenessOf } from './completeness.ts';
import { problemsOf, type SeasonCheck, tallyOf } from './problems.ts';
import { seasonRates } from './rates.ts';
import { seasonOf } from './season.ts';
import type { SeasonRow } from './season-row.ts';
import { sharesOf } from './shares.ts';

const row = (part: Partial<SeasonRow>): SeasonRow => ({
  ...{ type: 'feeding', siteId: 'site-a', binId: 'bin-1', localDate: '2026-05-31', grams: 0, how: 'weighed', minutes: 0, entries: 1 },
  ...part,
});
const castings = (part: Partial<SeasonRow>) => seasonOf([row({ type: 'harvest', ...part })]).total;

describe('worked examples of the handbook, with their arithmetic', () => {
  it('WP7: a bucket of 1 kg that weighs 10 kg full and holds 20 L has castings of 0.45 kg a litre', () => {
    // 10 - 1 = 9 kg; 9 kg / 20 L = 0.45 kg/L = 450 kg/m3
    expect(bulkDensityFromContainer({ emptyKg: 1, fullKg: 10, volumeL: 20 })).toBeCloseTo(450, 9);
    expect(castings({ grams: 9000, volumeMl: 20_000 })).toMatchObject({ harvestedG: 9000, castingsMl: 20_000, castingsMeasuredMl: 20_000 });
  });

  it('WP8: a caddy of 5 L at 0.425 kg/L holds 2.125 kg, which counts as estimated', () => {
    // 5 x 0.425 = 2.125
    const grams = massFromVolume(5, 0.425) * 1000;
    expect(grams).toBeCloseTo(2125, 9);
    expect(seasonOf([row({ grams: Math.round(grams), how: 'container' })]).total).toMatchObject({ fedEstimatedG: 2125, fedWeighedG: 0 });
  });

  it('WD9: 100 kg of scraps at 80 % leave 22.857 kg of castings at 65 %, however wet they are weighed', () => {
    // loss = 1 - 0.12 x 0.70 / (0.30 x 0.88) = 1 - 0.084 / 0.264 = 0.681818
    const loss = volatileLossFromAsh(0.12, 0.3);
    expect(loss).toBeCloseTo(0.681818, 6);
    // dry in 100 x 0.2 = 20 kg; left 0.12 + 0.88 x 0.318182 = 0.40; 20 x 0.40 = 8 kg dry; 8 / 0.35 = 22.857 kg
    const dryLeftFrac = 0.12 + 0.88 * (1 - loss);
    expect(dryLeftFrac).toBeCloseTo(0.4, 9);
    expect(wetMassAfterLoss(20, 1 - dryLeftFrac, 0.65)).toBeCloseTo(22.857, 3);
    // The same 8 kg of dry matter: at 75 % it weighs 8 / 0.25 = 32 kg, at 50 % 8 / 0.5 = 16 kg.
    for (const [grams, moistureFracWb] of [
      [32_000, 0.75],
      [16_000, 0.5],
    ] as const)
      expect(castings({ grams, moistureFracWb })).toMatchObject({
        harvestedG: grams,
        castingsCorrectedG: 22_857,
        castingsMoistureNotedG: grams,
      });
    // 22.857 kg of 100 kg is 22.857 %.
    const totals = seasonOf([row({ grams: 100_000 }), row({ type: 'harvest', grams: 22_857, entries: 1 })]).total;
    expect(seasonRates(totals, 7).yieldFrac).toBeCloseTo(0.22857, 6);
  });
});

describe('castings', () => {
  it('count as weighed where the moisture is not known, and at 0.6 kg/L where the volume is not', () => {
    // 3000 g / 0.6 kg/L = 5000 ml
    expect(castings({ grams: 3000 })).toMatchObject({
      ...{ castingsCorrectedG: 3000, castingsMoistureNotedG: 0, castingsMl: 5000, castingsMeasuredMl: 0 },
    });
    expect(castingsVolumeMl(1, null)).toBe(2);
  });

  it('correctedCastingsG() refuses castings that are all water', () => {
    expect(() => correctedCastingsG(1000, 1)).toThrow(RangeError);
  });
});

describe('shifts', () => {
  it('planned time is places times length; an empty place plans time and gives none', () => {
    const { total } = seasonOf([
      row({ type: 'shift', binId: null, entries: 1, minutes: 90, places: 3, placesTaken: 2 }),
      row({ type: 'attendance', binId: null, entries: 1, minutes: 60 }),
    ]);
    expect(total).toMatchObject({ shifts: 1, places: 3, placesTaken: 2, placesCame: 1, minutesPlanned: 270, minutes: 60 });
    expect(seasonRates(total, 7).givenFrac).toBeCloseTo(60 / 270, 12);
  });
});

describe('seasonRates()', () => {
  it('gives nothing where there is nothing to divide by, and refuses a season of no days', () => {
    const { total } = seasonOf([]);
    expect(seasonRates(total, 1)).toMatchObject({ fedPerWeekG: 0, yieldFrac: null, weighedFrac: null, givenFrac: null, fedPerHourG: null });
    expect(() => seasonRates(total, 0)).toThrow(RangeError);
  });

  it('spreads over weeks', () => {
    // 2800 g in 14 days are 1400 g a week
    expect(seasonRates(seasonOf([row({ grams: 2800 })]).total, 14).fedPerWeekG).toBe(1400);
  });
});

describe('sharesOf()', () => {
  it('rounds so that what is shown adds up to 100', () => {
    expect(sharesOf([1, 1, 1])).toEqual([34, 33, 33]);
    expect(sharesOf([0, 0])).toEqual([0, 0]);
    expect(() => sharesOf([-1])).toThrow(RangeError);
  });

  it('D3: adds up to 100 and is off by less than one, whatever the parts', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 5_000_000 }), { minLength: 1, maxLength: 12 }), (parts) => {
        const total = parts.reduce((sum, part) => sum + part, 0);
        fc.pre(total > 0);
        const shown = sharesOf(parts);
        return (
          shown.reduce((sum, part) => sum + part, 0) === 100 && shown.every((part, at) => Math.abs(part - (parts[at]! * 100) / total) < 1)
        );
      }),
      { seed: 8 },
    );
  });
});

describe('problemsOf()', () => {
  const check = (localDate: string, part: Partial<SeasonCheck>): SeasonCheck => ({
    ...{ binId: 'bin-1', localDate, happenedAt: `${localDate}T10:00:00.000Z`, smell: null, squeeze: null, leftovers: [] },
    ...part,
  });
  const season = { from: '2026-09-01', to: '2026-11-30' };

  it('lasts until the next look that does not see it; a check that looks elsewhere says nothing', () => {
    const found = problemsOf(
      [
        check('2026-09-03', { smell: 'sour' }),
        check('2026-09-05', { squeeze: 'damp' }),
        check('2026-09-06', { smell: 'rotten' }),
        check('2026-09-10', { smell: 'earthy' }),
        check('2026-09-20', { smell: 'ammonia' }),
      ],
      season,
    );
    expect(found).toEqual([
      { binId: 'bin-1', problem: 'smell', foundOn: '2026-09-03', solvedOn: '2026-09-10', days: 7 },
      { binId: 'bin-1', problem: 'smell', foundOn: '2026-09-20', solvedOn: null, days: null },
    ]);
  });

  it('one from before the season is not found anew, one solved after it is not solved in it', () => {
    const checks = [
      check('2026-08-30', { squeeze: 'trickle' }),
      check('2026-09-02', { squeeze: 'trickle' }),
      check('2026-09-09', { squeeze: 'crumbles' }),
      check('2026-12-01', { squeeze: 'damp' }),
    ];
    const found = problemsOf(checks, season);
    expect(found.map(({ problem, solvedOn }) => [problem, solvedOn])).toEqual([['dry', null]]);
  });

  it('keeps bins apart', () => {
    const checks = [
      check('2026-09-03', { leftovers: ['none', 'most'] }),
      check('2026-09-04', { binId: 'bin-2', leftovers: ['little'] }),
      check('2026-09-08', { leftovers: ['half'] }),
    ];
    expect(problemsOf(checks, season).map(({ binId, days }) => [binId, days])).toEqual([['bin-1', 5]]);
  });

  it('tallyOf() gives the middle and the longest of the days', () => {
    const each = (days: number | null) => ({ binId: 'b', problem: 'smell', foundOn: '', solvedOn: '', days }) as const;
    expect(tallyOf([each(2), each(9), each(4), each(null)])).toEqual({
      ...{ found: 4, solved: 3, daysToSolveMedian: 4, daysToSolveLongest: 9 },
    });
    expect(tallyOf([each(2), each(5)]).daysToSolveMedian).toBe(3.5);
    expect(tallyOf([])).toEqual({ found: 0, solved: 0, daysToSolveMedian: null, daysToSolveLongest: null });
  });
});

describe('completenessOf()', () => {
  const season = { from: '2026-09-01', to: '2026-09-15' };
  const noted = (binId: string, localDate: string) => ({ binId, localDate });

  it('D4: counts weeks of bins and those with an entry', () => {
    // 15 days are three weeks, the last of one day; bin-2 began in the second, bin-3 ended before.
    const bins = [
      { binId: 'bin-1', keptFrom: '2026-01-01', keptTo: '2026-12-31' },
      { binId: 'bin-2', keptFrom: '2026-09-10', keptTo: '2026-12-31' },
      { binId: 'bin-3', keptFrom: '2026-01-01', keptTo: '2026-08-31' },
    ];
    const entries = [
      noted('bin-1', '2026-09-01'),
      noted('bin-1', '2026-09-07'),
      noted('bin-2', '2026-09-15'),
      noted('bin-1', '2026-08-31'),
      noted('bin-3', '2026-09-01'),
    ];
    expect(completenessOf(season, bins, entries)).toEqual({ binWeeks: 5, binWeeksNoted: 2, binsKept: 2 });
  });

  it('is nothing of nothing without bins', () => {
    expect(completenessOf(season, [], [])).toEqual({ binWeeks: 0, binWeeksNoted: 0, binsKept: 0 });
  });
});

describe('yearBefore()', () => {
  it('keeps the day, and the leap day becomes the one before', () => {
    expect([yearBefore('2026-09-01'), yearBefore('2028-02-29'), yearBefore('2029-02-28')]).toEqual([
      '2025-09-01',
      '2027-02-28',
      '2028-02-28',
    ]);
  });
});
