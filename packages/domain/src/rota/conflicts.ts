import { adultsNeeded, clash, countsAsAdult, isPupil, weekOf } from './rules.ts';
import { peopleByShift, placesOf, type RotaTable, shiftsByPerson } from './table.ts';
import type { Conflict, RotaPerson, RotaShift, RotaSpec } from './types.ts';

/**
 * Where the sign-ups already made break a rule, so that no rota can keep it. What somebody did against their own weekly times, days
 * away or skills is their own will and no conflict.
 *
 * @returns Empty when every rule can still be kept
 */
export function conflictsOf(table: RotaTable): readonly Conflict[] {
  const byShift = peopleByShift(table, table.spec.signUps);
  const byPerson = shiftsByPerson(table, table.spec.signUps);
  return [
    ...table.shifts.flatMap((shift) => ofShift(shift, byShift.get(shift.id) ?? [])),
    ...table.people.flatMap((person) => ofPerson(person, byPerson.get(person.id) ?? [])),
  ];
}

function ofShift(shift: RotaShift, people: readonly RotaPerson[]): Conflict[] {
  const about = (rule: Conflict['rule']): Conflict => ({ rule, shiftIds: [shift.id], personIds: people.map(({ id }) => id) });
  const free = placesOf(shift) - people.length;
  if (free < 0) return [about('shift-over-full')];
  const missing = adultsNeeded(people.filter(isPupil).length, shift.adultRule) - people.filter(countsAsAdult).length;
  return missing > free ? [about('adults-cannot-fit')] : [];
}

function ofPerson(person: RotaPerson, held: readonly RotaShift[]): Conflict[] {
  const about = (rule: Conflict['rule'], shifts: readonly RotaShift[]): Conflict => ({
    rule,
    shiftIds: shifts.map(({ id }) => id),
    personIds: [person.id],
  });
  const found: Conflict[] = [];
  held.forEach((one, index) => {
    // Two sites too near each other in time is a long walk, not a broken rule.
    for (const other of held.slice(index + 1)) if (clash(one, other, 0)) found.push(about('two-at-once', [one, other]));
  });
  const capped = (cap: number | null, nameOf: (shift: RotaShift) => string): void => {
    for (const name of new Set(held.map(nameOf))) {
      const shifts = held.filter((shift) => nameOf(shift) === name);
      if (cap !== null && shifts.length > cap) found.push(about('over-cap', shifts));
    }
  };
  capped(person.caps.day, ({ localDate }) => localDate);
  capped(person.caps.week, ({ localDate }) => weekOf(localDate));
  capped(person.caps.period, () => 'period');
  return found;
}

/**
 * The same rota without the shifts in conflict, so that the rest can be filled while somebody sorts those out. Who is on too many
 * shifts already is asked for no more.
 */
export function withoutConflicts(spec: RotaSpec, conflicts: readonly Conflict[]): RotaSpec {
  const out = new Set(conflicts.flatMap(({ shiftIds }) => shiftIds));
  const busy = new Set(conflicts.filter(({ personIds }) => personIds.length === 1).flatMap(({ personIds }) => personIds));
  const stays = ({ shiftId }: { readonly shiftId: string }): boolean => !out.has(shiftId);
  return {
    ...spec,
    people: spec.people.map((person) => (busy.has(person.id) ? { ...person, declined: spec.shifts.map(({ id }) => id) } : person)),
    shifts: spec.shifts.filter(({ id }) => !out.has(id)),
    signUps: spec.signUps.filter(stays),
    earlier: spec.earlier.filter(stays),
  };
}
