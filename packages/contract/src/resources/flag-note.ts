/** A word on a flag: seen, or put aside for a reason until a day. The flag stays what it is. */
import { SIGNAL_IDS } from '@middenry/domain';
import * as z from 'zod';
import { ClientId, Id, Instant, LocalDate, PersonRef } from '../common.ts';
import { leads, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';

export const FLAG_NOTE_KINDS = ['seen', 'aside'] as const;
/** Longest that a flag may be put aside. */
export const ASIDE_MOST_DAYS = 30;
const REASON_LENGTH = 200;

export const FlagNoteInput = z
  .object({
    id: ClientId,
    signal: z.enum(SIGNAL_IDS),
    kind: z.enum(FLAG_NOTE_KINDS),
    reason: z.string().trim().max(REASON_LENGTH, `must be at most ${REASON_LENGTH} characters`).default(''),
    untilOn: LocalDate.optional().describe(`last day aside, at most ${ASIDE_MOST_DAYS} days from today; only with \`aside\``),
  })
  .strict();
export const FlagNote = z.object({
  id: Id,
  signal: z.enum(SIGNAL_IDS),
  kind: z.enum(FLAG_NOTE_KINDS),
  reason: z.string().describe('empty for pupils and for readers by link'),
  untilOn: LocalDate.nullable(),
  at: Instant,
  by: PersonRef.nullable().describe('null when the person has been erased, and for readers by link'),
});
export type FlagNote = z.infer<typeof FlagNote>;

export const flagNoteRoutes = [
  {
    method: 'POST',
    path: '/api/bins/:id/flag-notes',
    name: 'noteFlag',
    summary:
      'Say that a flag has been seen, or put it aside with a reason until a day; it comes back by itself, at once when it gets worse',
    tag: 'outlook',
    access: leads,
    own: 'site',
    params: IdParams,
    body: FlagNoteInput,
    answer: FlagNote,
    status: 201,
  },
  {
    method: 'DELETE',
    path: '/api/flag-notes/:id',
    name: 'endFlagNote',
    summary: 'Take a flag up again before its day, or take back that it was seen',
    tag: 'outlook',
    access: leads,
    own: 'site',
    params: IdParams,
    status: 204,
  },
] as const satisfies readonly RouteSpec[];
