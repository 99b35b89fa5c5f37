import { SEASON_COLUMN_IDS, type SeasonColumnId } from './registry.ts';
import type { SeasonTotals } from './season.ts';

export interface SeasonChange {
  readonly column: SeasonColumnId;
  readonly before: number;
  readonly now: number;
  /** Now less before, so that a correction downwards is negative. */
  readonly difference: number;
}

/** Totals of a report; null where a column was not counted yet. */
type KeptTotals = { readonly [K in keyof SeasonTotals]?: SeasonTotals[K] | null };

/**
 * In which columns totals differ from those that were published (criteria D14).
 *
 * @shape totals, totals -> changes[n]
 * @returns In the order of the columns; one that the published totals do not know is left out
 */
export function seasonChanges(published: KeptTotals, totals: SeasonTotals): readonly SeasonChange[] {
  return SEASON_COLUMN_IDS.flatMap((column) => {
    const before = published[column];
    const now = totals[column];
    return before === undefined || before === null || before === now ? [] : [{ column, before, now, difference: now - before }];
  });
}
