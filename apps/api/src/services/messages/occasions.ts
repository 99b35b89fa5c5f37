/** What is worth telling: called where it happens, inside the same write. */
import type { Signed } from '../../context.ts';
import { endMessages } from '../../db/repositories/message.ts';
import type { ShiftRow } from '../../db/repositories/shift.ts';
import { signUpsOfShifts } from '../../db/repositories/sign-up.ts';
import type { Store } from '../../db/store.ts';
import { startOf } from '../local-time.ts';
import { tell } from './tell.ts';

const HOUR_MS = 3_600_000;
const SOON_HOURS = 24;
const MS_PER_MINUTE = 60_000;

/** Less than a day before the start everybody concerned is told at once (criteria C7). */
const isSoon = (now: Date, ...starts: readonly Date[]): boolean =>
  starts.some((start) => start.getTime() - now.getTime() < SOON_HOURS * HOUR_MS);

const startAt = (row: ShiftRow): Date => startOf(row).startsAt;
const endAt = (row: ShiftRow): Date => new Date(startAt(row).getTime() + row.minutes * MS_PER_MINUTE);

/** Everybody with a place, but not whoever did it: they know. */
const others = ({ store, who }: Signed, shiftId: string): string[] =>
  signUpsOfShifts(store, [shiftId])
    .map(({ personId }) => personId)
    .filter((personId) => personId !== who.personId);

/** Another day, time or length; what else changed is read on the shift itself. */
export function tellShiftChanged(call: Signed, before: ShiftRow, after: ShiftRow): void {
  const isSame = before.localDate === after.localDate && before.localTime === after.localTime && before.minutes === after.minutes;
  if (isSame || (endAt(before) <= call.now && endAt(after) <= call.now)) return;
  const facts = { wasDate: before.localDate, wasTime: before.localTime, wasMinutes: before.minutes };
  for (const personId of others(call, after.id)) {
    tell(call.store, {
      ...{ personId, kind: 'shift-changed', shiftId: after.id, occasion: String(after.revision), facts, now: call.now },
      urgent: isSoon(call.now, startAt(before), startAt(after)),
      goodUntil: endAt(after),
    });
  }
}

export function tellShiftCancelled(call: Signed, row: ShiftRow): void {
  if (endAt(row) <= call.now) return;
  for (const kind of ['reminder-day', 'reminder-hours']) endMessages(call.store, { kind, shiftId: row.id, at: call.now.toISOString() });
  const urgent = isSoon(call.now, startAt(row));
  for (const personId of others(call, row.id))
    tell(call.store, { personId, kind: 'shift-cancelled', shiftId: row.id, now: call.now, urgent, goodUntil: endAt(row) });
}

/** A place that is kept for somebody until `until`. */
export function tellPlaceOffered(
  store: Store,
  offer: { readonly personId: string; readonly shiftId: string; readonly waitingId: string; readonly until: Date; readonly now: Date },
): void {
  const { personId, shiftId, waitingId, until, now } = offer;
  tell(store, {
    ...{ personId, kind: 'place-offered', shiftId, occasion: waitingId, now },
    facts: { until: until.toISOString() },
    goodUntil: until,
  });
}

/** A coordinator signed somebody up, or took them off. */
export function tellPlace(
  call: Signed,
  kind: 'place-got' | 'place-lost',
  place: { personId: string; shift: ShiftRow; occasion: string },
): void {
  const { personId, shift, occasion } = place;
  if (personId === call.who.personId || endAt(shift) <= call.now) return;
  const urgent = isSoon(call.now, startAt(shift));
  tell(call.store, { personId, kind, shiftId: shift.id, occasion, now: call.now, urgent, goodUntil: endAt(shift) });
}

/** Somebody would hand their place to this person. */
export function tellSwapOffered(
  call: Signed,
  swap: { readonly id: string; readonly toPersonId: string; readonly fromPersonId: string; readonly shift: ShiftRow },
): void {
  tell(call.store, {
    ...{ personId: swap.toPersonId, kind: 'swap-offered', shiftId: swap.shift.id, occasion: swap.id, now: call.now },
    facts: { byPersonId: swap.fromPersonId },
    goodUntil: endAt(swap.shift),
  });
}

/** Whoever offered a place is free of it. */
export function tellSwapAccepted(
  call: Signed,
  swap: { readonly id: string; readonly fromPersonId: string; readonly shift: ShiftRow },
): void {
  const at = call.now.toISOString();
  endMessages(call.store, { kind: 'swap-offered', shiftId: swap.shift.id, occasion: swap.id, at });
  tell(call.store, {
    ...{ personId: swap.fromPersonId, kind: 'swap-accepted', shiftId: swap.shift.id, occasion: swap.id, now: call.now },
    facts: { byPersonId: call.who.personId },
    urgent: isSoon(call.now, startAt(swap.shift)),
    goodUntil: endAt(swap.shift),
  });
}

/** Somebody is asked for a place until `until`. */
export function tellInvitation(
  call: Signed,
  invitation: { readonly id: string; readonly personId: string; readonly shift: ShiftRow; readonly until: Date },
): void {
  const { id, personId, shift, until } = invitation;
  tell(call.store, {
    ...{ personId, kind: 'rota-invitation', shiftId: shift.id, occasion: id, now: call.now },
    facts: { invitationId: id, until: until.toISOString() },
    goodUntil: until,
  });
}

/** It was answered or taken back. */
export function endInvitationMessage(call: Signed, { id, shiftId }: { readonly id: string; readonly shiftId: string }): void {
  endMessages(call.store, { kind: 'rota-invitation', shiftId, occasion: id, at: call.now.toISOString() });
}
