import { adultsNeeded, countsAsAdult, hasSkills, isPupil } from './rules.ts';
import { peopleByShift, type RotaTable } from './table.ts';
import type { Proposal, RotaPerson, RotaShift } from './types.ts';

/** One place of a shift, and who covers it. */
export interface Seat {
  readonly group: number;
  readonly skills: readonly string[];
  readonly person: RotaPerson | null;
}

/**
 * Who covers which place: proposals where they say, sign-ups wherever they leave most covered (augmenting paths).
 *
 * @shape shift, people signed up, proposals -> seats[n]
 */
export function seatsOf(table: RotaTable, shift: RotaShift, proposals: readonly Proposal[]): readonly Seat[] {
  const asked = proposals.filter(({ shiftId }) => shiftId === shift.id);
  const free: { readonly group: number; readonly skills: readonly string[] }[] = [];
  const seats: Seat[] = [];
  shift.places.forEach(({ count, skills }, group) => {
    const here = asked.filter((proposal) => proposal.group === group);
    for (const { personId } of here) seats.push({ group, skills, person: table.personOf.get(personId) ?? null });
    for (let seat = here.length; seat < count; seat += 1) free.push({ group, skills });
  });
  const sitting = new Map<number, RotaPerson>();
  const seat = (person: RotaPerson, tried: Set<number>): boolean =>
    free.some(({ skills }, index) => {
      if (tried.has(index) || !hasSkills(person, skills)) return false;
      tried.add(index);
      const there = sitting.get(index);
      if (there && !seat(there, tried)) return false;
      sitting.set(index, person);
      return true;
    });
  for (const person of peopleByShift(table, table.spec.signUps).get(shift.id) ?? []) seat(person, new Set());
  return [...seats, ...free.map((place, index) => ({ ...place, person: sitting.get(index) ?? null }))];
}

/** C19: adults that these people's pupils still ask for. */
export const adultsMissing = (shift: RotaShift, people: readonly RotaPerson[]): number =>
  Math.max(0, adultsNeeded(people.filter(isPupil).length, shift.adultRule) - people.filter(countsAsAdult).length);
