/**
 * Local dates and times of a site. An instant is worked out from date, time and zone each time it is
 * needed and never stored, so that a change of the zone rules moves what is still to come.
 */
import { Temporal } from 'temporal-polyfill';

export interface LocalStart {
  readonly localDate: string;
  readonly localTime: string;
  readonly timeZone: string;
}

/** How a local date and time becomes an instant; an argument so that a test can change the zone rules. */
export type ZoneRules = (local: LocalStart) => { readonly instant: Temporal.Instant; readonly shown: Temporal.PlainDateTime };

/** Doubled times mean the first; skipped ones move forward by what the clocks skipped. */
export const currentZoneRules: ZoneRules = ({ localDate, localTime, timeZone }) => {
  const zoned = Temporal.PlainDateTime.from(`${localDate}T${localTime}`).toZonedDateTime(timeZone, { disambiguation: 'compatible' });
  return { instant: zoned.toInstant(), shown: zoned.toPlainDateTime() };
};

export interface Start {
  readonly startsAt: Date;
  readonly timeMoved: boolean;
}

/** Lists ask for the same starts over and over, and working one out costs a hundred times a look-up. The rules of a process never change. */
const knownStarts = new Map<string, { readonly ms: number; readonly timeMoved: boolean }>();
const MOST_KNOWN = 20_000;

/** The instant of a local start, and whether the clocks skipped the time that was asked for. */
export function startOf(local: LocalStart, rules: ZoneRules = currentZoneRules): Start {
  if (rules !== currentZoneRules) return workedOut(local, rules);
  const key = `${local.localDate} ${local.localTime} ${local.timeZone}`;
  const known = knownStarts.get(key);
  // A date can be changed by whoever holds it, so each asker gets their own.
  if (known !== undefined) return { startsAt: new Date(known.ms), timeMoved: known.timeMoved };
  const made = workedOut(local, rules);
  if (knownStarts.size >= MOST_KNOWN) knownStarts.clear();
  knownStarts.set(key, { ms: made.startsAt.getTime(), timeMoved: made.timeMoved });
  return made;
}

function workedOut(local: LocalStart, rules: ZoneRules): Start {
  const { instant, shown } = rules(local);
  const asked = Temporal.PlainDateTime.from(`${local.localDate}T${local.localTime}`);
  return { startsAt: new Date(instant.epochMilliseconds), timeMoved: !shown.equals(asked) };
}

/** A board asks for the day of each bin, at one instant and in few zones. */
const knownDates = new Map<string, { readonly second: number; readonly date: string }>();
const MOST_ZONES = 1000;
const MS_PER_S = 1000;

/** The day it is at a place at an instant. */
export function localDateAt(at: Date, timeZone: string): string {
  const second = Math.floor(at.getTime() / MS_PER_S);
  const known = knownDates.get(timeZone);
  if (known?.second === second) return known.date;
  const date = zonedAt(at, timeZone).toPlainDate().toString();
  if (knownDates.size >= MOST_ZONES) knownDates.clear();
  knownDates.set(timeZone, { second, date });
  return date;
}

export function localTimeAt(at: Date, timeZone: string): string {
  return zonedAt(at, timeZone).toPlainTime().toString({ smallestUnit: 'minute' });
}

export function addDays(localDate: string, days: number): string {
  return Temporal.PlainDate.from(localDate).add({ days }).toString();
}

/** The same weekday `count` times in a row, the first included. */
export function weeklyFrom(localDate: string, count: number): string[] {
  const first = Temporal.PlainDate.from(localDate);
  return Array.from({ length: count }, (_, weeks) => first.add({ weeks }).toString());
}

/** Whole days from one local date to another; negative when `to` comes first. */
export function daysBetween(from: string, to: string): number {
  return Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(to), { largestUnit: 'days' }).days;
}

/** 1 for the first of January. */
export function dayOfYear(localDate: string): number {
  return Temporal.PlainDate.from(localDate).dayOfYear;
}

function zonedAt(at: Date, timeZone: string): Temporal.ZonedDateTime {
  return Temporal.Instant.fromEpochMilliseconds(at.getTime()).toZonedDateTimeISO(timeZone);
}
