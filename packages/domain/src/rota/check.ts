import { mayCome, mostPlaces, peopleOf, shiftsOf, togetherFault, tooClose } from './check-person.ts';
import { adultsMissing, judgedScore } from './check-score.ts';
import type { FoundRota, Proposal, RotaPerson, RotaShift, RotaSpec, Score } from './types.ts';

/*
 * Judges a rota by the spec alone. It shares no code with what makes one, on purpose: the same slip would have to be made twice.
 */

/**
 * Everything that is wrong with a rota: rules its proposals break, and figures that do not come out as said.
 *
 * @shape spec, rota -> faults
 * @returns Empty when all is well
 */
export function rotaFaults(spec: RotaSpec, rota: Pick<FoundRota, 'proposals' | 'score' | 'possible'>): readonly string[] {
  const faults = [...ruleFaults(spec, rota.proposals), ...adultFaults(spec, rota.proposals)];
  for (const person of spec.people) {
    const most = mostPlaces(spec, person);
    const said = rota.possible[person.id];
    if (said !== most) faults.push(`${person.id} could hold ${most}, not ${said}`);
  }
  for (const [part, value] of Object.entries(judgedScore(spec, rota))) {
    const said = rota.score[part as keyof Score];
    if (said !== value) faults.push(`${part} is ${value}, not ${said}`);
  }
  return faults;
}

/** Rules that hold for every part of a rota as soon as they hold for all of it: everything but the adult rule. */
export function ruleFaults(spec: RotaSpec, proposals: readonly Proposal[]): readonly string[] {
  const strangers = proposals.filter(
    ({ personId, shiftId }) => !spec.people.some(({ id }) => id === personId) || !spec.shifts.some(({ id }) => id === shiftId),
  );
  return [
    ...strangers.map(({ personId, shiftId }) => `unknown: ${personId} on ${shiftId}`),
    ...spec.people.flatMap((person) => personFaults(spec, proposals, person)),
    ...spec.shifts.flatMap((shift) => shiftFaults(spec, proposals, shift)),
  ];
}

/** C19: no pupil is asked to a shift that lacks adults. */
export function adultFaults(spec: RotaSpec, proposals: readonly Proposal[]): readonly string[] {
  const pupils = new Set(spec.people.filter(({ adult }) => !adult).map(({ id }) => id));
  return spec.shifts
    .filter(({ id }) => proposals.some(({ shiftId, personId }) => shiftId === id && pupils.has(personId)))
    .filter((shift) => adultsMissing(shift, peopleOf(spec, [...spec.signUps, ...proposals], shift.id)) > 0)
    .map(({ id }) => `${id} asks a pupil without enough adults`);
}

function personFaults(spec: RotaSpec, proposals: readonly Proposal[], person: RotaPerson): string[] {
  const faults: string[] = [];
  const proposed = shiftsOf(spec, proposals, person.id);
  const signedUp = shiftsOf(spec, spec.signUps, person.id);
  if (proposed.length < proposals.filter(({ personId }) => personId === person.id).length) faults.push(`${person.id} is asked twice`);
  for (const shift of proposed) {
    const fault = mayCome(person, shift);
    if (fault) faults.push(`${person.id} is asked for ${shift.id} ${fault}`);
    if (signedUp.includes(shift)) faults.push(`${person.id} is asked for ${shift.id} where they are already`);
    // Sign-ups may be too close to each other for the way between; a proposal may not be too close to anything.
    for (const other of signedUp)
      if (tooClose(shift, other, spec.travelMinutes)) faults.push(`${person.id} is asked for ${shift.id} during ${other.id}`);
  }
  if (proposed.length === 0) return faults;
  const noCaps = { period: null, week: null, day: null };
  const fault =
    togetherFault({ ...person, caps: noCaps }, proposed, spec.travelMinutes) ?? togetherFault(person, [...signedUp, ...proposed], 0);
  if (fault) faults.push(`${person.id} ${fault}`);
  return faults;
}

function shiftFaults(spec: RotaSpec, proposals: readonly Proposal[], shift: RotaShift): string[] {
  const faults: string[] = [];
  const asked = proposals.filter(({ shiftId }) => shiftId === shift.id);
  if (asked.length === 0) return faults;
  const all = [...peopleOf(spec, spec.signUps, shift.id), ...peopleOf(spec, proposals, shift.id)];
  if (all.length > shift.places.reduce((sum, { count }) => sum + count, 0)) faults.push(`${shift.id} is over full`);
  for (const [group, { count, skills }] of shift.places.entries()) {
    const here = asked.filter((proposal) => proposal.group === group);
    if (here.length > count) faults.push(`${shift.id} has ${here.length} people for ${count} places of group ${group}`);
    for (const { personId } of here) {
      const able = spec.people.find(({ id }) => id === personId)?.skills ?? [];
      if (skills.some((skill) => !able.includes(skill))) faults.push(`${personId} lacks a skill for ${shift.id}`);
    }
  }
  if (asked.some(({ group }) => !shift.places[group])) faults.push(`${shift.id} has no such group of places`);
  return faults;
}
