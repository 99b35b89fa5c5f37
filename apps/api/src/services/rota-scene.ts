/** The problem that a run solves: who could come, what needs people, who is there already. */
import { obstaclesOf, type Pairing, type RotaPerson, type RotaShift, type RotaSpec, weekdayOf } from '@middenry/domain';
import type { Clock } from '../context.ts';
import { availabilityRows, needsOfShifts } from '../db/repositories/availability.ts';
import { listPersons } from '../db/repositories/person.ts';
import { proposalsForShifts, type RotaProposalRow } from '../db/repositories/rota.ts';
import { dutiesOfShifts, type ShiftRow, shiftsBetween } from '../db/repositories/shift.ts';
import { groupsOfShifts } from '../db/repositories/shift-group.ts';
import { type SignUpRow, signUpsOfShifts } from '../db/repositories/sign-up.ts';
import type { Store } from '../db/store.ts';
import { addDays, daysBetween, startOf } from './local-time.ts';
import { placeGroups, rotaPersonOf, sitesThere, TRAVEL_MINUTES, timesOf } from './rota-facts.ts';
import { groupBy, standingOf } from './shift-shape.ts';

/** What an uncovered place weighs: pupils who cannot come alone before bins that need something before the rest. */
const URGENCY = { pupils: 3, duties: 2, none: 1 } as const;
/** No adult looks after more than that, so the number that the shift itself asks for decides. */
const NO_RATIO = 1000;
const PUPILS = 'pupils';
const LAST_WEEKDAY = 7;

export interface GapQuestion {
  readonly from: string;
  readonly to: string;
  /** None: every site. */
  readonly siteIds: readonly string[];
}

export interface RotaScene {
  readonly spec: RotaSpec;
  /** The shifts that are to be filled. */
  readonly openIds: readonly string[];
  /** Stand-ins for pupils, and whoever has a place but cannot be asked: in no answer. */
  readonly hiddenIds: ReadonlySet<string>;
  /** Whole weeks that wishes and caps are counted over. */
  readonly weeks: { readonly from: string; readonly to: string };
}

const isComing = (row: ShiftRow, now: Date): boolean => row.cancelledAt === null && startOf(row).startsAt > now;

export function rotaScene(store: Store, clock: Clock, question: GapQuestion): RotaScene {
  const now = clock.now();
  const weeks = wholeWeeks(question);
  const rows = shiftsBetween(store, { ...weeks, siteId: null, personId: null }).filter(({ cancelledAt }) => cancelledAt === null);
  const isAsked = (row: ShiftRow): boolean =>
    isComing(row, now) &&
    question.from <= row.localDate &&
    row.localDate <= question.to &&
    (question.siteIds.length === 0 || question.siteIds.includes(row.siteId));
  const open = rows.filter(isAsked);
  const openIds = open.map(({ id }) => id);
  // What people hold elsewhere in these weeks counts for their time, caps and wishes, but is not to be filled.
  const around = rows.filter((row) => row.taken > 0 && !openIds.includes(row.id));
  const signUps = signUpsOfShifts(
    store,
    [...open, ...around].map(({ id }) => id),
  );
  const pupils = pupilsOf(
    store,
    open,
    groupBy(signUps, ({ shiftId }) => shiftId),
  );
  const people = peopleOf(store, { openIds, days: daysBetween(weeks.from, weeks.to) + 1 });
  const known = new Set(people.map(({ id }) => id));
  const strangers = [...new Set(signUps.map(({ personId }) => personId))].filter((id) => !known.has(id)).map((id) => standIn(id, true));
  const spec: RotaSpec = {
    people: [...people, ...strangers, ...pupils.people],
    shifts: [...openShiftsOf(store, open, pupils.needed), ...around.map(fullShiftOf)],
    signUps: [...signUps.map(({ personId, shiftId }) => ({ personId, shiftId })), ...pupils.signUps],
    earlier: [],
    travelMinutes: TRAVEL_MINUTES,
  };
  const hiddenIds = new Set([...strangers, ...pupils.people].map(({ id }) => id));
  return { spec: withEarlier(spec, store, { openIds, now }), openIds, hiddenIds, weeks };
}

function wholeWeeks({ from, to }: GapQuestion): RotaScene['weeks'] {
  return { from: addDays(from, 1 - weekdayOf(from)), to: addDays(to, LAST_WEEKDAY - weekdayOf(to)) };
}

/** Adults who may be asked, with what they said. */
function peopleOf(store: Store, { openIds, days }: { readonly openIds: readonly string[]; readonly days: number }): RotaPerson[] {
  const allSiteIds = sitesThere(store);
  const noes = groupBy(proposalsForShifts(store, openIds, ['declined']), ({ personId }) => personId);
  return listPersons(store)
    .filter(({ disabled, isAdult, role }) => !disabled && isAdult && role !== 'pupil')
    .map((person) =>
      rotaPersonOf({
        person,
        said: availabilityRows(store, person.id),
        allSiteIds,
        declined: (noes.get(person.id) ?? []).map(({ shiftId }) => shiftId),
        days,
      }),
    );
}

