/** Places handed over or swapped: who offers keeps the place until somebody accepts, and then one transaction moves it. */
import type { Shift, SwapAccept, SwapNew } from '@middenry/contract';
import type * as z from 'zod';
import type { Signed } from '../context.ts';
import { endMessages } from '../db/repositories/message.ts';
import type { ShiftRow } from '../db/repositories/shift.ts';
import { giveBack, isSignedUp, placesHeldOn, signUpById, signUpPerson, takePlace } from '../db/repositories/sign-up.ts';
import {
  insertSwap,
  acceptSwap as markAccepted,
  endSwap as markEnded,
  openSwapsOf,
  type SwapRow,
  swapById,
} from '../db/repositories/swap.ts';
import { write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { derivedId } from './id.ts';
import { tellSwapAccepted, tellSwapOffered } from './messages/occasions.ts';
import { once } from './once.ts';
import { endOf } from './shift-shape.ts';
import { readShift, shiftOrRefuse } from './shifts.ts';
import { refuseBySeason } from './sign-up-seasons.ts';
import { settleWaiting } from './waiting.ts';

type Own = (mine: boolean) => void;

export function offerSwap(call: Signed, shiftId: string, body: z.output<typeof SwapNew>, own: Own): Shift {
  const signUp = signUpById(call.store, body.signUpId);
  if (signUp === null || signUp.shiftId !== shiftId) throw refuse('not-found');
  own(signUp.personId === call.who.personId);
  const find = () => readShift(call, shiftId);
  const make = () => {
    refuseGone(call, shiftOrRefuse(call, shiftId));
    if (signUpById(call.store, signUp.id)?.givenBackAt !== null) throw refuse('swap-gone');
    if (openSwapsOf(call.store, [shiftId]).some((row) => row.signUpId === signUp.id)) throw refuse('swap-open');
    const toPersonId = body.toPersonId ?? null;
    if (toPersonId !== null) refuseReceiver(call, toPersonId, signUp.personId);
    const strange = body.inReturn.findIndex((id) => id === shiftId || !isThere(call, id));
    if (strange >= 0) throw refuseField(`/inReturn/${strange}`, 'is not another shift to come');
    const { id, inReturn } = body;
    const madeAt = call.now.toISOString();
    insertSwap(call.store, { id, signUpId: signUp.id, shiftId, fromPersonId: signUp.personId, toPersonId, inReturn, madeAt });
    if (toPersonId !== null) tellSwapOffered(call, { id, toPersonId, fromPersonId: signUp.personId, shift: shiftOrRefuse(call, shiftId) });
    return find();
  };
  return once(call, 'offerSwap', { ...body, shiftId }, { make, find });
}

/** Of many who accept exactly one gets the place; what was given in return moves in the same transaction. */
export function acceptSwap(call: Signed, swapId: string, body: z.output<typeof SwapAccept>): Shift {
  const { store, who, now } = call;
  const at = now.toISOString();
  const make = () => {
    const swap = swapOrRefuse(call, swapId);
    const shift = shiftOrRefuse(call, swap.shiftId);
    refuseGone(call, shift);
    if (!markAccepted(store, { id: swapId, personId: who.personId, at })) throw refuse('swap-gone');
    if (isSignedUp(store, shift.id, who.personId)) throw refuse('already-signed-up');
    if (swap.inReturn.length === 0) refuseBySeason(call, shift, who.personId);
    if (swap.inReturn.length > 0 || body.giveSignUpId !== undefined) giveInReturn(call, swap, body);
    giveBack(store, swap.signUpId, at);
    move(call, { id: body.id, shiftId: shift.id, personId: who.personId });
    tellSwapAccepted(call, { id: swapId, fromPersonId: swap.fromPersonId, shift });
    return readShift(call, shift.id);
  };
  const find = () => readShift(call, swapOrRefuse(call, swapId).shiftId);
  return once(call, 'acceptSwap', { ...body, swapId }, { make, find });
}

function giveInReturn(call: Signed, swap: SwapRow, body: z.output<typeof SwapAccept>): void {
  const given = placesHeldOn(call.store, call.who.personId, swap.inReturn).find(({ id }) => id === body.giveSignUpId);
  if (given === undefined) throw refuseField('/giveSignUpId', 'must be a place of yours on a shift that they would take');
  refuseGone(call, shiftOrRefuse(call, given.shiftId));
  if (isSignedUp(call.store, given.shiftId, swap.fromPersonId)) throw refuse('swap-gone');
  giveBack(call.store, given.id, call.now.toISOString());
  move(call, { id: derivedId(body.id, 'in return'), shiftId: given.shiftId, personId: swap.fromPersonId });
}

/** The place was never free in between, so nobody who waits is passed over. */
function move(call: Signed, place: { id: string; shiftId: string; personId: string }): void {
  if (!takePlace(call.store, { ...place, keepsOffers: 0, at: call.now.toISOString() })) throw refuse('swap-gone');
  settleWaiting(call.store, place.shiftId, call.now);
}

/** The maker takes it back, or the one it was made to says no; neither gives a reason. */
export function endSwap(call: Signed, swapId: string, own: Own): Shift {
  return write(call.store, () => {
    const swap = swapById(call.store, swapId);
    if (swap === null) throw refuse('not-found');
    const toMe = swap.toPersonId === call.who.personId;
    own(toMe || swap.fromPersonId === call.who.personId);
    endMessages(call.store, { kind: 'swap-offered', shiftId: swap.shiftId, occasion: swapId, at: call.now.toISOString() });
    markEnded(call.store, swapId, { at: call.now.toISOString(), how: toMe ? 'declined' : 'withdrawn' });
    return readShift(call, swap.shiftId);
  });
}

/** An offer to somebody else looks as if it were not there. */
function swapOrRefuse(call: Signed, swapId: string): SwapRow {
  const swap = swapById(call.store, swapId);
  if (swap === null) throw refuse('not-found');
  if (swap.toPersonId !== null && ![swap.toPersonId, swap.fromPersonId].includes(call.who.personId)) throw refuse('not-found');
  return swap;
}

function refuseGone(call: Signed, shift: ShiftRow): void {
  if (shift.cancelledAt !== null) throw refuse('shift-cancelled');
  if (endOf(shift) <= call.now.getTime()) throw refuse('shift-over');
}

function refuseReceiver(call: Signed, personId: string, fromPersonId: string): void {
  const person = signUpPerson(call.store, personId);
  if (person === null || person.disabled === 1 || personId === fromPersonId)
    throw refuseField('/toPersonId', 'is nobody who could take it');
  if (person.isPupil === 1) throw refuse('pupils-need-adults');
}

function isThere(call: Signed, shiftId: string): boolean {
  const row = shiftOrRefuse(call, shiftId);
  return row.cancelledAt === null && endOf(row) > call.now.getTime();
}
