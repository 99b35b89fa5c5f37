import { adultsNeeded, countsAsAdult, hasSkills, isPupil, likingOf, type Obstacle, type ObstacleRule, obstaclesOf } from './rules.ts';
import { adultsMissing, type Seat, seatsOf } from './seats.ts';
import { peopleByShift, placesOf, type RotaTable, shiftsByPerson, tableOf } from './table.ts';
import type { FoundRota, Liking, Pairing, Proposal, RotaPerson, RotaShift, RotaSpec } from './types.ts';

/** Why somebody in particular is proposed; the words live in the web's messages. */
export const WHY_CODES = [
  'only-one',
  'furthest-below-wish',
  'has-skill',
  'counts-as-adult',
  'glad-then',
  'wanted-it',
  'asked-before',
] as const;
export type WhyCode = (typeof WHY_CODES)[number];

export interface ProposalReason extends Pairing {
  readonly why: readonly WhyCode[];
  /** People who could come instead, the sign-ups given. */
  readonly others: number;
  readonly wish: number;
  readonly heldBefore: number;
  readonly heldAfter: number;
  readonly liking: Liking | null;
}

/** A rule in somebody's way. `proposals` are the proposed shifts that fill the time or the cap; without them the sign-ups do. */
export interface Hindrance {
  readonly rule: ObstacleRule;
  readonly shiftIds: readonly string[];
  readonly proposals: readonly string[];
}

export interface Gap {
  readonly shiftId: string;
  readonly uncovered: number;
  readonly adultsMissing: number;
  /** Everybody who is not there, with what stands in the way; nobody is left without a reason in an optimal rota. */
  readonly people: readonly { readonly personId: string; readonly hindrances: readonly Hindrance[] }[];
  /** How many people each rule keeps away, most first. */
  readonly rules: readonly { readonly rule: ObstacleRule; readonly count: number }[];
}

export interface Explanation {
  readonly proposals: readonly ProposalReason[];
  readonly gaps: readonly Gap[];
}

/**
 * Why this person, and for each unfilled place which people and which rules stand in the way.
 *
 * @shape spec, rota -> reasons, gaps
 * @throws {RangeError} when the spec names somebody or something unknown
 */
export function explainRota(spec: RotaSpec, rota: Pick<FoundRota, 'proposals' | 'possible'>): Explanation {
  const table = tableOf(spec);
  return {
    proposals: rota.proposals.map((proposal) => reasonOf(table, rota, proposal)),
    gaps: table.shifts.flatMap((shift) => gapOf(table, rota.proposals, shift)),
  };
}

function reasonOf(
  table: RotaTable,
  { proposals, possible }: Pick<FoundRota, 'proposals' | 'possible'>,
  proposal: Proposal,
): ProposalReason {
  const { spec } = table;
  const person = table.personOf.get(proposal.personId) as RotaPerson;
  const shift = table.shiftOf.get(proposal.shiftId) as RotaShift;
  const before = shiftsByPerson(table, spec.signUps);
  const countOf = (id: string): number => before.get(id)?.length ?? 0;
  const belowOf = ({ id, wish }: RotaPerson): number => Math.min(wish, possible[id] ?? 0) - countOf(id);
  const skills = shift.places[proposal.group]?.skills ?? [];
  const others = table.people.filter(
    (other) =>
      other.id !== person.id &&
      hasSkills(other, skills) &&
      obstaclesOf(other, shift, before.get(other.id) ?? [], spec.travelMinutes).length === 0,
  );
  const liking = likingOf(person, shift);
  const there = [...spec.signUps, ...proposals].filter(({ shiftId }) => shiftId === shift.id);
  const pupils = there.filter(({ personId }) => isPupil(table.personOf.get(personId) as RotaPerson)).length;
  const holds: Readonly<Record<WhyCode, boolean>> = {
    'only-one': others.length === 0,
    'furthest-below-wish': belowOf(person) > 0 && others.every((other) => belowOf(other) <= belowOf(person)),
    'has-skill': skills.length > 0,
    'counts-as-adult': pupils > 0 && countsAsAdult(person),
    'glad-then': liking === 'glad',
    'wanted-it': person.marks[shift.id] === 0,
    'asked-before': spec.earlier.some(({ personId, shiftId }) => personId === person.id && shiftId === shift.id),
  };
  const heldBefore = countOf(person.id);
  return {
    personId: person.id,
    shiftId: shift.id,
    why: WHY_CODES.filter((code) => holds[code]),
    others: others.length,
    wish: person.wish,
    heldBefore,
    heldAfter: heldBefore + proposals.filter(({ personId }) => personId === person.id).length,
    liking,
  };
}

function gapOf(table: RotaTable, proposals: readonly Proposal[], shift: RotaShift): Gap[] {
  const { spec } = table;
  const all = [...spec.signUps, ...proposals];
  const people = peopleByShift(table, all).get(shift.id) ?? [];
  const missing = adultsMissing(shift, people);
  const open = seatsOf(table, shift, proposals).filter(({ person }) => person === null);
  const uncovered = open.length;
  if (uncovered === 0 && missing === 0) return [];
  const held = shiftsByPerson(table, all);
  const away = table.people.filter((person) => !people.includes(person));
  const found = away.map((person) => ({
    personId: person.id,
    hindrances: [
      ...obstaclesOf(person, shift, held.get(person.id) ?? [], spec.travelMinutes).map((obstacle) =>
        hindranceOf(obstacle, proposals, person),
      ),
      ...restOf({ shift, people, person, open }),
    ],
  }));
  return [{ shiftId: shift.id, uncovered, adultsMissing: missing, people: found, rules: countedRules(found) }];
}

function hindranceOf({ rule, shiftIds }: Obstacle, proposals: readonly Proposal[], person: RotaPerson): Hindrance {
  const asked = proposals.filter(({ personId }) => personId === person.id).map(({ shiftId }) => shiftId);
  return { rule, shiftIds, proposals: shiftIds.filter((id) => asked.includes(id)) };
}

interface Rest {
  readonly shift: RotaShift;
  readonly people: readonly RotaPerson[];
  readonly person: RotaPerson;
  readonly open: readonly Seat[];
}

/** What hangs on who else is there: a skill for just the open place, room for one more, adults for one more pupil. */
function restOf({ shift, people, person, open }: Rest): Hindrance[] {
  const plain = (rule: ObstacleRule): Hindrance => ({ rule, shiftIds: [], proposals: [] });
  const found: Hindrance[] = [];
  const knowsSome = shift.places.some(({ skills }) => hasSkills(person, skills));
  if (open.length > 0 && knowsSome && !open.some(({ skills }) => hasSkills(person, skills))) found.push(plain('no-skill'));
  if (people.length >= placesOf(shift)) found.push(plain('shift-full'));
  if (isPupil(person)) {
    const pupils = people.filter(isPupil).length + 1;
    if (adultsNeeded(pupils, shift.adultRule) > people.filter(countsAsAdult).length) found.push(plain('no-adults'));
  } else if (open.length === 0 && !countsAsAdult(person)) found.push(plain('not-cleared'));
  return found;
}

function countedRules(people: Gap['people']): Gap['rules'] {
  const counts = new Map<ObstacleRule, number>();
  for (const { hindrances } of people)
    for (const rule of new Set(hindrances.map((one) => one.rule))) counts.set(rule, (counts.get(rule) ?? 0) + 1);
  return [...counts].map(([rule, count]) => ({ rule, count })).sort((one, other) => other.count - one.count);
}
