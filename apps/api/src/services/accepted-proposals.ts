/** Proposals made into shifts, as they were or moved or merged; one that fills a shift that is there adds to its duties. */
import type { ProposalsAccepted, Shift } from '@middenry/contract';
import type * as z from 'zod';
import type { Signed } from '../context.ts';
import {
  dutiesOfShifts,
  insertShift,
  type ShiftDutyRow,
  type ShiftRow,
  setShiftBins,
  setShiftDuties,
  shiftById,
  shiftsBetween,
  siteZone,
  updateShift,
} from '../db/repositories/shift.ts';
import { refuse, refuseField } from '../refusal.ts';
import { derivedId } from './id.ts';
import { once } from './once.ts';
import { endOf, shiftShapes } from './shift-shape.ts';
import { checkBins, checkDate, shiftOrRefuse } from './shifts.ts';
import { refuseClosedDay, siteHours } from './site-times.ts';

type Body = z.output<typeof ProposalsAccepted>;
type Accepted = Body['shifts'][number];

export function acceptProposals(call: Signed, body: Body): Shift[] {
  const idOf = (shift: Accepted, at: number): string => shift.standingId ?? derivedId(body.id, `shift ${at}`);
  const find = () =>
    shiftShapes(
      call,
      body.shifts.map((shift, at) => shiftOrRefuse(call, idOf(shift, at))),
    );
  const make = () => {
    const timeZone = siteZone(call.store, body.siteId);
    if (timeZone === null) throw refuse('not-found');
    body.shifts.forEach((shift, at) => {
      checkAccepted(call, body.siteId, shift, at);
      if (shift.standingId === null) makeNew(call, { siteId: body.siteId, timeZone, id: idOf(shift, at) }, shift);
      else fillStanding(call, shift, `/shifts/${at}/standingId`);
    });
    call.audit('proposals.accepted', body.siteId, { shifts: body.shifts.length });
    return find();
  };
  return once(call, 'acceptProposals', body, { make, find });
}

function checkAccepted(call: Signed, siteId: string, shift: Accepted, at: number): void {
  checkDate(shift.localDate);
  checkBins(call, siteId, { duties: shift.duties });
  const { localDate } = standingOf(call, shift) ?? shift;
  refuseClosedDay(siteHours(call.store, siteId), localDate, `/shifts/${at}/localDate`);
  const strange = shift.duties.findIndex((duty) => clashes(call, { siteId, localDate }, shift.duties, duty));
  if (strange >= 0) throw refuseField(`/shifts/${at}/duties/${strange}/kind`, 'would feed and harvest one bin on one day');
}

/** Food just put in would come out with the harvest. */
function clashes(call: Signed, day: { siteId: string; localDate: string }, here: readonly ShiftDutyRow[], duty: ShiftDutyRow): boolean {
  const other = duty.kind === 'feed' ? 'harvest' : duty.kind === 'harvest' ? 'feed' : null;
  if (other === null) return false;
  const range = { from: day.localDate, to: day.localDate, siteId: day.siteId, personId: null };
  const there = shiftsBetween(call.store, range).filter(({ cancelledAt }) => cancelledAt === null);
  const ids = there.map(({ id }) => id);
  return [...here, ...dutiesOfShifts(call.store, ids)].some(({ binId, kind }) => binId === duty.binId && kind === other);
}

const standingOf = (call: Signed, { standingId }: Accepted): ShiftRow | null =>
  standingId === null ? null : shiftById(call.store, standingId);

function makeNew(call: Signed, made: { id: string; siteId: string; timeZone: string }, shift: Accepted): void {
  const { standingId: _none, duties, ...rest } = shift;
  insertShift(call.store, { ...rest, ...made, seriesId: null, pupilPlaces: 0, note: '', createdAt: call.now.toISOString() });
  setShiftBins(
    call.store,
    made.id,
    duties.map(({ binId }) => binId),
  );
  setShiftDuties(call.store, made.id, duties);
}

function fillStanding(call: Signed, shift: Accepted, pointer: string): void {
  const row = standingOf(call, shift);
  if (row === null) throw refuse('not-found');
  if (row.cancelledAt !== null || endOf(row) <= call.now.getTime()) throw refuseField(pointer, 'is not a shift to come');
  const duties = [...dutiesOfShifts(call.store, [row.id]), ...shift.duties];
  setShiftBins(
    call.store,
    row.id,
    duties.map(({ binId }) => binId),
  );
  setShiftDuties(call.store, row.id, duties);
  updateShift(call.store, row);
}
