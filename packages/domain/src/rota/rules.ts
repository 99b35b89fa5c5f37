import { type Parameter, parameter } from '../bin/parameter.ts';
import type { AdultRule, Liking, RotaPerson, RotaShift } from './types.ts';

/** What can stand between a person and a place. */
export const OBSTACLES = [
  'already-there',
  'declined',
  'other-site',
  'away',
  'not-available',
  'no-skill',
  'two-at-once',
  'cap-day',
  'cap-week',
  'cap-period',
  'shift-full',
  'no-adults',
  'not-cleared',
] as const;
export type ObstacleRule = (typeof OBSTACLES)[number];

/** How much less a time is liked than another; lexicographic order puts it after cover and fairness. */
export const DISLIKE: Readonly<Record<Liking, Parameter>> = {
  glad: parameter(0, '1', 'estimate', 'none: the zero of the scale'),
  can: parameter(1, '1', 'estimate', 'none: the step of the scale'),
  'if-needed': parameter(4, '1', 'estimate', 'none: three people at a plain time before one at a hard time'),
};

const MS_PER_MINUTE = 60_000;

/** Monday is 1. */
export function weekdayOf(localDate: string): number {
  return new Date(`${localDate}T00:00:00Z`).getUTCDay() || 7;
}

/** The Monday of a date's week, as a name for the week. */
export function weekOf(localDate: string): string {
  const monday = new Date(`${localDate}T00:00:00Z`);
  monday.setUTCDate(monday.getUTCDate() - (weekdayOf(localDate) - 1));
  return monday.toISOString().slice(0, localDate.length);
}

/** Whether nobody can be on both: at the same time, or too near for the way between two sites. */
export function clash(one: RotaShift, other: RotaShift, travelMinutes: number): boolean {
  const wayMs = one.siteId === other.siteId ? 0 : travelMinutes * MS_PER_MINUTE;
  return one.startsAtMs < other.endsAtMs + wayMs && other.startsAtMs < one.endsAtMs + wayMs;
}

/** How somebody likes the time of a shift, or null when it is outside their weekly times. */
export function likingOf(person: RotaPerson, shift: RotaShift): Liking | null {
  if (person.weekly.length === 0) return 'can';
  const weekday = weekdayOf(shift.localDate);
  const fitting = person.weekly.filter(
    (time) => time.weekday === weekday && time.fromMinute <= shift.fromMinute && shift.toMinute <= time.toMinute,
  );
  const [best] = fitting.map(({ liking }) => liking).sort((one, other) => DISLIKE[one].value - DISLIKE[other].value);
  return best ?? null;
}

/** Own mark of the shift, else by the liking of its time. */
export function dislikeOf(person: RotaPerson, shift: RotaShift): number {
  return person.marks[shift.id] ?? DISLIKE[likingOf(person, shift) ?? 'if-needed'].value;
}

export const hasSkills = (person: RotaPerson, skills: readonly string[]): boolean => skills.every((skill) => person.skills.includes(skill));

export const isPupil = (person: RotaPerson): boolean => !person.adult;
export const countsAsAdult = (person: RotaPerson): boolean => person.adult && person.cleared;

/** C19: adults that so many pupils ask for. */
export const adultsNeeded = (pupils: number, rule: AdultRule): number =>
  pupils === 0 ? 0 : Math.max(rule.leastAdults, Math.ceil(pupils / rule.pupilsPerAdult));

export interface Obstacle {
  readonly rule: ObstacleRule;
  /** The shifts that fill the time or the cap. */
  readonly shiftIds: readonly string[];
}

/**
 * Every rule that keeps a person from a shift, given the shifts that they are on. Room on the shift and the adult rule are not among
 * them: they hang on who else comes.
 *
 * @returns Empty when nothing stands in the way
 */
export function obstaclesOf(person: RotaPerson, shift: RotaShift, held: readonly RotaShift[], travelMinutes: number): readonly Obstacle[] {
  const found: Obstacle[] = [];
  const add = (rule: ObstacleRule, shifts: readonly RotaShift[] = []): void =>
    void found.push({ rule, shiftIds: shifts.map(({ id }) => id) });
  if (held.some(({ id }) => id === shift.id)) add('already-there');
  if (person.declined.includes(shift.id)) add('declined');
  if (!person.siteIds.includes(shift.siteId)) add('other-site');
  if (person.away.some(({ from, to }) => from <= shift.localDate && shift.localDate <= to)) add('away');
  if (likingOf(person, shift) === null) add('not-available');
  if (!shift.places.some(({ skills }) => hasSkills(person, skills))) add('no-skill');
  const others = held.filter(({ id }) => id !== shift.id);
  const clashing = others.filter((other) => clash(shift, other, travelMinutes));
  if (clashing.length > 0) add('two-at-once', clashing);
  const sameDay = others.filter(({ localDate }) => localDate === shift.localDate);
  const sameWeek = others.filter(({ localDate }) => weekOf(localDate) === weekOf(shift.localDate));
  if (person.caps.day !== null && sameDay.length >= person.caps.day) add('cap-day', sameDay);
  if (person.caps.week !== null && sameWeek.length >= person.caps.week) add('cap-week', sameWeek);
  if (person.caps.period !== null && others.length >= person.caps.period) add('cap-period', others);
  return found;
}
