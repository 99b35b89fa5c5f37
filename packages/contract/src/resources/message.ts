/** What people are told, in the app and by mail, and how they want to be told. */
import * as z from 'zod';
import { Id, Instant, LocalDate, LocalTime } from '../common.ts';
import { grownUps, type RouteSpec } from '../route.ts';

export const MESSAGE_KINDS = [
  'reminder-day', // the day before
  'reminder-hours', // two hours before
  'shift-changed', // another day, time or length
  'shift-cancelled',
  'place-got', // by a draw, or a coordinator signed them up
  'place-lost', // a coordinator took them off
  'place-offered', // from the waiting list
  'swap-offered',
  'swap-accepted',
  'rota-invitation',
  'needs-adult', // pupils come, and too few grown-ups
  'late-entries', // what somebody noted waited on a phone for more than three days
  'upkeep', // a backup, a trial restore, the disk or the check of the store wants a coordinator
  'digest', // once a day, for coordinators
] as const;
export const MessageKind = z.enum(MESSAGE_KINDS);
export type MessageKind = z.infer<typeof MessageKind>;

/** As it stands now, not as it stood when the message was made. */
export const MessageShift = z.object({
  id: Id,
  title: z.string(),
  siteName: z.string(),
  localDate: LocalDate,
  localTime: LocalTime,
  minutes: z.int(),
  cancelled: z.boolean(),
  over: z.boolean(),
  mySignUpId: Id.nullable().describe('my place on it, to be given back in one tap'),
});

export const Message = z.object({
  id: Id,
  kind: MessageKind,
  shift: MessageShift.nullable(),
  facts: z
    .record(z.string(), z.union([z.string(), z.number(), z.boolean(), z.null()]))
    .describe('what the words are filled with: ids, dates and counts; names as the reader may see them'),
  urgent: z.boolean(),
  madeAt: Instant,
  read: z.boolean(),
  over: z.boolean().describe('what it says is no longer so, or too late to act on'),
});
export type Message = z.infer<typeof Message>;

export const messageRoutes = [
  {
    method: 'GET',
    path: '/api/messages',
    name: 'listMessages',
    summary: 'What I was told, newest first',
    tag: 'message',
    access: grownUps,
    own: 'nothing',
    query: z.object({ before: Id.optional(), limit: z.coerce.number().int().min(1).max(100).default(50) }),
    answer: z.object({ items: z.array(Message), unread: z.int(), more: z.boolean() }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/messages/read',
    name: 'readMessages',
    summary: 'Mark messages of mine as read',
    tag: 'message',
    access: grownUps,
    own: 'nothing',
    body: z.object({ ids: z.array(Id).min(1).max(200) }).strict(),
    answer: z.object({ unread: z.int() }),
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
