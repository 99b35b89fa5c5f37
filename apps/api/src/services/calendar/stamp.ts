/** Numbers and instants that rise whenever what a calendar is told changes, whoever or whatever changed it. */
import { sqliteCodeOf } from '../../db/fault.ts';
import { type CalendarStampRow, calendarStamps, putCalendarStamp } from '../../db/repositories/calendar.ts';
import { type Store, write } from '../../db/store.ts';
import { hashOf } from '../secret.ts';

const SECOND_MS = 1000;

/** What is told of something, by its id. */
export type Contents = ReadonlyMap<string, string>;

/**
 * The stamp of each subject, with what changed since it was last told noted down.
 *
 * Comparing what is told catches every cause alike: a shift that was moved, a site that was renamed,
 * a zone whose rules changed.
 */
export function stampsOf(store: Store, contents: Contents, now: Date): ReadonlyMap<string, CalendarStampRow> {
  const known = new Map(calendarStamps(store, [...contents.keys()]).map((row) => [row.subject, row]));
  const changed: CalendarStampRow[] = [];
  for (const [subject, content] of contents) {
    const contentHash = hashOf(content);
    const before = known.get(subject);
    if (before?.contentHash === contentHash) continue;
    changed.push({ subject, contentHash, sequence: before === undefined ? 0 : before.sequence + 1, changedAt: laterThan(before, now) });
  }
  if (changed.length > 0) keep(store, changed);
  for (const row of changed) known.set(row.subject, row);
  return known;
}

/** Whole seconds, as calendars know no others; and later than before, though the clock was put back. */
function laterThan(before: CalendarStampRow | undefined, now: Date): string {
  const least = before === undefined ? 0 : Date.parse(before.changedAt) + SECOND_MS;
  return new Date(Math.max(least, Math.floor(now.getTime() / SECOND_MS) * SECOND_MS)).toISOString();
}

/** A full disk must not keep anybody from reading. */
function keep(store: Store, rows: readonly CalendarStampRow[]): void {
  try {
    write(store, () => {
      for (const row of rows) putCalendarStamp(store, row);
    });
  } catch (error) {
    if (sqliteCodeOf(error) === '') throw error;
  }
}
