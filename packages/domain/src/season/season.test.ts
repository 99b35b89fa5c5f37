import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SEASON_COLUMN_IDS, SEASON_COLUMNS } from './registry.ts';
import { type SeasonReport, seasonOf } from './season.ts';
import { SEASON_ROW_TYPES, type SeasonRow } from './season-row.ts';

const row = (part: Partial<SeasonRow>): SeasonRow => ({
  type: 'feeding',
  siteId: 'site-a',
  binId: 'bin-1',
  localDate: '2026-05-31',
  grams: 0,
  how: 'weighed',
  minutes: 0,
  entries: 1,
  ...part,
});

describe('seasonOf()', () => {
  it('keeps weighed and estimated apart and counts a feeding of two items once', () => {
    const { total, byMonth } = seasonOf([
      row({ grams: 1200 }),
      row({ grams: 301, how: 'container', entries: 0 }),
      row({ grams: 99, how: 'guessed', localDate: '2026-06-01' }),
      row({ type: 'harvest', grams: 2500, how: null }),
      row({ type: 'check', how: null }),
      row({ type: 'attendance', binId: null, how: null, minutes: 90 }),
    ]);
    expect(total).toMatchObject({
      harvestedG: 2500,
      fedWeighedG: 1200,
      fedEstimatedG: 400,
      minutes: 90,
      feedings: 2,
      checks: 1,
      harvests: 1,
    });
    expect(byMonth.map(({ key, totals }) => [key, totals.fedEstimatedG])).toEqual([
      ['2026-05', 301],
      ['2026-06', 99],
    ]);
  });

  it('leaves time of no bin out of the bins and in its site', () => {
    const report = seasonOf([row({ type: 'attendance', binId: null, minutes: 60 })]);
    expect(report.byBin).toEqual([]);
    expect(report.bySite[0]?.totals.minutes).toBe(60);
  });

  it('gives zeros for an empty season', () => {
    expect(seasonOf([]).total).toEqual(Object.fromEntries(SEASON_COLUMN_IDS.map((id) => [id, 0])));
  });

  it('refuses broken grams', () => {
    expect(() => seasonOf([row({ grams: 0.5 })])).toThrow(RangeError);
    expect(() => seasonOf([row({ grams: -1 })])).toThrow(RangeError);
  });

  it('adds up to the gram by site, by bin and by month, whatever the rows', () => {
    // An entry belongs to one bin and one day, as in the log: the counts add up only then.
    const rows = fc.array(
      fc.record({
        type: fc.constantFrom(...SEASON_ROW_TYPES),
        bin: fc.integer({ min: 0, max: 5 }),
        day: fc.integer({ min: 10, max: 28 }),
        month: fc.integer({ min: 1, max: 9 }),
        grams: fc.integer({ min: 0, max: 5_000_000 }),
        how: fc.constantFrom('weighed', 'container', 'guessed', null),
        minutes: fc.integer({ min: 0, max: 600 }),
        moistureFracWb: fc.option(fc.double({ min: 0, max: 0.99, noNaN: true })),
        volumeMl: fc.option(fc.integer({ min: 0, max: 200_000 })),
        places: fc.integer({ min: 0, max: 60 }),
      }),
    );
    const groups: readonly (keyof SeasonReport)[] = ['bySite', 'byBin', 'byMonth'];
    fc.assert(
      fc.property(rows, (list) => {
        const built = list.map(
          (each, index): SeasonRow => ({
            ...each,
            siteId: `site-${each.bin % 2}`,
            binId: `bin-${each.bin}`,
            localDate: `2026-0${each.month}-${each.day}`,
            entries: index % 3,
          }),
        );
        const report = seasonOf(built);
        return groups.every((group) =>
          SEASON_COLUMN_IDS.every(
            (id) => (report[group] as SeasonReport['bySite']).reduce((sum, { totals }) => sum + totals[id], 0) === report.total[id],
          ),
        );
      }),
      { seed: 5 },
    );
  });
});

describe('season columns', () => {
  it('each stand under their own id with a meaning and a unit', () => {
    for (const id of SEASON_COLUMN_IDS) {
      expect(SEASON_COLUMNS[id].id).toBe(id);
      expect(SEASON_COLUMNS[id].meaning).toMatch(/^[A-Z].+\.$/);
    }
  });
});
