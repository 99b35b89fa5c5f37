/** Invites: a link or QR that only a press uses up. Looking at it, by a person or a mail scanner, changes nothing. */
import * as z from 'zod';
import { ClientId, Id, Instant, Name } from '../common.ts';
import { coordinators, everyone, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';
import { Session } from './session.ts';
import { Password } from './setup.ts';

export const INVITE_ROLES = ['volunteer', 'site-lead', 'coordinator'] as const;
export const INVITE_STATES = ['open', 'used', 'revoked', 'run-out'] as const;
export const Invite = z.object({
  id: Id,
  name: z.string().nullable(),
  personId: Id.nullable().describe('set when it is one more device for somebody who is there already'),
  role: z.enum(INVITE_ROLES),
  siteIds: z.array(Id),
  createdAt: Instant,
  expiresAt: Instant,
  state: z.enum(INVITE_STATES),
});
export const InviteNew = z
  .object({
    id: ClientId,
    name: Name.nullable().default(null),
    personId: Id.nullable().default(null),
    role: z.enum(INVITE_ROLES).default('volunteer'),
    siteIds: z.array(Id).max(50).default([]),
  })
  .strict();
/** `path` is shown once, here: the store keeps a hash of its secret. */
export const InviteMade = Invite.extend({
  path: z
    .string()
    .describe('address of the invite below the public address, such as /join#…; what stands after the # is never sent to a server'),
});
export const InviteCard = z.object({
  programmeName: z.string(),
  name: z.string().nullable(),
  role: z.enum(INVITE_ROLES),
  needsName: z.boolean(),
  needsPassword: z.boolean().describe('a coordinator also says an e-mail address and a password'),
  expiresAt: Instant,
});
const Token = z.string().regex(/^[\w-]{22,64}$/, 'is not an invite');
export const InviteUse = z
  .object({
    token: Token,
    name: Name.optional(),
    email: z.email().max(254).optional(),
    password: Password.optional(),
    deviceLabel: z.string().trim().max(120).default(''),
  })
  .strict();

export const inviteRoutes = [
  {
    method: 'GET',
    path: '/api/invites',
    name: 'listInvites',
    summary: 'Invites, newest first',
    tag: 'invite',
    access: coordinators,
    own: 'nothing',
    answer: z.object({ items: z.array(Invite) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/invites',
    name: 'addInvite',
    summary: 'Invite somebody',
    tag: 'invite',
    access: coordinators,
    own: 'nothing',
    body: InviteNew,
    answer: InviteMade,
    status: 201,
  },
  {
    method: 'DELETE',
    path: '/api/invites/:id',
    name: 'revokeInvite',
    summary: 'Take an invite back',
    tag: 'invite',
    access: coordinators,
    own: 'nothing',
    params: IdParams,
    answer: Invite,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/invite-cards',
    name: 'readInviteCard',
    reads: true,
    summary: 'What an invite says; looking does not use it up',
    tag: 'invite',
    access: everyone,
    own: 'nothing',
    body: z.object({ token: Token }).strict(),
    answer: InviteCard,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/session/invite',
    name: 'useInvite',
    summary: 'Take up an invite on this device',
    tag: 'invite',
    access: everyone,
    own: 'nothing',
    body: InviteUse,
    answer: Session,
    status: 201,
  },
] as const satisfies readonly RouteSpec[];
