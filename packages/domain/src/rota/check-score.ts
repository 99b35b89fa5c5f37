import { isoWeekday, peopleOf, shiftsOf } from './check-person.ts';
import type { FoundRota, Pairing, RotaPerson, RotaShift, RotaSpec, Score } from './types.ts';

/* The score as the spec defines it, counted by the checker, which shares no code with what makes a rota. */

/** Adults that the pupils among these people still lack. */
export function adultsMissing({ adultRule }: RotaShift, people: readonly RotaPerson[]): number {
  const pupils = people.filter(({ adult }) => !adult).length;
  const adults = people.filter(({ adult, cleared }) => adult && cleared).length;
  if (pupils === 0) return 0;
  let needed = adultRule.leastAdults;
  while (needed * adultRule.pupilsPerAdult < pupils) needed += 1;
  return Math.max(0, needed - adults);
}

/** Most places that these people can cover, each one place: augmenting paths. */
export function coveredPlaces(shift: RotaShift, people: readonly RotaPerson[]): number {
  const seats = shift.places.flatMap(({ count, skills }) => Array.from({ length: count }, () => skills));
  const sitting = new Map<number, RotaPerson>();
  const seat = (person: RotaPerson, tried: Set<number>): boolean =>
    seats.some((skills, index) => {
      if (tried.has(index) || !skills.every((skill) => person.skills.includes(skill))) return false;
      tried.add(index);
      const there = sitting.get(index);
      if (there && !seat(there, tried)) return false;
      sitting.set(index, person);
      return true;
    });
  return people.filter((person) => seat(person, new Set())).length;
}

/** The score as the spec defines it, counted from the proposals. */
export function judgedScore(spec: RotaSpec, { proposals, possible }: Pick<FoundRota, 'proposals' | 'possible'>): Score {
  const score = { uncovered: 0, largestShortfall: 0, squaredShortfalls: 0, squaredExcess: 0, dislike: 0, changes: 0 };
  const all = [...spec.signUps, ...proposals];
  for (const shift of spec.shifts) {
    const people = peopleOf(spec, all, shift.id);
    const places = shift.places.reduce((sum, { count }) => sum + count, 0);
    score.uncovered += shift.urgency * (places - coveredPlaces(shift, people) + adultsMissing(shift, people));
  }
  for (const person of spec.people) {
    const before = shiftsOf(spec, spec.signUps, person.id).length;
    const after = shiftsOf(spec, all, person.id).length;
    const target = Math.min(person.wish, possible[person.id] ?? 0);
    const shortfall = Math.max(0, target - after);
    const excess = Math.max(0, after - Math.max(target, before));
    score.largestShortfall = Math.max(score.largestShortfall, shortfall);
    score.squaredShortfalls += shortfall * shortfall;
    score.squaredExcess += excess * excess;
    for (const shift of shiftsOf(spec, proposals, person.id)) score.dislike += judgedDislike(person, shift);
  }
  const same = (one: Pairing) => (other: Pairing) => one.personId === other.personId && one.shiftId === other.shiftId;
  score.changes += proposals.filter((now) => !spec.earlier.some(same(now))).length;
  score.changes += spec.earlier.filter((then) => !proposals.some(same(then))).length;
  return score;
}

function judgedDislike(person: RotaPerson, shift: RotaShift): number {
  const mark = person.marks[shift.id];
  if (mark !== undefined) return mark;
  if (person.weekly.length === 0) return 1;
  const fitting = person.weekly.filter(
    ({ weekday, fromMinute, toMinute }) =>
      weekday === isoWeekday(shift.localDate) && fromMinute <= shift.fromMinute && toMinute >= shift.toMinute,
  );
  if (fitting.some(({ liking }) => liking === 'glad')) return 0;
  return fitting.some(({ liking }) => liking === 'can') ? 1 : 4;
}
