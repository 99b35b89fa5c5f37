import { ModelBuilder, type Term } from './linear-model.ts';
import { adultsNeeded, clash, countsAsAdult, dislikeOf, hasSkills, isPupil, obstaclesOf, weekOf } from './rules.ts';
import { type Seat, seatsOf } from './seats.ts';
import { pairKey, peopleByShift, placesOf, type RotaTable, shiftsByPerson } from './table.ts';
import type { RotaPerson, RotaShift, ScorePart } from './types.ts';

/** One unknown yes or no: this person covers a place of this group on this shift. */
export interface Candidate {
  readonly person: RotaPerson;
  readonly shift: RotaShift;
  readonly group: number;
  readonly column: number;
}

/** What each score part adds up, as terms of the model. */
export type Costs = Readonly<Record<ScorePart, readonly Term[]>>;

export interface RotaModel {
  readonly builder: ModelBuilder;
  readonly candidates: readonly Candidate[];
  readonly costs: Costs;
  /** Part of `changes` that hangs on no unknown. */
  readonly changesBase: number;
  /** Proposing nobody: always allowed once the sign-ups break no rule. */
  readonly start: readonly number[];
}

type Start = Map<number, number>;

/** Who could be asked for what, the sign-ups given. */
export function candidatesOf(table: RotaTable, builder: ModelBuilder): readonly Candidate[] {
  const { signUps, travelMinutes } = table.spec;
  const held = shiftsByPerson(table, signUps);
  const there = peopleByShift(table, signUps);
  const open = table.shifts.filter((shift) => (there.get(shift.id)?.length ?? 0) < placesOf(shift));
  return table.people.flatMap((person) =>
    open
      .filter((shift) => obstaclesOf(person, shift, held.get(person.id) ?? [], travelMinutes).length === 0)
      .flatMap((shift) =>
        shift.places.flatMap(({ skills }, group) =>
          hasSkills(person, skills) ? [{ person, shift, group, column: builder.column(0, 1, true) }] : [],
        ),
      ),
  );
}

const ones = (candidates: readonly Candidate[]): Term[] => candidates.map(({ column }) => [column, 1]);

function grouped<Item>(items: readonly Item[], nameOf: (item: Item) => string): ReadonlyMap<string, readonly Item[]> {
  const found = new Map<string, Item[]>();
  for (const item of items) {
    const group = found.get(nameOf(item));
    if (group) group.push(item);
    else found.set(nameOf(item), [item]);
  }
  return found;
}

/** Rows of each person alone: one place at a time, and the caps less what they hold. */
export function addPersonRows(table: RotaTable, builder: ModelBuilder, candidates: readonly Candidate[]): void {
  const held = shiftsByPerson(table, table.spec.signUps);
  for (const [id, own] of grouped(candidates, ({ person }) => person.id)) {
    const person = table.personOf.get(id) as RotaPerson;
    const there = held.get(id) ?? [];
    addClashRows(builder, own, table.spec.travelMinutes);
    const capped = (cap: number | null, nameOf: (shift: RotaShift) => string): void => {
      if (cap === null) return;
      for (const [name, some] of grouped(own, ({ shift }) => nameOf(shift))) {
        const left = cap - there.filter((shift) => nameOf(shift) === name).length;
        if (some.length > left) builder.atMost(ones(some), left);
      }
    };
    capped(person.caps.day, ({ localDate }) => localDate);
    capped(person.caps.week, ({ localDate }) => weekOf(localDate));
    capped(person.caps.period, () => 'period');
  }
}

