/** Whether mail gets through, who has to be telephoned, and what the link in a mail does. */
import * as z from 'zod';
import { Empty, Id, Instant } from '../common.ts';
import { coordinators, everyone, grownUps, leads, type RouteSpec } from '../route.ts';
import { MessageKind, MessageShift } from './message.ts';
import { IdParams } from './place.ts';

/** `handed-over`: the mail server took it; whether it was read, nobody knows. `dropped`: too late to be of use. */
export const MAIL_STATES = ['waiting', 'handed-over', 'failed', 'dropped'] as const;
const MailState = z.enum(MAIL_STATES);

export const MailTest = z.object({ id: Id, madeAt: Instant, state: MailState, error: z.string() });
export const MailStatus = z.object({
  configured: z.boolean(),
  waiting: z.int(),
  handedOver: z.int().describe('in the last seven days, as failed and dropped'),
  failed: z.int(),
  dropped: z.int(),
  lastHandedOverAt: Instant.nullable(),
  lastError: z.string().nullable().describe('what the mail server said when it last went wrong and has not gone right since'),
  test: MailTest.nullable().describe('my last test'),
});
export type MailStatus = z.infer<typeof MailStatus>;

export const Told = z.object({
  personId: Id,
  name: z.string(),
  kind: MessageKind,
  madeAt: Instant,
  urgent: z.boolean(),
  read: z.boolean().describe('opened in the app'),
  mail: z.enum([...MAIL_STATES, 'none']),
  error: z.string(),
  call: z.boolean().describe('nothing shows that they know: telephone them'),
});
export type Told = z.infer<typeof Told>;

const Token = z.string().regex(/^[\w-]{22,64}$/, 'is not a link');
export const Reply = z.object({
  shift: MessageShift.nullable().describe('null where the mail was about no shift'),
  canGiveBack: z.boolean(),
  mail: z.boolean().describe('mail is on for this person'),
});
export type Reply = z.infer<typeof Reply>;
export const REPLY_DEEDS = ['give-back', 'stop-mail'] as const;

export const mailRoutes = [
  {
    method: 'GET',
    path: '/api/mail',
    name: 'readMail',
    summary: 'Whether mail gets through',
    tag: 'message',
    access: coordinators,
    own: 'nothing',
    answer: MailStatus,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/mail/tests',
    name: 'testMail',
    summary: 'Mail a test to my own confirmed address, the way all mail goes',
    tag: 'message',
    access: coordinators,
    own: 'nothing',
    body: Empty,
    answer: MailTest,
    status: 201,
  },
  {
    method: 'GET',
    path: '/api/shifts/:id/told',
    name: 'listTold',
    summary: 'Who was told that a shift changed, and who must be telephoned',
    tag: 'message',
    access: leads,
    own: 'site',
    params: IdParams,
    answer: z.object({ items: z.array(Told) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/reply-cards',
    name: 'readReply',
    reads: true,
    summary: 'What the link in a mail is about; changes nothing',
    tag: 'message',
    access: everyone,
    own: 'nothing',
    body: z.object({ token: Token }).strict(),
    answer: Reply,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/replies',
    name: 'sendReply',
    summary: 'Give the place of that mail back, or stop mail',
    tag: 'message',
    access: everyone,
    own: 'nothing',
    body: z.object({ token: Token, does: z.enum(REPLY_DEEDS) }).strict(),
    answer: Reply,
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/group-text',
    name: 'readGroupText',
    summary: "A week's open places as text for a group chat, without names",
    tag: 'message',
    access: grownUps,
    own: 'nothing',
    query: z.object({ siteId: Id.optional(), days: z.coerce.number().int().min(1).max(31).default(7) }),
    answer: z.object({ text: z.string() }),
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
