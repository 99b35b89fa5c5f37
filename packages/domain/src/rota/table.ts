import type { Pairing, RotaPerson, RotaShift, RotaSpec } from './types.ts';

/** A spec with its look-ups; people and shifts in the order of their ids, so that the order of the input changes nothing. */
export interface RotaTable {
  readonly spec: RotaSpec;
  readonly people: readonly RotaPerson[];
  readonly shifts: readonly RotaShift[];
  readonly personOf: ReadonlyMap<string, RotaPerson>;
  readonly shiftOf: ReadonlyMap<string, RotaShift>;
}

const byId = (one: { readonly id: string }, other: { readonly id: string }): number => (one.id < other.id ? -1 : one.id > other.id ? 1 : 0);

export const pairKey = ({ personId, shiftId }: Pairing): string => JSON.stringify([personId, shiftId]);

/**
 * Look-ups of a spec that makes sense.
 *
 * @throws {RangeError} when an id is unknown or there twice, or a number that must be whole and positive is not
 */
export function tableOf(spec: RotaSpec): RotaTable {
  const table = {
    spec,
    people: [...spec.people].sort(byId),
    shifts: [...spec.shifts].sort(byId),
    personOf: new Map(spec.people.map((person) => [person.id, person])),
    shiftOf: new Map(spec.shifts.map((shift) => [shift.id, shift])),
  };
  if (table.personOf.size < spec.people.length) refuse('each person must be named once', repeated(spec.people));
  if (table.shiftOf.size < spec.shifts.length) refuse('each shift must be named once', repeated(spec.shifts));
  spec.people.forEach(checkPerson);
  spec.shifts.forEach(checkShift);
  checkPairings(table, spec.signUps, 'sign-up');
  checkPairings(table, spec.earlier, 'earlier proposal');
  if (!(spec.travelMinutes >= 0)) refuse('travel must be 0 minutes or more', spec.travelMinutes);
  return table;
}

function checkPerson({ id, wish, caps, marks }: RotaPerson): void {
  const counts = [wish, ...Object.values(marks), ...[caps.period, caps.week, caps.day].filter((cap) => cap !== null)];
  for (const count of counts) if (!isWhole(count, 0)) refuse(`wish, caps and marks of ${id} must be whole numbers of 0 or more`, count);
}

function checkShift({ id, urgency, places, adultRule, startsAtMs, endsAtMs }: RotaShift): void {
  if (!isWhole(urgency, 1)) refuse(`urgency of ${id} must be a whole number of 1 or more`, urgency);
  if (!(endsAtMs > startsAtMs)) refuse(`${id} must end after it starts`, endsAtMs - startsAtMs);
  for (const { count } of places) if (!isWhole(count, 1)) refuse(`places of ${id} must be a whole number of 1 or more`, count);
  for (const count of [adultRule.leastAdults, adultRule.pupilsPerAdult])
    if (!isWhole(count, 1)) refuse(`the adult rule of ${id} must have whole numbers of 1 or more`, count);
}

function checkPairings(table: Omit<RotaTable, 'spec'>, pairings: readonly Pairing[], what: string): void {
  for (const { personId, shiftId } of pairings) {
    if (!table.personOf.has(personId)) refuse(`the person of a ${what} must be known`, personId);
    if (!table.shiftOf.has(shiftId)) refuse(`the shift of a ${what} must be known`, shiftId);
  }
  if (new Set(pairings.map(pairKey)).size < pairings.length) refuse(`each ${what} must be there once`, 'a second one');
}

const isWhole = (value: number, least: number): boolean => Number.isInteger(value) && value >= least;

const repeated = (items: readonly { readonly id: string }[]): string =>
  items.map(({ id }) => id).find((id, index, ids) => ids.indexOf(id) < index) ?? '';

function refuse(rule: string, value: string | number): never {
  throw new RangeError(`Cannot make a rota as ${rule}: current value is ${value}`);
}

export const placesOf = (shift: RotaShift): number => shift.places.reduce((sum, { count }) => sum + count, 0);

/** Shifts that each person is on, by id of the person. */
export function shiftsByPerson(table: RotaTable, pairings: readonly Pairing[]): ReadonlyMap<string, readonly RotaShift[]> {
  const found = new Map<string, RotaShift[]>(table.people.map(({ id }) => [id, []]));
  for (const { personId, shiftId } of pairings) found.get(personId)?.push(table.shiftOf.get(shiftId) as RotaShift);
  return found;
}

/** People on each shift, by id of the shift. */
export function peopleByShift(table: RotaTable, pairings: readonly Pairing[]): ReadonlyMap<string, readonly RotaPerson[]> {
  const found = new Map<string, RotaPerson[]>(table.shifts.map(({ id }) => [id, []]));
  for (const { personId, shiftId } of pairings) found.get(shiftId)?.push(table.personOf.get(personId) as RotaPerson);
  return found;
}