/** Cliques instead of pairs: the same whole solutions, but a tighter relaxation. */
function addClashRows(builder: ModelBuilder, own: readonly Candidate[], travelMinutes: number): void {
  const inTime = [...own].sort((one, other) => one.shift.startsAtMs - other.shift.startsAtMs);
  const meet = (one: Candidate, other: Candidate): boolean =>
    one.shift.id === other.shift.id || clash(one.shift, other.shift, travelMinutes);
  const covered = new Set<string>();
  const nameOf = (one: Candidate, other: Candidate): string => [one.column, other.column].sort((a, b) => a - b).join(' ');
  inTime.forEach((one, index) => {
    for (const other of inTime.slice(index + 1)) {
      if (!meet(one, other) || covered.has(nameOf(one, other))) continue;
      const clique = [one, other];
      for (const third of inTime) if (!clique.includes(third) && clique.every((member) => meet(member, third))) clique.push(third);
      for (const first of clique) for (const second of clique) covered.add(nameOf(first, second));
      builder.atMost(ones(clique), 1);
    }
  });
}

/**
 * The whole integer programme: x = 1 where somebody is proposed for a place; u places uncovered, m adults missing; d, e unit steps of
 * shortfall and excess with costs 1, 3, 5, ..., whose sum is the square.
 *
 * @shape table, possible places by person -> columns, rows and the costs of every score part
 */
export function buildRota(table: RotaTable, possible: Readonly<Record<string, number>>): RotaModel {
  const builder = new ModelBuilder();
  const candidates = candidatesOf(table, builder);
  const start: Start = new Map();
  addPersonRows(table, builder, candidates);
  const uncovered = addShiftRows(table, builder, candidates, start);
  const fairness = addFairness(table, { builder, candidates, start, possible });
  const earlier = new Set(table.spec.earlier.map(pairKey));
  const wasThere = ({ person, shift }: Candidate): boolean => earlier.has(pairKey({ personId: person.id, shiftId: shift.id }));
  return {
    builder,
    candidates,
    costs: {
      uncovered,
      ...fairness,
      dislike: candidates.map(({ person, shift, column }) => [column, dislikeOf(person, shift)]),
      changes: candidates.map((candidate) => [candidate.column, wasThere(candidate) ? -1 : 1]),
    },
    changesBase: earlier.size,
    start: builder.columns.map((_, column) => start.get(column) ?? 0),
  };
}

function addShiftRows(table: RotaTable, builder: ModelBuilder, candidates: readonly Candidate[], start: Start): Term[] {
  const there = peopleByShift(table, table.spec.signUps);
  const byShift = grouped(candidates, ({ shift }) => shift.id);
  return table.shifts.flatMap((shift) => {
    const people = there.get(shift.id) ?? [];
    const own = byShift.get(shift.id) ?? [];
    builder.atMost(ones(own), placesOf(shift) - people.length);
    const seats = seatsOf(table, shift, []);
    const uncovered = addGroupRows(shift, people, { builder, own, start, seats });
    const missing = addAdultRows(shift, people, { builder, own, start });
    return [...uncovered, ...missing].map((column): Term => [column, shift.urgency]);
  });
}

interface ShiftPart {
  readonly builder: ModelBuilder;
  readonly own: readonly Candidate[];
  readonly start: Start;
}

/** covered + uncovered = count, where a sign-up covers at most one place, whichever fits best; one without the skill covers none. */
function addGroupRows(
  shift: RotaShift,
  people: readonly RotaPerson[],
  { builder, own, start, seats }: ShiftPart & { readonly seats: readonly Seat[] },
): number[] {
  const seated: Term[][] = shift.places.map(() => []);
  for (const person of people) {
    const fitting = shift.places.flatMap(({ skills }, group) => (hasSkills(person, skills) ? [group] : []));
    const columns = fitting.map((group): Term => {
      const seat: Term = [builder.column(0, 1, true), 1];
      seated[group]?.push(seat);
      if (seats.some((taken) => taken.group === group && taken.person === person)) start.set(seat[0], 1);
      return seat;
    });
    if (columns.length > 0) builder.atMost(columns, 1);
  }
  return shift.places.map(({ count }, group) => {
    const column = builder.column(0, count, false);
    start.set(column, seats.filter((seat) => seat.group === group && seat.person === null).length);
    const covering = own.filter((candidate) => candidate.group === group);
    builder.row([...ones(covering), ...(seated[group] ?? []), [column, 1]], count, count);
    return column;
  });
}

