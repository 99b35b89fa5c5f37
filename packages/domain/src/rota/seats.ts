import { adultsNeeded, countsAsAdult, hasSkills, isPupil } from './rules.ts';
import { pairKey, peopleByShift, type RotaTable } from './table.ts';
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
  const sitting = sittingOn(free, peopleByShift(table, table.spec.signUps).get(shift.id) ?? []);
  return [...seats, ...free.map((place, index) => ({ ...place, person: sitting.get(index) ?? null }))];
}

/** Who sits where so that most places are covered; whoever comes first in the list keeps a place (augmenting paths). */
function sittingOn(
  places: readonly { readonly skills: readonly string[] }[],
  people: readonly RotaPerson[],
): ReadonlyMap<number, RotaPerson> {
  const sitting = new Map<number, RotaPerson>();
  const seat = (person: RotaPerson, tried: Set<number>): boolean =>
    places.some(({ skills }, index) => {
      if (tried.has(index) || !hasSkills(person, skills)) return false;
      tried.add(index);
      const there = sitting.get(index);
      if (there && !seat(there, tried)) return false;
      sitting.set(index, person);
      return true;
    });
  for (const person of people) seat(person, new Set());
  return sitting;
}

/**
 * The same people on the same shifts, each in the group of places where most are covered: a search that a limit ended may leave
 * somebody with a skill on a place that asks for none.
 */
export function seatedBest(table: RotaTable, proposals: readonly Proposal[]): readonly Proposal[] {
  const signedUp = peopleByShift(table, table.spec.signUps);
  const groups = new Map<string, number>();
  for (const shift of table.shifts) {
    const asked = proposals.filter(({ shiftId }) => shiftId === shift.id).map(({ personId }) => table.personOf.get(personId) as RotaPerson);
    if (asked.length === 0) continue;
    const places = shift.places.flatMap(({ count, skills }, group) => Array.from({ length: count }, () => ({ group, skills })));
    // Those asked come first: the search gave each a place, so each keeps one.
    for (const [index, person] of sittingOn(places, [...asked, ...(signedUp.get(shift.id) ?? [])]))
      groups.set(pairKey({ personId: person.id, shiftId: shift.id }), places[index]?.group ?? 0);
  }
  return proposals.map((proposal) => ({ ...proposal, group: groups.get(pairKey(proposal)) ?? proposal.group }));
}

/** C19: adults that these people's pupils still ask for. */
export const adultsMissing = (shift: RotaShift, people: readonly RotaPerson[]): number =>
  Math.max(0, adultsNeeded(people.filter(isPupil).length, shift.adultRule) - people.filter(countsAsAdult).length);
