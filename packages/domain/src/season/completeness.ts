/** How complete the log of a season is: of all weeks of all bins, in how many somebody noted something (criteria D4). */
import { dayNumber } from '../units/local-day.ts';
import { DAYS_PER_WEEK } from '../units/time.ts';

export interface SeasonBin {
  readonly binId: string;
  /** Local dates, year-month-day: the first and the last day on which it was kept. */
  readonly keptFrom: string;
  readonly keptTo: string;
}

export interface Completeness {
  readonly binWeeks: number;
  readonly binWeeksNoted: number;
  /** Bins that were kept on at least one day. */
  readonly binsKept: number;
}

/**
 * Weeks of bins, and those with an entry.
 *
 * Weeks are counted in sevens from the first day of the season; the last may be shorter. A week counts for a bin
 * that was kept on any day of it.
 *
 * @shape bins[n], entries[m] -> counts
 * @valid dates are year-month-day
 */
export function completenessOf(
  season: { readonly from: string; readonly to: string },
  bins: readonly SeasonBin[],
  entries: readonly { readonly binId: string; readonly localDate: string }[],
): Completeness {
  const first = dayNumber(season.from);
  const last = dayNumber(season.to);
  const weekOf = (day: number) => Math.floor((day - first) / DAYS_PER_WEEK);
  const noted = new Set<string>();
  for (const { binId, localDate } of entries) {
    const day = dayNumber(localDate);
    if (day >= first && day <= last) noted.add(`${binId} ${weekOf(day)}`);
  }
  let binWeeks = 0;
  let binWeeksNoted = 0;
  let binsKept = 0;
  for (const bin of bins) {
    const from = Math.max(first, dayNumber(bin.keptFrom));
    const to = Math.min(last, dayNumber(bin.keptTo));
    if (from > to) continue;
    binsKept += 1;
    for (let week = weekOf(from); week <= weekOf(to); week += 1) {
      binWeeks += 1;
      if (noted.has(`${bin.binId} ${week}`)) binWeeksNoted += 1;
    }
  }
  return { binWeeks, binWeeksNoted, binsKept };
}
