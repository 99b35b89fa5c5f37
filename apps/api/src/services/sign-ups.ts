/** Places on shifts: taken, given back, and who came. */
import type { Shift, SignUpChange, SignUpNew } from '@middenry/contract';
import { isRush } from '@middenry/domain';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import type { ShiftRow } from '../db/repositories/shift.ts';
import { giveBack, isSignedUp, noteAttendance, type SignUpRow, signUpById, signUpPerson, takePlace } from '../db/repositories/sign-up.ts';
import { endWaiting, waitingOfShifts } from '../db/repositories/waiting.ts';
import { write } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { startOf } from './local-time.ts';
import { tellPlace } from './messages/occasions.ts';
import { once } from './once.ts';
import { endOf } from './shift-shape.ts';
import { nearestOpen, readShift, shiftOrRefuse } from './shifts.ts';
import { refuseBySeason } from './sign-up-seasons.ts';
import { settleWaiting } from './waiting.ts';

type SignUpBody = z.output<typeof SignUpNew>;
type ChangeBody = z.output<typeof SignUpChange>;
type Own = (mine: boolean) => void;

/** Takes a place for oneself, or as coordinator for somebody else. The last place goes to exactly one of many. */
export function signUp(call: Signed, shiftId: string, body: SignUpBody): Shift {
  const find = () => readShift(call, shiftId);
  const make = () => {
    const shift = shiftOrRefuse(call, shiftId);
    const personId = personToSignUp(call, body.personId);
    refuseClosed(call, shift);
    const byCoordinator = call.who.role === 'coordinator' && personId !== call.who.personId;
    if (!byCoordinator && !isSignedUp(call.store, shiftId, personId)) refuseBySeason(call, shift, personId);
    settleWaiting(call.store, shiftId, call.now);
    const keepsOffers = isRush(call.now.getTime(), startOf(shift).startsAt.getTime()) ? 0 : 1;
    const taken = takePlace(call.store, { id: body.id, shiftId, personId, keepsOffers, at: call.now.toISOString() });
    if (!taken) throw whyNot(call, shift, personId);
    endWaitOf(call, shiftId, personId);
    tellPlace(call, 'place-got', { personId, shift, occasion: body.id });
    if (personId !== call.who.personId) call.audit('shift.signed-somebody-up', shiftId, { personId });
    return find();
  };
  return once(call, 'takePlace', { ...body, shiftId }, { make, find });
}

function personToSignUp(call: Signed, wished: string | undefined): string {
  const { who, store } = call;
  const personId = wished ?? who.personId;
  // Anybody else's id must look like one that is not there.
  if (personId !== who.personId && who.role !== 'coordinator') throw refuse('not-found');
  const person = signUpPerson(store, personId);
  if (person === null || person.disabled === 1) throw refuse('not-found');
  if (person.isPupil === 1) throw refuse('pupils-need-adults');
  return personId;
}

export function refuseClosed(call: Signed, shift: ShiftRow): void {
  if (shift.cancelledAt !== null) throw refuse('shift-cancelled');
  // Who came without a place is added afterwards, by somebody who may.
  if (endOf(shift) <= call.now.getTime() && call.who.role !== 'coordinator') throw refuse('shift-over');
}

export function whyNot(call: Context, shift: ShiftRow, personId: string) {
  if (isSignedUp(call.store, shift.id, personId)) return refuse('already-signed-up');
  const waitingCount = waitingOfShifts(call.store, [shift.id]).length;
  return refuse('shift-full', { help: { nearest: nearestOpen(call, shift, personId), waitingCount } });
}

/** Whoever has a place waits no longer. */
export function endWaitOf(call: Context, shiftId: string, personId: string): void {
  const wait = waitingOfShifts(call.store, [shiftId]).find((row) => row.personId === personId);
  if (wait) endWaiting(call.store, wait.id, { at: call.now.toISOString(), how: 'took' });
}

/** Needs no reason and leaves no mark. */
export function giveBackPlace(call: Signed, ids: { id: string; signUpId: string }, own: Own): Shift {
  return write(call.store, () => {
    const row = signUpOrRefuse(call, ids);
    const mine = row.personId === call.who.personId;
    own(mine);
    const shift = shiftOrRefuse(call, ids.id);
    if (endOf(shift) <= call.now.getTime() && call.who.role !== 'coordinator') throw refuse('shift-over');
    const isBack = giveBack(call.store, row.id, call.now.toISOString());
    settleWaiting(call.store, ids.id, call.now);
    if (isBack) tellPlace(call, 'place-lost', { personId: row.personId, shift, occasion: row.id });
    if (isBack && !mine) call.audit('shift.took-somebody-off', ids.id, { personId: row.personId });
    return readShift(call, ids.id);
  });
}

/** Says who came and for how long, once the shift has begun. */
export function changeSignUp(call: Signed, ids: { id: string; signUpId: string }, body: ChangeBody, own: Own): Shift {
  return write(call.store, () => {
    const row = signUpOrRefuse(call, ids);
    own(row.personId === call.who.personId);
    const shift = shiftOrRefuse(call, ids.id);
    if (startOf(shift).startsAt > call.now) throw refuse('date-in-future');
    if (row.givenBackAt !== null) throw refuse('not-found');
    const attended = body.attended === undefined ? row.attended : body.attended === null ? null : Number(body.attended);
    noteAttendance(call.store, { id: row.id, attended, minutes: body.minutes === undefined ? row.minutes : body.minutes });
    return readShift(call, ids.id);
  });
}

function signUpOrRefuse(call: Context, ids: { id: string; signUpId: string }): SignUpRow {
  const row = signUpById(call.store, ids.signUpId);
  if (row === null || row.shiftId !== ids.id) throw refuse('not-found');
  return row;
}