/**
 * C19 as rows. Pupils who signed up stand, so what they lack is `missing` and costs like an uncovered place; further pupils are
 * proposed only where nothing is missing.
 */
function addAdultRows(shift: RotaShift, people: readonly RotaPerson[], { builder, own, start }: ShiftPart): number[] {
  const { leastAdults, pupilsPerAdult } = shift.adultRule;
  const pupilsThere = people.filter(isPupil).length;
  const adultsThere = people.filter(countsAsAdult).length;
  const pupils = ones(own.filter(({ person }) => isPupil(person)));
  const adults = ones(own.filter(({ person }) => countsAsAdult(person)));
  if (pupilsThere === 0 && pupils.length === 0) return [];
  const missingMost = Math.max(0, adultsNeeded(pupilsThere, shift.adultRule) - adultsThere);
  const missing = builder.column(0, missingMost, true);
  start.set(missing, missingMost);
  const scaled = [...adults, [missing, 1] as const].map(([column, value]): Term => [column, value * pupilsPerAdult]);
  const less = pupils.map(([column]): Term => [column, -1]);
  builder.atLeast([...scaled, ...less], pupilsThere - adultsThere * pupilsPerAdult);
  if (pupilsThere > 0) {
    builder.atLeast([...adults, [missing, 1]], leastAdults - adultsThere);
    if (pupils.length > 0 && missingMost > 0) {
      const short = builder.column(0, 1, true);
      start.set(short, 1);
      builder.atMost(
        [
          [missing, 1],
          [short, -missingMost],
        ],
        0,
      );
      for (const pupil of pupils) builder.atMost([pupil, [short, 1]], 1);
    }
    return [missing];
  }
  const any = builder.column(0, 1, true);
  for (const pupil of pupils) builder.atMost([pupil, [any, -1]], 0);
  builder.atLeast([...adults, [any, -leastAdults]], -adultsThere);
  return [missing];
}

interface FairnessPart {
  readonly builder: ModelBuilder;
  readonly candidates: readonly Candidate[];
  readonly start: Start;
  readonly possible: Readonly<Record<string, number>>;
}

function addFairness(
  table: RotaTable,
  { builder, candidates, start, possible }: FairnessPart,
): Pick<Costs, 'largestShortfall' | 'squaredShortfalls' | 'squaredExcess'> {
  const held = shiftsByPerson(table, table.spec.signUps);
  const byPerson = grouped(candidates, ({ person }) => person.id);
  const deficits = table.people.map((person) => Math.min(person.wish, possible[person.id] ?? 0) - (held.get(person.id)?.length ?? 0));
  const worst = Math.max(0, ...deficits);
  const largest = builder.column(0, worst, false);
  start.set(largest, worst);
  const shortfalls: Term[] = [];
  const excesses: Term[] = [];
  table.people.forEach((person, index) => {
    const deficit = deficits[index] ?? 0;
    const own = ones(byPerson.get(person.id) ?? []);
    if (deficit > 0) {
      const steps = stepsOf(builder, deficit);
      for (const [column] of steps) start.set(column, 1);
      shortfalls.push(...steps);
      builder.atLeast([...own, ...steps.map(([column]): Term => [column, 1])], deficit);
      builder.atLeast([...own, [largest, 1]], deficit);
    }
    const above = own.length - Math.max(0, deficit);
    if (above <= 0) return;
    const steps = stepsOf(builder, above);
    excesses.push(...steps);
    builder.atMost([...own, ...steps.map(([column]): Term => [column, -1])], Math.max(0, deficit));
  });
  return { largestShortfall: [[largest, 1]], squaredShortfalls: shortfalls, squaredExcess: excesses };
}

/** Unit steps whose costs 1, 3, 5, ... add up to the square of how many are taken; cheap ones fill first. */
function stepsOf(builder: ModelBuilder, count: number): Term[] {
  return Array.from({ length: count }, (_, step): Term => [builder.column(0, 1, false), 2 * step + 1]);
}
