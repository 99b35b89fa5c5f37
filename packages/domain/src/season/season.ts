import { SEASON_COLUMN_IDS, SEASON_COLUMNS, type SeasonColumnId } from './registry.ts';
import type { SeasonRow } from './season-row.ts';

export type SeasonTotals = Readonly<Record<SeasonColumnId, number>>;

export interface SeasonGroup {
  readonly key: string;
  readonly totals: SeasonTotals;
}

export interface SeasonReport {
  readonly total: SeasonTotals;
  readonly bySite: readonly SeasonGroup[];
  readonly byBin: readonly SeasonGroup[];
  /** Key year-month. */
  readonly byMonth: readonly SeasonGroup[];
  /** What was fed and which bedding was given; time and castings are of no one material. */
  readonly byMaterial: readonly SeasonGroup[];
}

const LENGTH_OF_YEAR_MONTH = 7;

/**
 * What the rows of a season add up to.
 *
 * @shape rows[n] -> totals, groups
 * @returns Whole grams, minutes and counts; groups in order of their key; rows of no bin are in no bin's group
 * @valid counts, grams and minutes are whole and not negative
 * @throws {RangeError} when one is not
 */
export function seasonOf(rows: readonly SeasonRow[]): SeasonReport {
  return {
    total: seasonTotal(rows),
    bySite: groupsOf(rows, (row) => row.siteId),
    byBin: groupsOf(rows, (row) => row.binId),
    byMonth: groupsOf(rows, (row) => row.localDate.slice(0, LENGTH_OF_YEAR_MONTH)),
    byMaterial: groupsOf(rows, (row) => row.materialId ?? null),
  };
}

/**
 * The total of rows alone, for whoever needs no groups.
 *
 * @shape rows[n] -> totals
 * @returns Whole grams, minutes and counts
 * @valid counts, grams and minutes are whole and not negative
 * @throws {RangeError} when one is not
 */
export function seasonTotal(rows: readonly SeasonRow[]): SeasonTotals {
  for (const { entries, grams, minutes, volumeMl, places, placesTaken } of rows) {
    checkWhole(entries);
    checkWhole(grams);
    checkWhole(minutes);
    checkWhole(volumeMl ?? 0);
    checkWhole(places ?? 0);
    checkWhole(placesTaken ?? 0);
  }
  return totalsOf(rows);
}

function checkWhole(value: number): void {
  if (!Number.isSafeInteger(value) || value < 0)
    throw new RangeError(`Cannot add up the season as figures are whole and not negative: current value is ${value}`);
}

const totalsOf = (rows: readonly SeasonRow[]): SeasonTotals =>
  Object.fromEntries(SEASON_COLUMN_IDS.map((id) => [id, SEASON_COLUMNS[id].of(rows)])) as SeasonTotals;

function groupsOf(rows: readonly SeasonRow[], keyOf: (row: SeasonRow) => string | null): readonly SeasonGroup[] {
  const groups = new Map<string, SeasonRow[]>();
  for (const row of rows) {
    const key = keyOf(row);
    if (key === null) continue;
    const group = groups.get(key);
    if (group) group.push(row);
    else groups.set(key, [row]);
  }
  return [...groups].sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, group]) => ({ key, totals: totalsOf(group) }));
}
