/** Quiet hours: local times of a zone between which nobody is written to without need. */
import { addDays, localDateAt, localTimeAt, startOf } from '../local-time.ts';

/** Local times; the same twice means that there are none. */
export interface QuietHours {
  readonly quietFrom: string;
  readonly quietTo: string;
}

export interface QuietSpan {
  readonly from: Date;
  readonly to: Date;
}

/**
 * The quiet hours in which an instant lies; null when it lies in none.
 *
 * Begin and end are worked out as local times of their own days, so that a night with a change of the
 * clocks is as long as it really is.
 */
export function quietSpanAt(at: Date, timeZone: string, { quietFrom, quietTo }: QuietHours): QuietSpan | null {
  if (quietFrom === quietTo) return null;
  const today = localDateAt(at, timeZone);
  const now = localTimeAt(at, timeZone);
  const overMidnight = quietTo < quietFrom;
  const isQuiet = overMidnight ? now >= quietFrom || now < quietTo : now >= quietFrom && now < quietTo;
  if (!isQuiet) return null;
  const firstDay = overMidnight && now < quietTo ? addDays(today, -1) : today;
  const lastDay = overMidnight ? addDays(firstDay, 1) : firstDay;
  const instantOf = (localDate: string, localTime: string) => startOf({ localDate, localTime, timeZone }).startsAt;
  return { from: instantOf(firstDay, quietFrom), to: instantOf(lastDay, quietTo) };
}

/** The first instant from `at` on that is not quiet. */
export const afterQuiet = (at: Date, timeZone: string, quiet: QuietHours): Date => quietSpanAt(at, timeZone, quiet)?.to ?? at;
