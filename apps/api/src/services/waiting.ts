/** Waiting for a place: joining, leaving, and offers that move on by themselves. */

import type { Shift, WaitingNew } from '@middenry/contract';
import { settlementOf } from '@middenry/domain';
import type * as z from 'zod';
import type { Clock, Signed } from '../context.ts';
import { isBelievable } from '../db/clock-sense.ts';
import { sqliteCodeOf } from '../db/fault.ts';
import { type ShiftRow, shiftById } from '../db/repositories/shift.ts';
import { isSignedUp } from '../db/repositories/sign-up.ts';
import { endWaiting, insertWaiting, offerPlace, shiftsWaitedFor, waitingById, waitingOfShifts } from '../db/repositories/waiting.ts';
import { type Store, write } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { startOf } from './local-time.ts';
import { tellPlaceOffered } from './messages/occasions.ts';
import { once } from './once.ts';
import { endOf } from './shift-shape.ts';
import { readShift, shiftOrRefuse } from './shifts.ts';

export function joinWaiting(call: Signed, shiftId: string, body: z.output<typeof WaitingNew>): Shift {
  const find = () => readShift(call, shiftId);
  const make = () => {
    const { store, now, who } = call;
    const shift = shiftOrRefuse(call, shiftId);
    if (shift.cancelledAt !== null) throw refuse('shift-cancelled');
    if (endOf(shift) <= now.getTime()) throw refuse('shift-over');
    if (isSignedUp(store, shiftId, who.personId)) throw refuse('already-signed-up');
    const waits = waitingOfShifts(store, [shiftId]).some((row) => row.personId === who.personId);
    if (!waits) insertWaiting(store, { id: body.id, shiftId, personId: who.personId, joinedAt: now.toISOString() });
    settleWaiting(store, shiftId, now);
    return find();
  };
  return once(call, 'joinWaiting', { ...body, shiftId }, { make, find });
}

export function leaveWaiting(call: Signed, ids: { id: string; waitingId: string }, own: (mine: boolean) => void): Shift {
  return write(call.store, () => {
    const row = waitingById(call.store, ids.waitingId);
    if (row === null || row.shiftId !== ids.id) throw refuse('not-found');
    own(row.personId === call.who.personId);
    endWaiting(call.store, row.id, { at: call.now.toISOString(), how: 'left' });
    settleWaiting(call.store, ids.id, call.now);
    return readShift(call, ids.id);
  });
}

/** Lets offers lapse and offers what is free to whose turn it is. Call it inside the write that changed places. */
export function settleWaiting(store: Store, shiftId: string, now: Date): void {
  // An offer made by a wrong clock would lapse the moment that it is set; whoever keeps the lists moving makes it then.
  if (!isBelievable(now)) return;
  const shift = shiftById(store, shiftId);
  const rows = waitingOfShifts(store, [shiftId]);
  if (shift === null || rows.length === 0) return;
  const at = now.toISOString();
  const { lapsed, offered, ended } = settlementOf({ ...sceneOf(shift, now), waiters: rows.map(waiterOf) });
  for (const id of lapsed) endWaiting(store, id, { at, how: 'lapsed' });
  for (const { id, untilMs } of offered) {
    const until = new Date(untilMs);
    offerPlace(store, id, { at, until: until.toISOString() });
    const { personId } = rows.find((row) => row.id === id)!;
    tellPlaceOffered(store, { personId, shiftId, waitingId: id, until, now });
  }
  for (const id of ended) endWaiting(store, id, { at, how: 'shift' });
}

const sceneOf = (shift: ShiftRow, now: Date) => ({
  nowMs: now.getTime(),
  startsAtMs: startOf(shift).startsAt.getTime(),
  endsAtMs: endOf(shift),
  cancelled: shift.cancelledAt !== null,
  places: shift.places,
  taken: shift.taken,
});

const waiterOf = ({ id, offerUntil }: { readonly id: string; readonly offerUntil: string | null }) => ({
  id,
  offerUntilMs: offerUntil === null ? null : Date.parse(offerUntil),
});

/** Within a minute of a place coming free, whoever is next knows (criteria C3). */
const LOOKED_EVERY_MS = 30_000;

/** Moves all waiting lists on by the clock; stop it with what it returns. */
export function keepListsMoving(store: Store, clock: Clock): () => void {
  const look = () => {
    try {
      settleAll(store, clock.now());
    } catch (error) {
      // A full disk must not end the server; the next look tries again.
      if (sqliteCodeOf(error) === '') throw error;
    }
  };
  const timer = setInterval(look, LOOKED_EVERY_MS);
  timer.unref();
  return () => clearInterval(timer);
}

export function settleAll(store: Store, now: Date): void {
  const shiftIds = shiftsWaitedFor(store);
  if (shiftIds.length === 0) return;
  write(store, () => {
    for (const shiftId of shiftIds) settleWaiting(store, shiftId, now);
  });
}
