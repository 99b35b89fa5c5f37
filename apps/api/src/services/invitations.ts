/** What somebody is asked for: taken through the same insert as any place, or refused without a reason. */
import type { Invitation, Shift } from '@middenry/contract';
import { isRush } from '@middenry/domain';
import type { Signed } from '../context.ts';
import { answerInvitation, invitationsOf, type RotaProposalRow, rotaProposalById } from '../db/repositories/rota.ts';
import { shiftById } from '../db/repositories/shift.ts';
import { takePlace } from '../db/repositories/sign-up.ts';
import { write } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { startOf } from './local-time.ts';
import { endInvitationMessage } from './messages/occasions.ts';
import { once } from './once.ts';
import { isFree, shiftRefOf } from './rota-shape.ts';
import { readShift, shiftOrRefuse } from './shifts.ts';
import { endWaitOf, refuseClosed, whyNot } from './sign-ups.ts';
import { settleWaiting } from './waiting.ts';

export function listInvitations(call: Signed): Invitation[] {
  return invitationsOf(call.store, call.who.personId, call.now.toISOString()).map(({ id, shiftId, skill, invitedAt, goodUntil }) => {
    const shift = shiftRefOf(call, shiftById(call.store, shiftId)!);
    return { ...{ id, shift, skill }, invitedAt: invitedAt!, goodUntil: goodUntil!, free: isFree(shift) };
  });
}

/** The last place goes to exactly one, whether they were asked or came by themselves. */
export function acceptInvitation(call: Signed, invitationId: string, signUpId: string): Shift {
  const { store, who, now } = call;
  const at = now.toISOString();
  const find = (): Shift => readShift(call, mineOrRefuse(call, invitationId).shiftId);
  const make = (): Shift => {
    const row = mineOrRefuse(call, invitationId);
    const shift = shiftOrRefuse(call, row.shiftId);
    refuseClosed(call, shift);
    if (!answerInvitation(store, invitationId, { at, state: 'accepted' })) throw refuse('invitation-gone');
    settleWaiting(store, shift.id, now);
    const keepsOffers = isRush(now.getTime(), startOf(shift).startsAt.getTime()) ? 0 : 1;
    const taken = takePlace(store, { id: signUpId, shiftId: shift.id, personId: who.personId, keepsOffers, at });
    if (!taken) throw whyNot(call, shift, who.personId);
    endWaitOf(call, shift.id, who.personId);
    endInvitationMessage(call, row);
    return find();
  };
  return once(call, 'acceptInvitation', { id: signUpId, invitationId }, { make, find });
}

/** Whoever was asked says no, or a coordinator takes the question back; neither gives a reason. */
export function endInvitation(call: Signed, invitationId: string, own: (mine: boolean) => void): void {
  write(call.store, () => {
    const row = rotaProposalById(call.store, invitationId);
    if (row === null || row.invitedAt === null) throw refuse('not-found');
    const mine = row.personId === call.who.personId;
    own(mine);
    const answered = answerInvitation(call.store, row.id, { at: call.now.toISOString(), state: mine ? 'declined' : 'withdrawn' });
    if (answered) endInvitationMessage(call, row);
    if (answered && !mine) call.audit('rota.invitation-withdrawn', row.shiftId, { personId: row.personId });
  });
}

/** Somebody else's looks as if it were not there. */
function mineOrRefuse(call: Signed, id: string): RotaProposalRow {
  const row = rotaProposalById(call.store, id);
  if (row === null || row.invitedAt === null || row.personId !== call.who.personId) throw refuse('not-found');
  return row;
}
