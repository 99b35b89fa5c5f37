/**
 * Shifts as iCalendar events (RFC 5545, RFC 7986).
 *
 * `ical-generator` writes them: it folds at 75 octets without splitting a letter, ends lines with CRLF and
 * escapes texts. The one text that it does not escape is the calendar's name, which is ours and has no comma.
 */
import ical, { ICalEventStatus } from 'ical-generator';
import type { CalendarShiftRow } from '../../db/repositories/calendar.ts';
import { startOf } from '../local-time.ts';
import type { Words } from '../words/en.ts';

export interface CalendarEvent {
  /** Stays the same for the life of the shift. */
  readonly uid: string;
  readonly startsAt: Date;
  readonly endsAt: Date;
  readonly summary: string;
  readonly location: string;
  readonly description: string;
  readonly url: string | null;
  readonly cancelled: boolean;
}

export interface StampedEvent extends CalendarEvent {
  readonly sequence: number;
  readonly changedAt: Date;
}

const MS_PER_MINUTE = 60_000;
const HOUR_SECONDS = 3600;

/** Only what is safe on somebody's wall: no titles or notes, in which people may have written names. */
export function eventOf(row: CalendarShiftRow, publicUrl: string | undefined, words: Words): CalendarEvent {
  const { startsAt } = startOf(row);
  const site = plain(row.siteName);
  const duties = row.duties?.split(',') ?? [];
  const isFeeding = duties.length === 0 || duties.includes('feed');
  return {
    uid: row.id,
    startsAt,
    endsAt: new Date(startsAt.getTime() + row.minutes * MS_PER_MINUTE),
    summary: isFeeding ? words.feeding(site) : words.care(site),
    location: site,
    description: row.bins === null ? '' : words.bins(plain(row.bins)),
    url: publicUrl === undefined ? null : `${publicUrl}/shifts/${row.id}`,
    cancelled: row.cancelled === 1,
  };
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: RFC 5545, section 3.1, has no place for them in a text
const plain = (text: string): string => text.replace(/[\u0000-\u001f\u007f]+/g, ' ').trim();

/** A whole calendar; times are UTC, so that no reader has to know a zone. */
export function calendarText(events: readonly StampedEvent[], words: Words): string {
  const whole = written([], words);
  return `${whole.slice(0, whole.indexOf(END))}${events.map((event) => eventText(event, words)).join('')}${END}\r\n`;
}

const END = 'END:VCALENDAR';

/** Writing an event costs a hundred times a look-up, and the same shift stands in the feeds of many. */
const knownTexts = new Map<string, string>();
const MOST_KNOWN = 20_000;

function eventText(event: StampedEvent, words: Words): string {
  const key = JSON.stringify(event);
  const known = knownTexts.get(key);
  if (known !== undefined) return known;
  const whole = written([event], words);
  const text = whole.slice(whole.indexOf('BEGIN:VEVENT'), whole.indexOf(END));
  if (knownTexts.size >= MOST_KNOWN) knownTexts.clear();
  knownTexts.set(key, text);
  return text;
}

/** All in one go, as the library does it. */
export function written(events: readonly StampedEvent[], words: Words): string {
  const language = words.locale.slice(0, 2).toUpperCase();
  const calendar = ical({ name: words.calendarName, prodId: { company: 'Middenry', product: 'Shifts', language }, ttl: HOUR_SECONDS });
  for (const event of events)
    calendar.createEvent({
      id: event.uid,
      ...{ start: event.startsAt, end: event.endsAt, summary: event.summary, location: event.location },
      ...(event.description === '' ? {} : { description: event.description }),
      ...(event.url === null ? {} : { url: event.url }),
      ...{ stamp: event.changedAt, lastModified: event.changedAt, sequence: event.sequence },
      status: event.cancelled ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED,
    });
  const text = calendar.toString();
  return text.endsWith('\r\n') ? text : `${text}\r\n`;
}