/** Has places but is asked for nothing. */
const standIn = (id: string, adult: boolean, skills: readonly string[] = []): RotaPerson => ({
  ...{ id, adult, skills, siteIds: [], cleared: false, wish: 0, weekly: [], away: [], declined: [], marks: {} },
  caps: { period: null, week: null, day: null },
});

interface Pupils {
  readonly people: readonly RotaPerson[];
  readonly signUps: readonly Pairing[];
  /** Adults that each shift asks for, by id of the shift; a shift without pupils is not among them. */
  readonly needed: ReadonlyMap<string, number>;
}

/** Pupils come in groups with places of their own: one stand-in for all of a shift asks for as many adults as they do. */
function pupilsOf(store: Store, rows: readonly ShiftRow[], signUps: ReadonlyMap<string, readonly SignUpRow[]>): Pupils {
  const groups = groupBy(
    groupsOfShifts(
      store,
      rows.map(({ id }) => id),
    ),
    ({ shiftId }) => shiftId,
  );
  const withPupils = rows.filter(({ id }) => groups.has(id));
  const idOf = (shiftId: string): string => `${PUPILS} ${shiftId}`;
  return {
    people: withPupils.map(({ id }) => standIn(idOf(id), false, [PUPILS])),
    signUps: withPupils.map(({ id }) => ({ personId: idOf(id), shiftId: id })),
    needed: new Map(
      withPupils.map((row) => [row.id, standingOf(row, { groups: groups.get(row.id) ?? [], signUps: signUps.get(row.id) ?? [] }).needed]),
    ),
  };
}

function openShiftsOf(store: Store, rows: readonly ShiftRow[], needed: Pupils['needed']): RotaShift[] {
  const ids = rows.map(({ id }) => id);
  const needs = groupBy(needsOfShifts(store, ids), ({ shiftId }) => shiftId);
  const duties = new Set(dutiesOfShifts(store, ids).map(({ shiftId }) => shiftId));
  return rows.map((row): RotaShift => {
    const leastAdults = needed.get(row.id);
    const pupilPlace = leastAdults === undefined ? [] : [{ count: 1, skills: [PUPILS] }];
    return {
      ...timesOf(row),
      urgency: leastAdults !== undefined ? URGENCY.pupils : duties.has(row.id) ? URGENCY.duties : URGENCY.none,
      places: [...placeGroups(row.places, needs.get(row.id) ?? []), ...pupilPlace],
      adultRule: { leastAdults: Math.max(1, leastAdults ?? 1), pupilsPerAdult: NO_RATIO },
    };
  });
}

/** As many places as people, so that nobody is asked for it. */
const fullShiftOf = (row: ShiftRow): RotaShift => ({
  ...timesOf(row),
  urgency: URGENCY.none,
  places: [{ count: row.taken, skills: [] }],
  adultRule: { leastAdults: 1, pupilsPerAdult: NO_RATIO },
});

/** Invitations that are out keep their place as far as there still is one; what was only proposed is kept where nothing is lost by it. */
function withEarlier(
  spec: RotaSpec,
  store: Store,
  { openIds, now }: { readonly openIds: readonly string[]; readonly now: Date },
): RotaSpec {
  const shiftOf = new Map(spec.shifts.map((shift) => [shift.id, shift]));
  const personOf = new Map(spec.people.map((person) => [person.id, person]));
  const signUps: Pairing[] = [...spec.signUps];
  const isOut = ({ goodUntil }: RotaProposalRow): boolean => goodUntil !== null && Date.parse(goodUntil) > now.getTime();
  for (const { personId, shiftId } of proposalsForShifts(store, openIds, ['invited']).filter(isOut)) {
    const shift = shiftOf.get(shiftId);
    const person = personOf.get(personId);
    if (shift === undefined || person === undefined) continue;
    const held = signUps.filter((one) => one.personId === personId).map((one) => shiftOf.get(one.shiftId)!);
    const room = shift.places.reduce((sum, { count }) => sum + count, 0) - signUps.filter((one) => one.shiftId === shiftId).length;
    if (room > 0 && obstaclesOf(person, shift, held, spec.travelMinutes).length === 0) signUps.push({ personId, shiftId });
  }
  const isFree = ({ personId, shiftId }: Pairing): boolean =>
    personOf.has(personId) && !signUps.some((one) => one.personId === personId && one.shiftId === shiftId);
  const earlier = new Map(
    proposalsForShifts(store, openIds, ['proposed'])
      .filter(isFree)
      .map(({ personId, shiftId }) => [`${personId} ${shiftId}`, { personId, shiftId }]),
  );
  return { ...spec, signUps, earlier: [...earlier.values()] };
}
