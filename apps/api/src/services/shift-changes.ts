/** Changing and cancelling shifts, one or all later ones of a weekly row; whoever has a place keeps it. */
import type { Shift, ShiftCancelQuery, ShiftChange } from '@middenry/contract';
import type * as z from 'zod';
import type { Signed } from '../context.ts';
import {
  cancelShift as markCancelled,
  type ShiftRow,
  setShiftBins,
  setShiftDuties,
  shiftsOfSeries,
  updateShift,
} from '../db/repositories/shift.ts';
import { groupsOfShifts } from '../db/repositories/shift-group.ts';
import { write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { addDays, daysBetween } from './local-time.ts';
import { tellShiftCancelled, tellShiftChanged } from './messages/occasions.ts';
import { shiftShapes } from './shift-shape.ts';
import { checkBins, checkDate, readShift, shiftOrRefuse } from './shifts.ts';
import { settleWaiting } from './waiting.ts';

type ChangeBody = z.output<typeof ShiftChange>;
type CancelQuery = z.output<typeof ShiftCancelQuery>;
type OwnSite = (siteId: string) => void;

export function changeShift(call: Signed, id: string, body: ChangeBody, ownSite: OwnSite): Shift {
  return write(call.store, () => {
    const row = shiftOrRefuse(call, id);
    ownSite(row.siteId);
    if (row.cancelledAt !== null) throw refuse('shift-cancelled');
    const { scope = 'this', askFirst = false, ...change } = body;
    const rows = rowsOf(call, row, scope);
    if (askFirst) nameAffected(call, rows, row, change);
    refuseTooFew(call, rows, change.places);
    refuseTooFewForPupils(call, rows, change.pupilPlaces);
    checkLeastAdults(rows, change);
    checkBins(call, row.siteId, change);
    const movedDays = change.localDate === undefined ? 0 : daysBetween(row.localDate, change.localDate);
    for (const each of rows) changeOne(call, each, { ...change, localDate: addDays(each.localDate, movedDays) });
    call.audit('shift.changed', id, { ...change, scope, shifts: rows.length });
    return readShift(call, id);
  });
}

function changeOne(call: Signed, row: ShiftRow, change: ChangeBody): void {
  if (change.localDate !== undefined) checkDate(change.localDate);
  const merged = { ...row, ...change };
  updateShift(call.store, { ...merged, leastAdultsReason: merged.leastAdults === 1 ? merged.leastAdultsReason : '' });
  if (change.binIds) setShiftBins(call.store, row.id, change.binIds);
  if (change.duties) setShiftDuties(call.store, row.id, change.duties);
  tellShiftChanged(call, row, shiftOrRefuse(call, row.id));
  settleWaiting(call.store, row.id, call.now);
}

/** Cancelling one is what somebody meant; cancelling a row that people are on is asked back first, by name of the shifts. */
export function cancelShift(call: Signed, id: string, query: CancelQuery, ownSite: OwnSite): Shift {
  return write(call.store, () => {
    const row = shiftOrRefuse(call, id);
    ownSite(row.siteId);
    const rows = rowsOf(call, row, query.scope ?? 'this');
    const later = rows.filter((each) => each.id !== id && each.taken > 0);
    if (later.length > 0 && !query.anyway) throw refuse('has-sign-ups', { help: { affected: shiftShapes(call, later) } });
    for (const each of rows) {
      if (markCancelled(call.store, each.id, call.now.toISOString())) {
        tellShiftCancelled(call, each);
        call.audit('shift.cancelled', each.id, { signedUp: each.taken });
      }
      settleWaiting(call.store, each.id, call.now);
    }
    return readShift(call, id);
  });
}

function rowsOf(call: Signed, row: ShiftRow, scope: 'this' | 'this-and-later'): ShiftRow[] {
  if (scope === 'this' || row.seriesId === null) return [row];
  return shiftsOfSeries(call.store, row.seriesId).filter((each) => each.localDate >= row.localDate && each.cancelledAt === null);
}

/** Says who has a place on a shift whose day or time would change, before anything does (criteria C9). */
function nameAffected(call: Signed, rows: readonly ShiftRow[], first: ShiftRow, change: ChangeBody): void {
  const { localDate = first.localDate, localTime = first.localTime, minutes } = change;
  const moves = (row: ShiftRow) =>
    localDate !== first.localDate || localTime !== row.localTime || (minutes !== undefined && minutes !== row.minutes);
  const affected = rows.filter((row) => row.taken > 0 && moves(row));
  if (affected.length > 0) throw refuse('has-sign-ups', { help: { affected: shiftShapes(call, affected) } });
}

/** There can not be fewer places than people: the shifts where there would be are named. */
function refuseTooFew(call: Signed, rows: readonly ShiftRow[], places: number | undefined): void {
  if (places === undefined) return;
  const crowded = rows.filter((row) => row.taken > places);
  if (crowded.length === 0) return;
  const most = Math.max(...crowded.map((row) => row.taken));
  const errors = [{ pointer: '/places', message: `must be at least the ${most} who have a place` }];
  throw refuse('has-sign-ups', { errors, help: { affected: shiftShapes(call, crowded) } });
}

function refuseTooFewForPupils(call: Signed, rows: readonly ShiftRow[], pupilPlaces: number | undefined): void {
  if (pupilPlaces === undefined) return;
  const groups = groupsOfShifts(
    call.store,
    rows.map(({ id }) => id),
  );
  const pupilsOn = (row: ShiftRow) => groups.filter(({ shiftId }) => shiftId === row.id).reduce((sum, { pupils }) => sum + pupils, 0);
  const crowded = rows.filter((row) => pupilsOn(row) > pupilPlaces);
  if (crowded.length === 0) return;
  const errors = [{ pointer: '/pupilPlaces', message: `must be at least the ${Math.max(...crowded.map(pupilsOn))} pupils who come` }];
  throw refuse('has-sign-ups', { errors, help: { affected: shiftShapes(call, crowded) } });
}

/** One adult instead of two is an exception that somebody answers for in writing. */
function checkLeastAdults(rows: readonly ShiftRow[], { leastAdults, leastAdultsReason }: ChangeBody): void {
  const isLow = (row: ShiftRow) => (leastAdults ?? row.leastAdults) === 1;
  if (leastAdults === 1 && leastAdultsReason === undefined && rows.some((row) => row.leastAdults !== 1))
    throw refuseField('/leastAdultsReason', 'must say why one adult is enough');
  if (leastAdultsReason !== undefined && !rows.every(isLow)) throw refuseField('/leastAdultsReason', 'belongs to one adult instead of two');
}
