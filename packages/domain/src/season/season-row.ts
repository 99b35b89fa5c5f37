import type { HowMeasured } from '../bin/scenario.ts';

export const SEASON_ROW_TYPES = ['feeding', 'bedding', 'check', 'harvest', 'attendance', 'shift'] as const;
export type SeasonRowType = (typeof SEASON_ROW_TYPES)[number];

/** What counts: a feeding item, its bedding, a check, a harvest, a shift, or somebody's time at one; or several of a kind and a bin, added up. */
export interface SeasonRow {
  readonly type: SeasonRowType;
  readonly siteId: string;
  /** Null for what belongs to a site and no one bin. */
  readonly binId: string | null;
  /** Local date of the site, year-month-day; of several, one of the days. */
  readonly localDate: string;
  /** Whole grams; 0 where nothing is weighed. */
  readonly grams: number;
  readonly how: HowMeasured | null;
  /** Whole minutes: given by one who came, or how long a shift lasts. */
  readonly minutes: number;
  /** How many entries begin in it: of a feeding of three items the first has 1 and the others 0, so that it counts once. */
  readonly entries: number;
  /** What was fed, or which bedding. */
  readonly materialId?: string | null;
  /** Of castings, where somebody squeezed or dried a sample. */
  readonly moistureFracWb?: number | null;
  /** Of castings, where they were measured by the bucket. */
  readonly volumeMl?: number | null;
  /** Of a shift. */
  readonly places?: number;
  readonly placesTaken?: number;
}

/** One column of the report: a whole number of every group of rows, which adds up over the groups. */
export interface SeasonColumn {
  readonly id: string;
  readonly unit: 'g' | 'ml' | 'min' | 'count';
  readonly meaning: string;
  readonly of: (rows: readonly SeasonRow[]) => number;
}

export const sumOf = (rows: readonly SeasonRow[], value: (row: SeasonRow) => number): number =>
  rows.reduce((sum, row) => sum + value(row), 0);

export const entriesOf = (rows: readonly SeasonRow[], type: SeasonRowType): number =>
  sumOf(rows, (row) => (row.type === type ? row.entries : 0));
