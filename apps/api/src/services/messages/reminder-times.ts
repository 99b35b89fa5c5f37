/** When somebody is reminded of a shift, by the clocks of its site. */
import { addDays, type LocalStart, startOf } from '../local-time.ts';
import { type QuietHours, quietSpanAt } from './quiet.ts';

export const REMINDER_KINDS = ['reminder-day', 'reminder-hours'] as const;
export type ReminderKind = (typeof REMINDER_KINDS)[number];

export interface ReminderTime {
  readonly kind: ReminderKind;
  readonly dueAt: Date;
  /** From then on it says nothing new. */
  readonly staleAt: Date;
}

const MINUTE_MS = 60_000;
const HOURS_BEFORE_MS = 120 * MINUTE_MS;
/** A reminder after the quiet hours must leave so much time to get there. */
const LEAST_NOTICE_MS = 30 * MINUTE_MS;
/** One that would be too late in the morning comes so long before the quiet hours begin. */
const BEFORE_QUIET_MS = 15 * MINUTE_MS;

/**
 * Both reminders of a shift: at its local time on the day before, and two hours before it begins.
 *
 * What falls into quiet hours comes after them; where that leaves no time to get there, the evening before.
 */
export function reminderTimes(shift: LocalStart, quiet: QuietHours): readonly ReminderTime[] {
  const { timeZone, localTime, localDate } = shift;
  const { startsAt } = startOf(shift);
  const dayBefore = startOf({ timeZone, localTime, localDate: addDays(localDate, -1) }).startsAt;
  const day = outsideQuiet(dayBefore, startsAt, timeZone, quiet);
  const hours = outsideQuiet(new Date(startsAt.getTime() - HOURS_BEFORE_MS), startsAt, timeZone, quiet);
  return [
    { kind: 'reminder-day', dueAt: day, staleAt: hours > day ? hours : startsAt },
    { kind: 'reminder-hours', dueAt: hours, staleAt: startsAt },
  ];
}

function outsideQuiet(at: Date, startsAt: Date, timeZone: string, quiet: QuietHours): Date {
  const span = quietSpanAt(at, timeZone, quiet);
  if (span === null) return at;
  const isInTime = startsAt.getTime() - span.to.getTime() >= LEAST_NOTICE_MS;
  return isInTime ? span.to : new Date(span.from.getTime() - BEFORE_QUIET_MS);
}
