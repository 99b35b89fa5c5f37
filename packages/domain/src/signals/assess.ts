import type { BinEvent, BinSetup } from '../bin/scenario.ts';
import { BAND_MARKS, type BandBefore, bandOf, bandToShow } from './bands.ts';
import type { SignalAt, SignalDefinition } from './definition.ts';
import { logFactsAt } from './log-facts.ts';
import type { BinDay, MembersDay } from './member-day.ts';
import { mergeFlags, unique } from './merge.ts';
import { SIGNALS } from './registry.ts';
import { type Band, type Reason, SIGNAL_IDS, type SignalId, type SignalOutlook } from './types.ts';

/** Who the bin is and how often it is looked at. */
export interface Keeping {
  readonly setup: BinSetup;
  readonly checkIntervalDays: number;
  readonly resting: boolean;
}

/** With `asked` a band moves when two looks running ask for it; a band alone has only its dead band. */
export type BandsBefore = Readonly<Partial<Record<SignalId, Band | BandBefore>>>;

/** All that the signals read: days before today, today and days after, each with every member. */
export interface Assessable extends Keeping {
  readonly today: number;
  /** Consecutive days, oldest first; today is among them. */
  readonly days: readonly MembersDay[];
  /** Events of the log and of the plan, in order of day. */
  readonly events: readonly BinEvent[];
  /** The bin by its medians on a day from today on. */
  readonly binOn: (day: number) => BinDay;
  /** Bands of the last look, so that a probability near a mark does not flicker. */
  readonly bandsBefore?: BandsBefore;
}

/** On which days a signal holds in which members: holds[day index][member]. */
export interface Course {
  readonly definition: SignalDefinition;
  readonly at: readonly (readonly SignalAt[])[];
  readonly holds: readonly (readonly boolean[])[];
  /** Days running that the condition was met at the end, by member: from here the signal is followed on. */
  readonly running: readonly number[];
}

/** A day's readings for every signal: the log is read once a day, not once a signal. */
export function daysAt(keeping: Keeping, days: readonly MembersDay[], events: readonly BinEvent[]): readonly (readonly SignalAt[])[] {
  const { setup, checkIntervalDays, resting } = keeping;
  return days.map(({ day, readings }) => {
    const log = logFactsAt(events, day);
    return readings.map((reading) => ({ reading, day, ageDays: setup.ageDays + day, log, setup, checkIntervalDays, resting }));
  });
}

/** Follows one signal through the days in every member: dead band, days running, and things seen. */
export function courseOf(definition: SignalDefinition, at: readonly (readonly SignalAt[])[], before: readonly number[] = []): Course {
  const running = [...before];
  const holds = at.map((members) => {
    const seen = members[0] !== undefined && definition.seen(members[0]).length > 0;
    return members.map((each, index) => {
      const ran = running[index] ?? 0;
      const now = definition.condition(each, ran >= definition.delayDays) ? ran + 1 : 0;
      running[index] = now;
      return seen || now >= definition.delayDays;
    });
  });
  return { definition, at, holds, running };
}

/** Share of members, by weight, in which the signal holds on any of the days from `from` to `to`. */
export function shareHolding(course: Course, days: readonly MembersDay[], from: number, to: number): number {
  let share = 0;
  const weights = days[0]?.weights ?? [];
  for (let member = 0; member < weights.length; member++) {
    if (days.some(({ day }, index) => day >= from && day <= to && course.holds[index]?.[member])) share += weights[member] ?? 0;
  }
  return Math.min(1, share);
}

/** Every signal of one bin, the most urgent first; remedies are added by `remediesFor`. */
export function assess(from: Assessable): readonly SignalOutlook[] {
  const at = daysAt(from, from.days, from.events);
  return mergeFlags(SIGNAL_IDS.map((id) => outlookOfSignal(courseOf(SIGNALS[id], at), from)).sort(byUrgency));
}

const URGENCY: Readonly<Record<Band, number>> = { act: 0, unknown: 1, watch: 2, settled: 3 };

export const byUrgency = (a: Pick<SignalOutlook, 'id' | 'band'>, b: Pick<SignalOutlook, 'id' | 'band'>): number =>
  URGENCY[a.band] - URGENCY[b.band] ||
  SIGNALS[a.id].priority - SIGNALS[b.id].priority ||
  SIGNAL_IDS.indexOf(a.id) - SIGNAL_IDS.indexOf(b.id);

