import type { Invite, InviteCard, InviteMade, InviteNew, InviteUse } from '@middenry/contract';
import type * as z from 'zod';
import type { Context, Signed, Who } from '../context.ts';
import {
  findInvite,
  findInviteByHash,
  type InviteRow,
  insertInvite,
  listInvites,
  revokeInvite,
  spendInvite,
} from '../db/repositories/invite.ts';
import { findSite } from '../db/repositories/site.ts';
import { write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { hashNewPassword } from './new-password.ts';
import { makePerson, personOf } from './people.ts';
import { programmeOf } from './programme.ts';
import { hashOf, newToken } from './secret.ts';
import type { StartedSession } from './session.ts';
import { enter, kindFor } from './sign-in.ts';

const LIFE_MS = 14 * 24 * 3_600_000;

type Shape = z.output<typeof Invite>;

function stateOf(invite: InviteRow, now: Date): Shape['state'] {
  if (invite.usedAt !== null) return 'used';
  if (invite.revokedAt !== null) return 'revoked';
  return invite.expiresAt <= now.toISOString() ? 'run-out' : 'open';
}

function inviteShape(invite: InviteRow, now: Date): Shape {
  const { usedAt: _usedAt, revokedAt: _revokedAt, ...rest } = invite;
  return { ...rest, siteIds: [...invite.siteIds], state: stateOf(invite, now) };
}

export const allInvites = (context: Signed): Shape[] => listInvites(context.store).map((row) => inviteShape(row, context.now));

/**
 * Makes an invite. Its secret is in this answer only, so sending the same id again cannot give the
 * same answer; the id is refused instead.
 */
export function addInvite(context: Signed, body: z.output<typeof InviteNew>): z.output<typeof InviteMade> {
  const { store, now } = context;
  return write(store, () => {
    if (findInvite(store, body.id) !== undefined) throw refuse('same-id-other-content');
    if (body.siteIds.some((siteId) => findSite(store, siteId) === undefined)) throw refuse('not-found');
    const forSomebody = body.personId === null ? null : personOf(store, body.personId);
    if (forSomebody !== null && (forSomebody.role === 'pupil' || forSomebody.role === 'coordinator'))
      throw refuseField('/personId', 'a pupil has a card and a coordinator a password');
    const role = forSomebody === null || forSomebody.role === 'pupil' ? body.role : forSomebody.role;
    if (forSomebody === null && role === 'site-lead' && body.siteIds.length === 0) throw refuseField('/siteIds', 'must name the site');
    if (forSomebody === null && role === 'coordinator' && body.siteIds.length > 0)
      throw refuseField('/siteIds', 'a coordinator sees every site');
    const token = newToken();
    const expiresAt = new Date(now.getTime() + LIFE_MS).toISOString();
    insertInvite(store, {
      ...body,
      name: forSomebody?.name ?? body.name,
      role,
      siteIds: forSomebody?.siteIds ?? body.siteIds,
      tokenHash: hashOf(token),
      createdBy: context.who.personId,
      createdAt: now.toISOString(),
      expiresAt,
    });
    context.audit('invite-made', body.id, { role });
    return { ...inviteShape(findInvite(store, body.id)!, now), path: `/join#${token}` };
  });
}

export function takeBackInvite(context: Signed, id: string): Shape {
  return write(context.store, () => {
    if (findInvite(context.store, id) === undefined) throw refuse('not-found');
    revokeInvite(context.store, id, context.now.toISOString());
    context.audit('invite-revoked', id);
    return inviteShape(findInvite(context.store, id)!, context.now);
  });
}

/** An invite that can still be used; looking at it as often as one likes changes nothing. */
export function openInvite(context: Context, token: string): InviteRow {
  const invite = findInviteByHash(context.store, hashOf(token));
  if (invite === undefined) throw refuse('not-found');
  if (stateOf(invite, context.now) !== 'open') throw refuse('code-spent');
  return invite;
}

export function inviteCard(context: Context, token: string): z.output<typeof InviteCard> {
  const invite = openInvite(context, token);
  return {
    programmeName: programmeOf(context.store).name,
    name: invite.name,
    role: invite.role,
    needsName: invite.name === null,
    needsPassword: invite.role === 'coordinator',
    expiresAt: invite.expiresAt,
  };
}

/** The press: makes the person where there is none yet, uses the invite up, and signs this device in. */
export async function useInvite(context: Context, body: z.output<typeof InviteUse>): Promise<StartedSession & { who: Who }> {
  const { role, name: invitedName } = openInvite(context, body.token);
  const name = invitedName ?? body.name;
  if (name === undefined) throw refuseField('/name', 'must be given');
  if (role === 'coordinator' && body.email === undefined) throw refuseField('/email', 'must be given');
  if (role === 'coordinator' && body.password === undefined) throw refuseField('/password', 'must be given');
  const secret = role === 'coordinator' ? await hashNewPassword(body.password!, [name, body.email]) : null;
  return write(context.store, () => {
    const invite = openInvite(context, body.token);
    const email = role === 'coordinator' ? body.email!.toLowerCase() : null;
    const personId = invite.personId ?? makePerson(context, { name, role: invite.role, siteIds: invite.siteIds, email, secret });
    if (personOf(context.store, personId).disabled) throw refuse('code-spent');
    if (!spendInvite(context.store, invite.id, personId, context.now.toISOString())) throw refuse('code-spent');
    context.audit('invite-used', invite.id, { personId });
    return enter(context, personId, kindFor(invite.role), body.deviceLabel);
  });
}
