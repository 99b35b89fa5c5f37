import { SECONDS_PER_DAY } from './time.ts';

const MS_PER_DAY = SECONDS_PER_DAY * 1000;
const LEAP_DAY = '02-29';

/** Days since the first of January 1970, of a local date. */
export const dayNumber = (localDate: string): number => Date.parse(`${localDate}T00:00:00Z`) / MS_PER_DAY;
export const daysBetween = (from: string, to: string): number => dayNumber(to) - dayNumber(from);

/** The same day a year before; the 29th of February becomes the 28th. */
export function yearBefore(localDate: string): string {
  const year = Number(localDate.slice(0, 4)) - 1;
  const rest = localDate.slice(5);
  return `${String(year).padStart(4, '0')}-${rest === LEAP_DAY ? '02-28' : rest}`;
}
