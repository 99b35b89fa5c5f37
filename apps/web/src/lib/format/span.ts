import { words } from '../messages/index.ts';
import type { Format } from './format.ts';

/** Beyond two digits of days nobody counts in days (A13). */
const MOST_DAYS = 99;
const YEAR_DAYS = 365;
const MONTH_DAYS = YEAR_DAYS / 12;

/** How long something has lasted: in days, and once that would take three digits in whole months or years. */
export function span(n: number, f: Pick<Format, 'days'>): string {
  if (Math.round(n) <= MOST_DAYS) return f.days(n);
  const years = Math.floor(n / YEAR_DAYS);
  return words.figures.over(years > 0 ? words.spans.years(years) : words.spans.months(Math.floor(n / MONTH_DAYS)));
}
