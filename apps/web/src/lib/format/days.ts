import { SECONDS_PER_DAY } from '@middenry/domain';
import { dayMaker } from './makers.ts';

/** Days as plain numbers, so that no clock change can shift them. A day is text like `2026-11-25`. */
const MS_PER_S = 1000;
const DAY_MS = SECONDS_PER_DAY * MS_PER_S;

export function dayNumber(day: string): number {
  return Math.round(Date.parse(`${day}T00:00:00Z`) / DAY_MS);
}

export function dayFromNumber(n: number): string {
  return new Date(n * DAY_MS).toISOString().slice(0, 10);
}

export function daysBetween(from: string, to: string): number {
  return dayNumber(to) - dayNumber(from);
}

export function addDays(day: string, days: number): string {
  return dayFromNumber(dayNumber(day) + days);
}

/** The local date of an instant in a zone. */
export function localDay(instant: string | Date, timeZone: string): string {
  return dayMaker('en-CA', { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' }).format(new Date(instant));
}

/** The local wall time of an instant in a zone, `09:30`. */
export function localTime(instant: string | Date, timeZone: string): string {
  return dayMaker('en-GB', { timeZone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }).format(new Date(instant));
}

/**
 * The instant of a local date and time. A time the clocks skip moves forward by the gap; a doubled
 * one is the first of the two, as the API has it.
 */
export function instantOf(day: string, time: string, timeZone: string): string {
  const wanted = Date.parse(`${day}T${time}:00Z`);
  const offsetAt = (ms: number) => Date.parse(`${localDay(new Date(ms), timeZone)}T${localTime(new Date(ms), timeZone)}:00Z`) - ms;
  const before = offsetAt(wanted - DAY_MS);
  const after = offsetAt(wanted + DAY_MS);
  const fits = [wanted - before, wanted - after].filter((ms) => ms + offsetAt(ms) === wanted);
  const chosen = fits.length > 0 ? Math.min(...fits) : wanted - before;
  return new Date(chosen).toISOString().replace('.000Z', 'Z');
}
