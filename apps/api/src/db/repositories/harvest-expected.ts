/** What was expected of castings in a bin before a harvest; written once, so that it stays what was said beforehand. */
import type { HowMeasured } from '@middenry/domain';
import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';
import { type SeasonRange, seasonParams } from './season.ts';

export interface ExpectedG {
  readonly lowG: number;
  readonly midG: number;
  readonly highG: number;
}

/** Harvests of a bin from a day on of which nothing is written down yet. */
export const harvestsToExpect = (store: Store, binId: string, from: string): { readonly entryId: string; readonly localDate: string }[] =>
  all(
    store,
    `SELECT e.id AS entryId, e.local_date AS localDate FROM entry e LEFT JOIN harvest_expected x ON x.entry_id = e.id
     WHERE e.kind = 'harvest' AND e.bin_id = ? AND e.local_date >= ? AND e.undone_at IS NULL AND x.entry_id IS NULL`,
    binId,
    from,
  );

/** Call inside a write transaction. */
export function insertHarvestExpected(store: Store, entryId: string, expected: ExpectedG): void {
  run(store, 'INSERT OR IGNORE INTO harvest_expected (entry_id, low_g, mid_g, high_g) VALUES (@entryId, @lowG, @midG, @highG)', {
    entryId,
    ...expected,
  });
}

/** A harvest that was of another bin or day was expected otherwise. Call inside a write transaction. */
export const forgetHarvestExpected = (store: Store, entryId: string): void =>
  void run(store, 'DELETE FROM harvest_expected WHERE entry_id = ?', entryId);

export const harvestExpected = (store: Store, entryId: string): ExpectedG | null =>
  one<ExpectedG>(store, 'SELECT low_g AS lowG, mid_g AS midG, high_g AS highG FROM harvest_expected WHERE entry_id = ?', entryId);

export interface LifeHarvestRow {
  readonly entryId: string;
  readonly localDate: string;
  readonly grams: number;
  readonly how: HowMeasured;
}

export const lastHarvests = (store: Store, binId: string, most: number): LifeHarvestRow[] =>
  all<LifeHarvestRow>(
    store,
    `SELECT e.id AS entryId, e.local_date AS localDate, h.grams, h.how FROM entry e JOIN harvest h ON h.entry_id = e.id
     WHERE e.bin_id = ? AND e.undone_at IS NULL ORDER BY e.happened_at DESC, e.id DESC LIMIT ?`,
    binId,
    most,
  );

/** Weighed harvests of a season with what was expected before them; nulls where it was not. */
export interface SeasonHarvestRow {
  readonly siteId: string;
  readonly binId: string;
  readonly localDate: string;
  readonly grams: number;
  readonly lowG: number | null;
  readonly midG: number | null;
  readonly highG: number | null;
}

export const seasonWeighedHarvests = (store: Store, range: SeasonRange): SeasonHarvestRow[] =>
  all<SeasonHarvestRow>(
    store,
    `SELECT b.site_id AS siteId, b.id AS binId, e.local_date AS localDate, h.grams, x.low_g AS lowG, x.mid_g AS midG, x.high_g AS highG
       FROM harvest h JOIN entry e ON e.id = h.entry_id JOIN bin b ON b.id = e.bin_id LEFT JOIN harvest_expected x ON x.entry_id = e.id
       WHERE h.how = 'weighed' AND e.local_date BETWEEN @from AND @to AND e.undone_at IS NULL
         AND (@siteIds IS NULL OR b.site_id IN (SELECT value FROM json_each(@siteIds)))
       ORDER BY e.local_date, e.id`,
    seasonParams(range),
  );
