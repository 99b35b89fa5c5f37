/** A person's shifts as a calendar asks for them, every few minutes and for years. */
import type { Language } from '@middenry/contract';
import type { Context, Signed } from '../../context.ts';
import { type CalendarShiftRow, calendarShiftById, calendarShiftsOf, openCalendarLink } from '../../db/repositories/calendar.ts';
import { lastChangeId } from '../../db/repositories/change.ts';
import type { Store } from '../../db/store.ts';
import { refuse } from '../../refusal.ts';
import { addDays } from '../local-time.ts';
import { type RateKeeper, rateKeeper, refuseOften } from '../rate.ts';
import { hashOf } from '../secret.ts';
import type { Words } from '../words/en.ts';
import { languageOf, WORDS } from '../words/languages.ts';
import { calendarText, eventOf } from './event.ts';
import { stampsOf } from './stamp.ts';

export interface Feed {
  readonly text: string;
  readonly etag: string;
  readonly changedAt: Date;
}

interface KeptFeed extends Feed {
  readonly changeId: number;
  readonly day: string;
  readonly language: Language;
  /** All that the feed rests on, as text. */
  readonly rows: string;
}

interface Desk {
  readonly feeds: Map<string, KeptFeed>;
  readonly readAt: Map<string, string>;
  readonly ofLink: RateKeeper;
  readonly ofStranger: RateKeeper;
}

const HOUR_MS = 3_600_000;
/** A calendar asks every five minutes at most; several of them share a link. */
const READS_AN_HOUR = 120;
/** Wrong addresses from one place. */
const MISSES_AN_HOUR = 60;
const MOST_KEPT = 500;
const PAST_DAYS = 90;
/** Longer than the thirty days that a calendar may take to notice. */
const CANCELLED_DAYS = 45;

const desks = new WeakMap<Store, Desk>();
function deskOf(store: Store): Desk {
  const desk = desks.get(store) ?? {
    feeds: new Map(),
    readAt: new Map(),
    ofLink: rateKeeper({ most: READS_AN_HOUR, perMs: HOUR_MS }),
    ofStranger: rateKeeper({ most: MISSES_AN_HOUR, perMs: HOUR_MS }),
  };
  desks.set(store, desk);
  return desk;
}

/** When a calendar last asked with this link, since this process began. */
export const lastReadAt = (store: Store, linkId: string): string | null => deskOf(store).readAt.get(linkId) ?? null;

/** The feed of a secret address; one that was revoked looks as if it had never been. */
export function readFeed(call: Context, token: string, from: string): Feed {
  const { store, now } = call;
  const desk = deskOf(store);
  const link = openCalendarLink(store, hashOf(token));
  if (link === null) {
    refuseOften(desk.ofStranger, from, now);
    throw refuse('not-found');
  }
  refuseOften(desk.ofLink, link.id, now);
  desk.readAt.set(link.id, now.toISOString());
  const day = call.today('UTC');
  const changeId = lastChangeId(store);
  const kept = desk.feeds.get(link.id);
  const language = languageOf(store, link.personId);
  if (kept?.changeId === changeId && kept.day === day && kept.language === language) return kept;
  const rows = rowsOf(call, link.personId);
  const rowsText = JSON.stringify(rows);
  // Most changes are of something else: what was sent last time still holds.
  const same =
    kept?.rows === rowsText && kept.language === language ? kept : makeFeed(call, { rows, linkId: link.id, words: WORDS[language] });
  const feed = { ...same, changeId, day, language, rows: rowsText };
  if (desk.feeds.size >= MOST_KEPT) desk.feeds.clear();
  desk.feeds.set(link.id, feed);
  return feed;
}

function rowsOf(call: Context, personId: string): CalendarShiftRow[] {
  const { store, now } = call;
  const cancelledSince = new Date(now);
  cancelledSince.setUTCDate(cancelledSince.getUTCDate() - CANCELLED_DAYS);
  return calendarShiftsOf(store, { personId, from: addDays(call.today('UTC'), -PAST_DAYS), cancelledSince: cancelledSince.toISOString() });
}

interface FeedOf {
  readonly rows: readonly CalendarShiftRow[];
  readonly linkId: string;
  readonly words: Words;
}

function makeFeed(call: Context, { rows, linkId, words }: FeedOf): Feed {
  const { store, now } = call;
  const text = textOf(call, rows, words);
  // Taking a shift out changes the feed although no event in it did.
  const whole = stampsOf(store, new Map([[linkId, text]]), now).get(linkId)!;
  return { text, etag: `"${whole.contentHash}"`, changedAt: new Date(whole.changedAt) };
}

function textOf(call: Context, rows: readonly CalendarShiftRow[], words: Words): string {
  const told = (by: Words) => rows.map((row) => eventOf(row, call.config.publicUrl, by));
  // A shift that is read in two languages has not changed.
  const stamps = stampsOf(call.store, new Map(told(WORDS.en).map((event) => [event.uid, JSON.stringify(event)])), call.now);
  const events = told(words).map((event) => {
    const { sequence, changedAt } = stamps.get(event.uid)!;
    return { ...event, sequence, changedAt: new Date(changedAt) };
  });
  return calendarText(events, words);
}

/** One shift as a file. */
export function shiftCalendar(call: Signed, shiftId: string): string {
  const row = calendarShiftById(call.store, shiftId);
  if (row === null) throw refuse('not-found');
  return textOf(call, [row], WORDS[languageOf(call.store, call.who.personId)]);
}
