/** Stored people and shifts as the rota knows them. */
import { type Obstacle, obstaclesOf, type PlaceGroup, type RotaPerson, type RotaShift } from '@middenry/domain';
import type { Context } from '../context.ts';
import { type AvailabilityRows, availabilityRows, needsOfShifts, type ShiftNeedRow } from '../db/repositories/availability.ts';
import type { PersonRow } from '../db/repositories/person.ts';
import { type ShiftRow, shiftsBetween } from '../db/repositories/shift.ts';
import type { Store } from '../db/store.ts';
import { addDays, startOf } from './local-time.ts';
import { personOf } from './people.ts';
import { minuteOfDay } from './site-times.ts';

const MS_PER_MINUTE = 60_000;
const DAYS_PER = { week: 7, month: 365.25 / 12 } as const;
/** What somebody who never said is taken to wish: twice a month. */
const UNSAID_WISH = { count: 2, per: 'month' } as const;
/** Minutes for the way from one site to another. */
export const TRAVEL_MINUTES = 30;
/** As far as the caps of a week look around a shift. */
const AROUND_DAYS = 7;

export interface PersonFacts {
  readonly person: PersonRow;
  readonly said: AvailabilityRows;
  /** Every site there is; whoever belongs to none in particular comes to all. */
  readonly allSiteIds: readonly string[];
  /** Shifts that this person said no to. */
  readonly declined: readonly string[];
  /** Length of the period that wishes are counted over. */
  readonly days: number;
}

export function rotaPersonOf({ person, said, allSiteIds, declined, days }: PersonFacts): RotaPerson {
  const own = person.siteIds.length === 0 ? allSiteIds : person.siteIds;
  const { wish } = said;
  return {
    id: person.id,
    siteIds: said.siteIds.length === 0 ? own : own.filter((siteId) => said.siteIds.includes(siteId)),
    adult: person.isAdult,
    cleared: person.cleared,
    skills: said.skills,
    wish: wishedIn(days, wish === null || wish.wishCount === null ? UNSAID_WISH : { count: wish.wishCount, per: wish.wishPer }),
    caps: { period: null, week: wish?.capPerWeek ?? null, day: wish?.capPerDay ?? null },
    weekly: said.weekly.map(({ weekday, from, to, liking }) => ({
      weekday,
      fromMinute: minuteOfDay(from),
      toMinute: minuteOfDay(to),
      liking,
    })),
    away: said.away,
    declined,
    marks: {},
  };
}

/** Whole shifts that a wish comes to in so many days. */
export function wishedIn(days: number, wish: { readonly count: number; readonly per: 'week' | 'month' }): number {
  return Math.round((wish.count * days) / DAYS_PER[wish.per]);
}

/** Places by the skill they ask for; the rest ask for none. */
export function placeGroups(places: number, needs: readonly ShiftNeedRow[]): PlaceGroup[] {
  let left = places;
  const groups = needs.map(({ skill, places: asked }): PlaceGroup => {
    const count = Math.min(asked, left);
    left -= count;
    return { count, skills: [skill] };
  });
  return [...groups, { count: left, skills: [] }].filter(({ count }) => count > 0);
}

type Times = Pick<RotaShift, 'id' | 'siteId' | 'startsAtMs' | 'endsAtMs' | 'localDate' | 'fromMinute' | 'toMinute'>;

export function timesOf(row: ShiftRow): Times {
  const startsAtMs = startOf(row).startsAt.getTime();
  const fromMinute = minuteOfDay(row.localTime);
  return {
    id: row.id,
    siteId: row.siteId,
    startsAtMs,
    endsAtMs: startsAtMs + row.minutes * MS_PER_MINUTE,
    localDate: row.localDate,
    fromMinute,
    toMinute: fromMinute + row.minutes,
  };
}

/** A shift as one person sees it: whether they could come, not who else does. */
const plainShiftOf = (row: ShiftRow, needs: readonly ShiftNeedRow[]): RotaShift => ({
  ...timesOf(row),
  urgency: 1,
  places: placeGroups(Math.max(1, row.places), needs),
  adultRule: { leastAdults: 1, pupilsPerAdult: 1 },
});

export const sitesThere = (store: Store): string[] =>
  store.sql('SELECT id FROM site WHERE archived = 0 ORDER BY id').pluck().all() as string[];

/**
 * What stands between one person and each of these shifts: other site, away, outside their week, a skill, two at once, a cap of theirs.
 * Room on the shift is not among it.
 *
 * @returns Obstacles by id of the shift; empty where it fits
 */
export function obstaclesTo(
  { store }: Pick<Context, 'store'>,
  personId: string,
  rows: readonly ShiftRow[],
): ReadonlyMap<string, readonly Obstacle[]> {
  if (rows.length === 0) return new Map();
  const said = availabilityRows(store, personId);
  const person = rotaPersonOf({ person: personOf(store, personId), said, allSiteIds: sitesThere(store), declined: [], days: 0 });
  const dates = rows.map(({ localDate }) => localDate).sort();
  const from = addDays(dates[0]!, -AROUND_DAYS);
  const to = addDays(dates.at(-1)!, AROUND_DAYS);
  const heldRows = shiftsBetween(store, { from, to, siteId: null, personId }).filter(({ cancelledAt }) => cancelledAt === null);
  const held = heldRows.map((row) => plainShiftOf(row, []));
  const needs = needsOfShifts(
    store,
    rows.map(({ id }) => id),
  );
  return new Map(
    rows.map((row) => {
      const own = needs.filter(({ shiftId }) => shiftId === row.id);
      return [row.id, obstaclesOf(person, plainShiftOf(row, own), held, TRAVEL_MINUTES)];
    }),
  );
}
