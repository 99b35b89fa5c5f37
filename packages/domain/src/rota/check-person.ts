import { dayNumber } from '../units/local-day.ts';
import type { Pairing, RotaPerson, RotaShift, RotaSpec } from './types.ts';

/*
 * What one person may be asked for, read from the spec. Part of the checker: it shares no code with what makes a rota, on purpose, so that
 * the same slip would have to be made twice.
 */

export const shiftsOf = (spec: RotaSpec, pairings: readonly Pairing[], personId: string): RotaShift[] =>
  spec.shifts.filter(({ id }) => pairings.some((pairing) => pairing.personId === personId && pairing.shiftId === id));

export const peopleOf = (spec: RotaSpec, pairings: readonly Pairing[], shiftId: string): RotaPerson[] =>
  spec.people.filter(({ id }) => pairings.some((pairing) => pairing.shiftId === shiftId && pairing.personId === id));

/** The first of January 1970 was a Thursday, so its week began three days before. */
const weekNumber = (localDate: string): number => Math.floor((dayNumber(localDate) + 3) / 7);
export const isoWeekday = (localDate: string): number => ((((dayNumber(localDate) + 3) % 7) + 7) % 7) + 1;

export function tooClose(one: RotaShift, other: RotaShift, travelMinutes: number): boolean {
  const pauseMs = one.siteId === other.siteId ? 0 : travelMinutes * 60 * 1000;
  const [first, second] = one.startsAtMs <= other.startsAtMs ? [one, other] : [other, one];
  return second.startsAtMs < first.endsAtMs + pauseMs;
}

/** Whether this person may be asked for this shift as far as it alone goes. */
export function mayCome(person: RotaPerson, shift: RotaShift): string | null {
  if (!person.siteIds.some((siteId) => siteId === shift.siteId)) return 'at another site';
  if (person.declined.some((shiftId) => shiftId === shift.id)) return 'who declined';
  for (const { from, to } of person.away) {
    if (dayNumber(from) <= dayNumber(shift.localDate) && dayNumber(shift.localDate) <= dayNumber(to)) return 'while away';
  }
  const fits = person.weekly.filter(
    ({ weekday, fromMinute, toMinute }) =>
      weekday === isoWeekday(shift.localDate) && shift.fromMinute >= fromMinute && shift.toMinute <= toMinute,
  );
  return person.weekly.length > 0 && fits.length === 0 ? 'outside their week' : null;
}

const over = (cap: number | null, counts: Iterable<number>): boolean => cap !== null && Math.max(0, ...counts) > cap;

function tally(keys: readonly (number | string)[]): Iterable<number> {
  const counts = new Map<number | string, number>();
  for (const key of keys) counts.set(key, (counts.get(key) ?? 0) + 1);
  return counts.values();
}

/** What is wrong with all of one person's shifts taken together. */
export function togetherFault(person: RotaPerson, shifts: readonly RotaShift[], travelMinutes: number): string | null {
  for (const [index, one] of shifts.entries()) {
    for (const other of shifts.slice(index + 1))
      if (tooClose(one, other, travelMinutes)) return `is asked for ${one.id} and ${other.id} at once`;
  }
  if (over(person.caps.period, [shifts.length])) return 'is over the cap of the period';
  if (over(person.caps.week, tally(shifts.map(({ localDate }) => weekNumber(localDate))))) return 'is over the cap of a week';
  if (over(person.caps.day, tally(shifts.map(({ localDate }) => localDate)))) return 'is over the cap of a day';
  return null;
}

/** Places that one person could hold if nobody else were asked, by trying; days stand apart unless shifts or caps join them. */
export function mostPlaces(spec: RotaSpec, person: RotaPerson): number {
  const signedUp = shiftsOf(spec, spec.signUps, person.id);
  const open = spec.shifts.filter((shift) => {
    const there = peopleOf(spec, spec.signUps, shift.id);
    const free = shift.places.reduce((sum, { count }) => sum + count, 0) - there.length;
    const skilled = shift.places.some(({ skills }) => skills.every((skill) => person.skills.includes(skill)));
    const blocked = signedUp.some((other) => other.id === shift.id || tooClose(shift, other, spec.travelMinutes));
    return free > 0 && skilled && !blocked && mayCome(person, shift) === null;
  });
  const inTime = [...open].sort((one, other) => one.startsAtMs - other.startsAtMs);
  const room = Math.min(inTime.length, (person.caps.period ?? Number.POSITIVE_INFINITY) - signedUp.length);
  let best = 0;
  const tryFrom = (index: number, taken: readonly RotaShift[]): void => {
    best = Math.max(best, taken.length);
    // Nothing more to win: stop before trying every part of a long season.
    if (best >= room || taken.length + (inTime.length - index) <= best) return;
    const next = inTime[index];
    if (!next) return;
    const alone = { ...person, caps: { ...person.caps, period: null } };
    const clear = !taken.some((other) => tooClose(next, other, spec.travelMinutes));
    if (clear && togetherFault(alone, [...signedUp, ...taken, next], 0) === null) tryFrom(index + 1, [...taken, next]);
    tryFrom(index + 1, taken);
  };
  if (room > 0) tryFrom(0, []);
  return signedUp.length + best;
}
