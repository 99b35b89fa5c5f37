import { numberOfText, uniformOf } from '../ensemble/chance.ts';

export interface DrawShift {
  readonly id: string;
  /** Places that are still free. */
  readonly free: number;
  /** Instants [ms since 1970]: nobody wins two shifts at once. */
  readonly startsAtMs: number;
  readonly endsAtMs: number;
  /** Who has a place already, taken before the draw. */
  readonly held: readonly string[];
}

export interface DrawPerson {
  readonly id: string;
  /** Places that they want at most. */
  readonly most: number;
  /** Shifts, the most wanted first. */
  readonly wishes: readonly string[];
}

export interface DrawInput {
  readonly seed: string;
  readonly shifts: readonly DrawShift[];
  readonly people: readonly DrawPerson[];
}

export interface DrawResult {
  /** People by id in the order in which they were drawn. */
  readonly order: readonly string[];
  readonly won: readonly { readonly personId: string; readonly shiftId: string }[];
}

/**
 * Shares places out by wishes: an order is drawn from the seed, and in rounds, there and back, each takes their most wanted place that
 * is left. The same seed, shifts and wishes give the same places, in whatever order they are handed in (criteria C4).
 *
 * @shape input -> result
 * @returns The order, and who won which place
 * @source none: Fisher-Yates shuffle and serial choice in rounds, textbook methods
 */
export function drawPlaces({ seed, shifts, people }: DrawInput): DrawResult {
  const drawn = shuffled(seed, people);
  const free = new Map(shifts.map(({ id, free: places }) => [id, places]));
  const byId = new Map(shifts.map((shift) => [shift.id, shift]));
  const taken = new Map(drawn.map(({ id }) => [id, shifts.filter(({ held }) => held.includes(id))]));
  const won: { personId: string; shiftId: string }[] = [];
  const count = new Map(drawn.map(({ id }) => [id, 0]));
  for (let round = 0, before = -1; before !== won.length; round += 1) {
    before = won.length;
    for (const person of round % 2 === 0 ? drawn : [...drawn].reverse()) {
      const mine = taken.get(person.id) ?? [];
      if ((count.get(person.id) ?? 0) >= person.most) continue;
      const next = person.wishes
        .map((id) => byId.get(id))
        .find((shift) => shift !== undefined && (free.get(shift.id) ?? 0) > 0 && !mine.some((other) => overlap(shift, other)));
      if (next === undefined) continue;
      free.set(next.id, (free.get(next.id) ?? 0) - 1);
      count.set(person.id, (count.get(person.id) ?? 0) + 1);
      mine.push(next);
      won.push({ personId: person.id, shiftId: next.id });
    }
  }
  return { order: drawn.map(({ id }) => id), won };
}

/** A shift overlaps itself, so that nobody wins one twice. */
const overlap = (one: DrawShift, other: DrawShift): boolean =>
  one.id === other.id || (one.startsAtMs < other.endsAtMs && other.startsAtMs < one.endsAtMs);

function shuffled(seed: string, people: readonly DrawPerson[]): readonly DrawPerson[] {
  const list = [...people].sort((one, other) => (one.id < other.id ? -1 : one.id > other.id ? 1 : 0));
  const number = numberOfText(seed);
  for (let last = list.length - 1; last > 0; last -= 1) {
    const pick = Math.floor(uniformOf(number, last) * (last + 1));
    [list[last], list[pick]] = [list[pick] as DrawPerson, list[last] as DrawPerson];
  }
  return list;
}
