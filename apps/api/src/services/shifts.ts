/** Shifts: made and found. Changing them is in shift-changes.ts, places on them in sign-ups.ts. */
import type { Shift, ShiftNew } from '@middenry/contract';
import { weekdayOf } from '@middenry/domain';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import { binsAtSite } from '../db/repositories/entry-place.ts';
import {
  insertSeries,
  insertShift,
  openShifts,
  type ShiftDutyRow,
  type ShiftRow,
  setShiftBins,
  setShiftDuties,
  shiftById,
  shiftsBetween,
  shiftsOfSeries,
  siteZone,
} from '../db/repositories/shift.ts';
import { isSignedUp } from '../db/repositories/sign-up.ts';
import { refuse, refuseField } from '../refusal.ts';
import { derivedId } from './id.ts';
import { addDays, localDateAt, weeklyFrom } from './local-time.ts';
import { once } from './once.ts';
import { endOf, shiftShape, shiftShapes } from './shift-shape.ts';
import { isClosed, siteHours } from './site-times.ts';

type ShiftBody = z.output<typeof ShiftNew>;

/** How far ahead a list looks when nobody says. */
const LIST_DAYS = 90;
/** What is uncovered is told two weeks ahead. */
const UNCOVERED_DAYS = 14;
const NEAREST = 3;
const DAYS_PER_WEEK = 7;
const FIRST_DATE = '2000-01-01';
const LAST_DATE = '2199-12-31';

export interface ShiftQuery {
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  readonly siteId?: string | undefined;
  readonly open?: boolean | undefined;
  readonly mine?: boolean | undefined;
}

export function listShifts(call: Context, query: ShiftQuery): Shift[] {
  const from = query.from ?? addDays(localDateAt(call.now, 'UTC'), -1);
  const to = query.to ?? addDays(from, LIST_DAYS);
  const personId = query.mine ? (call.who?.personId ?? null) : null;
  const rows = shiftsBetween(call.store, { from, to, siteId: query.siteId ?? null, personId });
  return shiftShapes(call, query.open ? rows.filter((row) => isOpen(call, row)) : rows);
}

export function readShift(call: Context, id: string): Shift {
  return shiftShape(call, shiftOrRefuse(call, id));
}

/** One shift, or the same weekday and local time for some weeks. Sent twice it is still the same row of them. */
export function addShifts(call: Signed, body: ShiftBody): Shift[] {
  const find = (): ShiftRow[] => {
    const first = shiftOrRefuse(call, body.id);
    return first.seriesId === null ? [first] : shiftsOfSeries(call.store, first.seriesId);
  };
  const make = (): ShiftRow[] => {
    insertRow(call, body);
    return find();
  };
  return shiftShapes(call, once(call, 'addShifts', body, { make, find }));
}

function insertRow(call: Signed, body: ShiftBody): void {
  const { store, now } = call;
  const { id: firstId, weeks: _weeks, weekdays: _weekdays, skipClosed: _skip, binIds, duties, ...rest } = body;
  const timeZone = siteZone(store, body.siteId);
  if (timeZone === null) throw refuse('not-found');
  checkDate(body.localDate);
  checkBins(call, body.siteId, { binIds, duties });
  const createdAt = now.toISOString();
  const dates = datesOf(call, body);
  if (dates.length === 0)
    throw refuse('site-closed', { errors: [{ pointer: '/localDate', message: 'is a day on which the site is closed' }] });
  const seriesId = dates.length > 1 ? derivedId(firstId, 'series') : null;
  if (seriesId !== null) insertSeries(store, { id: seriesId, siteId: body.siteId, createdAt });
  dates.forEach((localDate, week) => {
    const id = week === 0 ? firstId : derivedId(firstId, `week ${week}`);
    insertShift(store, { ...rest, id, localDate, timeZone, seriesId, createdAt });
    setShiftBins(store, id, binIds);
    setShiftDuties(store, id, duties);
  });
}

/** The days of a weekly row: one weekday, or several of each week, and none on which the site is closed where that is wished. */
function datesOf(call: Signed, { localDate, weeks, weekdays, skipClosed, siteId }: ShiftBody): string[] {
  const firsts = weeklyFrom(localDate, weeks);
  const days = [...new Set(weekdays)].sort((a, b) => a - b).map((weekday) => weekday - weekdayOf(localDate));
  const all =
    days.length === 0 ? firsts : firsts.flatMap((first) => days.map((ahead) => addDays(first, (ahead + DAYS_PER_WEEK) % DAYS_PER_WEEK)));
  const hours = skipClosed ? siteHours(call.store, siteId) : null;
  return all.sort().filter((date) => hours === null || !isClosed(hours, date));
}

export function shiftOrRefuse(call: Context, id: string): ShiftRow {
  const row = shiftById(call.store, id);
  if (row === null) throw refuse('not-found');
  return row;
}

/** Open shifts of the next two weeks, soonest first. */
export function uncoveredShifts(call: Context, siteId: string | null): ShiftRow[] {
  return openAhead(call, { days: UNCOVERED_DAYS, siteId });
}

/** The next open shifts, those at the same site first: what somebody who is not on them can take instead of a full one. */
export function nearestOpen(call: Context, instead: ShiftRow, personId: string): Shift[] {
  const isNew = (row: ShiftRow) => row.id !== instead.id && !isSignedUp(call.store, row.id, personId);
  const here = openAhead(call, { days: LIST_DAYS, siteId: instead.siteId }).filter(isNew);
  const elsewhere = () =>
    openAhead(call, { days: LIST_DAYS, siteId: null }).filter((row) => isElsewhere(instead.siteId)(row) && isNew(row));
  const rows = here.length >= NEAREST ? here : [...here, ...elsewhere()];
  return shiftShapes(call, rows.slice(0, NEAREST));
}

const isElsewhere = (siteId: string) => (row: ShiftRow) => row.siteId !== siteId;

export function openAhead(call: Context, ahead: { days: number; siteId: string | null }): ShiftRow[] {
  // A day early and late, since it may be yesterday or tomorrow at the site.
  const day = localDateAt(call.now, 'UTC');
  const range = { from: addDays(day, -1), to: addDays(day, ahead.days + 1), siteId: ahead.siteId, limit: 200 };
  return openShifts(call.store, range).filter((row) => isOpen(call, row) && row.localDate <= addDays(call.today(row.timeZone), ahead.days));
}

const isOpen = (call: Context, row: ShiftRow): boolean =>
  row.cancelledAt === null && row.taken < row.places && endOf(row) > call.now.getTime();

export function checkBins(
  call: Context,
  siteId: string,
  body: { binIds?: readonly string[] | undefined; duties?: readonly ShiftDutyRow[] | undefined },
): void {
  const { binIds = [], duties = [] } = body;
  const here = binsAtSite(call.store, siteId, [...binIds, ...duties.map((duty) => duty.binId)]);
  const strange = binIds.findIndex((id) => !here.has(id));
  if (strange >= 0) throw refuseField(`/binIds/${strange}`, 'is not a bin at this site');
  const strangeDuty = duties.findIndex(({ binId }) => !here.has(binId));
  if (strangeDuty >= 0) throw refuseField(`/duties/${strangeDuty}/binId`, 'is not a bin at this site');
}

/** Dates of four figures that people mean; a row of a year's weeks from the last of them still has four. */
export function checkDate(localDate: string): void {
  if (localDate < FIRST_DATE || localDate > LAST_DATE) throw refuseField('/localDate', `must be between ${FIRST_DATE} and ${LAST_DATE}`);
}