function outlookOfSignal(course: Course, from: Assessable): SignalOutlook {
  const { definition } = course;
  const { today, days } = from;
  const todayIndex = days.findIndex(({ day }) => day === today);
  const seen = definition.seen(course.at[todayIndex]?.[0] as SignalAt);
  const soon = shareHolding(course, days, today, today + BAND_MARKS.horizonDays.value);
  const now = shareHolding(course, days, today, today);
  const { band, asked } = bandNow(course, from, { soon, now, todayIndex, seen: seen.length > 0 });
  const firstIndex = days.findIndex(({ day }) => day >= today && shareHolding(course, days, day, day) >= LIKELY);
  return {
    id: definition.id,
    band,
    asked,
    partOf: null,
    probability: soon,
    holdsNow: now >= LIKELY,
    firstLikelyDay: days[firstIndex]?.day ?? null,
    sinceDay: now >= LIKELY ? sinceDay(course, days, today) : null,
    ...(band === 'settled' ? { zone: null, reasons: [] } : told(course, from, firstIndex === -1 ? todayIndex : firstIndex, seen)),
    remedies: [],
    ask: null,
  };
}

const LIKELY = 0.5;

function sinceDay(course: Course, days: readonly MembersDay[], today: number): number {
  let day = today;
  while (day > (days[0]?.day ?? today) && shareHolding(course, days, day - 1, day - 1) >= LIKELY) day--;
  return day;
}

function bandNow(course: Course, from: Assessable, seen: { soon: number; now: number; todayIndex: number; seen: boolean }): BandBefore {
  const { definition } = course;
  // Not having looked is never news of the coming week: the check that falls due says so.
  if (definition.id === 'unseen') {
    const band = seen.now >= LIKELY ? 'unknown' : 'settled';
    return { band, asked: band };
  }
  const members = from.days[0]?.weights.length ?? 0;
  const actDays = members === 1 ? BAND_MARKS.oneMemberActDays.value : BAND_MARKS.horizonDays.value;
  const lasting = shareHolding(course, from.days, from.today + BAND_MARKS.lastingFromDays.value, from.today + BAND_MARKS.horizonDays.value);
  // What is over before anybody could help is watched; only what must be answered within a day acts even so.
  const limit = definition.role === 'alert' && definition.respondWithinDays > 1 ? lasting : 1;
  const near = Math.min(limit, shareHolding(course, from.days, from.today, from.today + actDays));
  const overdue = shareOverdue(course, from.days, seen.todayIndex);
  const before = from.bandsBefore?.[definition.id];
  const [shown, lookBefore] = typeof before === 'object' ? [before.band, before] : [before, undefined];
  const asked = bandOf(definition.role, { soon: seen.soon, near, overdue, seen: seen.seen }, shown);
  const news = from.events.some(({ day }) => day === from.today);
  return { band: bandToShow(lookBefore, asked, { seen: seen.seen, news }), asked };
}

/** Zone and reasons on the day it is first likely, told of the first member in which it happens. */
function told(course: Course, from: Assessable, index: number, seen: readonly Reason[]): Pick<SignalOutlook, 'zone' | 'reasons'> {
  const { definition } = course;
  const day = from.days[index]?.day ?? from.today;
  const at = course.at[index]?.[Math.max(0, course.holds[index]?.indexOf(true) ?? 0)] as SignalAt;
  const whole = { ...at, bin: from.binOn(day) };
  // What was seen against the model's word stands alone: the model has no reason for it.
  const modelled = definition.condition(at, true) ? definition.reasons(whole) : [];
  return { zone: definition.zone(whole), reasons: unique([...seen, ...modelled]) };
}

function shareOverdue(course: Course, days: readonly MembersDay[], todayIndex: number): number {
  const from = todayIndex - course.definition.respondWithinDays;
  if (from < 0) return 0;
  return Array.from(days[0]?.weights ?? []).reduce((share, weight, member) => {
    for (let index = from; index <= todayIndex; index++) if (!course.holds[index]?.[member]) return share;
    return share + weight;
  }, 0);
}
