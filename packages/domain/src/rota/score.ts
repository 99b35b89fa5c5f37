import { dislikeOf } from './rules.ts';
import { adultsMissing, seatsOf } from './seats.ts';
import { pairKey, peopleByShift, type RotaTable, shiftsByPerson } from './table.ts';
import type { Proposal, RotaPerson, RotaShift, Score } from './types.ts';

/**
 * The score of what is proposed, counted anew: where a limit ended the search, the programme's own columns may say more than is there.
 *
 * @shape table, proposals, possible places by person -> score
 */
export function scoreOf(table: RotaTable, proposals: readonly Proposal[], possible: Readonly<Record<string, number>>): Score {
  const { spec } = table;
  const all = peopleByShift(table, [...spec.signUps, ...proposals]);
  const held = shiftsByPerson(table, spec.signUps);
  const added = shiftsByPerson(table, proposals);
  const people = table.people.map(({ id, wish }) => {
    const before = held.get(id)?.length ?? 0;
    const after = before + (added.get(id)?.length ?? 0);
    const target = Math.min(wish, possible[id] ?? 0);
    return { shortfall: Math.max(0, target - after), excess: Math.max(0, after - Math.max(target, before)) };
  });
  const earlier = new Set(spec.earlier.map(pairKey));
  const kept = proposals.filter((proposal) => earlier.has(pairKey(proposal))).length;
  const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);
  return {
    uncovered: sum(
      table.shifts.map((shift) => {
        const empty = seatsOf(table, shift, proposals).filter(({ person }) => person === null).length;
        return shift.urgency * (empty + adultsMissing(shift, all.get(shift.id) ?? []));
      }),
    ),
    largestShortfall: Math.max(0, ...people.map(({ shortfall }) => shortfall)),
    squaredShortfalls: sum(people.map(({ shortfall }) => shortfall * shortfall)),
    squaredExcess: sum(people.map(({ excess }) => excess * excess)),
    dislike: sum(
      proposals.map(({ personId, shiftId }) =>
        dislikeOf(table.personOf.get(personId) as RotaPerson, table.shiftOf.get(shiftId) as RotaShift),
      ),
    ),
    changes: proposals.length - kept + (earlier.size - kept),
  };
}
