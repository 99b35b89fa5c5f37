/** Groups of pupils on a shift: signed up, checked in where enough adults are there, taken off (criteria C19, C20). */
import type { PupilGroupNew, Shift } from '@middenry/contract';
import type * as z from 'zod';
import type { Signed } from '../context.ts';
import { findClass, listPupils } from '../db/repositories/class.ts';
import type { ShiftRow } from '../db/repositories/shift.ts';
import {
  checkInGroup,
  endGroup,
  groupsOfShifts,
  nameGroupPupils,
  type ShiftGroupRow,
  shiftGroupById,
  takeGroup,
} from '../db/repositories/shift-group.ts';
import { signUpsOfShifts } from '../db/repositories/sign-up.ts';
import { write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { once } from './once.ts';
import { endOf, standingOf } from './shift-shape.ts';
import { readShift, shiftOrRefuse } from './shifts.ts';

type OwnSite = (siteId: string) => void;

export function addPupilGroup(call: Signed, shiftId: string, body: z.output<typeof PupilGroupNew>, ownSite: OwnSite): Shift {
  const { store, now, who } = call;
  ownSite(shiftOrRefuse(call, shiftId).siteId);
  const find = () => readShift(call, shiftId);
  const make = () => {
    const shift = shiftOrRefuse(call, shiftId);
    refuseClosed(call, shift);
    const group = findClass(store, body.classId);
    if (group === undefined || group.archived || group.siteId !== shift.siteId) throw refuse('not-found');
    checkPupils(call, body);
    const pupils = body.pupilIds.length > 0 ? new Set(body.pupilIds).size : body.pupils!;
    const wish = { id: body.id, shiftId, classId: body.classId, pupils, madeBy: who.personId, at: now.toISOString() };
    if (!takeGroup(store, wish)) throw whyNot(call, shift, body.classId);
    nameGroupPupils(store, body.id, body.pupilIds);
    call.audit('shift.group-signed-up', shiftId, { classId: body.classId, pupils });
    return find();
  };
  return once(call, 'addPupilGroup', { ...body, shiftId }, { make, find });
}

function checkPupils(call: Signed, { classId, pupils, pupilIds }: z.output<typeof PupilGroupNew>): void {
  if ((pupils === undefined) === (pupilIds.length === 0)) throw refuseField('/pupils', 'must be a number, or else pupils must be named');
  const inClass = new Set(listPupils(call.store, classId).map(({ id }) => id));
  const stray = pupilIds.findIndex((id) => !inClass.has(id));
  if (stray >= 0) throw refuseField(`/pupilIds/${stray}`, 'is not a pupil of this class');
}

function whyNot(call: Signed, shift: ShiftRow, classId: string) {
  const groups = groupsOfShifts(call.store, [shift.id]);
  if (groups.some((group) => group.classId === classId)) return refuse('already-signed-up');
  const left = shift.pupilPlaces - groups.reduce((sum, { pupils }) => sum + pupils, 0);
  return refuse('shift-full', { detail: `This shift has ${left} places left for pupils.`, help: { pupilPlacesLeft: left } });
}

export function takeOffPupilGroup(call: Signed, ids: { id: string; groupId: string }, ownSite: OwnSite): Shift {
  return write(call.store, () => {
    const { shift, group } = groupOrRefuse(call, ids, ownSite);
    if (endGroup(call.store, group.id, call.now.toISOString())) call.audit('shift.group-taken-off', shift.id, { classId: group.classId });
    return readShift(call, shift.id);
  });
}

/** Pupils are let in only while the adult rule holds for those adults who are there. */
export function checkInPupils(call: Signed, ids: { id: string; groupId: string }, checkedIn: boolean, ownSite: OwnSite): Shift {
  return write(call.store, () => {
    const { shift, group } = groupOrRefuse(call, ids, ownSite);
    refuseClosed(call, shift);
    if (group.endedAt !== null) throw refuse('not-found');
    if (checkedIn) refuseWithoutAdults(call, shift);
    checkInGroup(call.store, group.id, checkedIn ? call.now.toISOString() : null);
    call.audit(checkedIn ? 'shift.group-checked-in' : 'shift.group-checked-out', shift.id, { classId: group.classId });
    return readShift(call, shift.id);
  });
}

export function refuseWithoutAdults(call: Pick<Signed, 'store'>, shift: Pick<ShiftRow, 'id' | 'leastAdults'>): void {
  const signUps = signUpsOfShifts(call.store, [shift.id]);
  const standing = standingOf(shift, { signUps, groups: groupsOfShifts(call.store, [shift.id]) });
  if (standing.state !== 'needs-adult') return;
  const missing = standing.needed - standing.counted;
  const detail = `This shift needs ${missing} more ${missing === 1 ? 'adult' : 'adults'} before pupils can come in.`;
  throw refuse('pupils-need-adults', { detail, help: { ...standing } });
}

function groupOrRefuse(call: Signed, ids: { id: string; groupId: string }, ownSite: OwnSite): { shift: ShiftRow; group: ShiftGroupRow } {
  const shift = shiftOrRefuse(call, ids.id);
  ownSite(shift.siteId);
  const group = shiftGroupById(call.store, ids.groupId);
  if (group === null || group.shiftId !== shift.id) throw refuse('not-found');
  return { shift, group };
}

function refuseClosed(call: Signed, shift: ShiftRow): void {
  if (shift.cancelledAt !== null) throw refuse('shift-cancelled');
  if (endOf(shift) <= call.now.getTime()) throw refuse('shift-over');
}
