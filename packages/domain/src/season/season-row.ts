import type { HowMeasured } from '../bin/scenario.ts';

export const SEASON_ROW_TYPES = ['feeding', 'check', 'harvest', 'attendance'] as const;
export type SeasonRowType = (typeof SEASON_ROW_TYPES)[number];

/** One thing that counts, as plain as it was written down: a feeding item, a check, a harvest, or somebody's time at a shift. */
export interface SeasonRow {
  readonly type: SeasonRowType;
  readonly siteId: string;
  /** Null for time that belongs to a site and no one bin. */
  readonly binId: string | null;
  /** Local date of the site, year-month-day. */
  readonly localDate: string;
  /** Whole grams; 0 where nothing is weighed. */
  readonly grams: number;
  readonly how: HowMeasured | null;
  /** Whole minutes given. */
  readonly minutes: number;
  /** The entry that a row belongs to, so that a feeding of three items counts once. */
  readonly entryId: string;
}

/** One column of the report: a whole number of every group of rows, which adds up over groups that share no entry. */
export interface SeasonColumn {
  readonly id: string;
  readonly unit: 'g' | 'min' | 'count';
  readonly meaning: string;
  readonly of: (rows: readonly SeasonRow[]) => number;
}

export const sumOf = (rows: readonly SeasonRow[], value: (row: SeasonRow) => number): number =>
  rows.reduce((sum, row) => sum + value(row), 0);

export const entriesOf = (rows: readonly SeasonRow[], type: SeasonRowType): number =>
  new Set(rows.filter((row) => row.type === type).map((row) => row.entryId)).size;
