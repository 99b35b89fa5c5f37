/** What every entry shares: when it happened, at which bin, and how it reads back. */
import * as z from 'zod';
import { ClientId, Id, Instant, LocalDate, Note, PersonRef } from '../common.ts';

/** When it happened and where it was noted; `happenedAt` may be up to five minutes ahead of the server (skewed phones). */
export const entryBase = {
  id: ClientId,
  binId: Id,
  happenedAt: Instant,
  /** The phone's clock when it sent this. */
  deviceAt: Instant.optional(),
  shiftId: Id.nullable().default(null),
  note: Note.default(''),
};

export const entryTail = {
  id: Id,
  kind: z.string(),
  binId: Id,
  binCode: z.string(),
  happenedAt: Instant,
  localDate: LocalDate,
  receivedAt: Instant,
  by: PersonRef.nullable().describe('null when the person has been erased: "former volunteer"'),
  mine: z.boolean(),
  shiftId: Id.nullable(),
  note: z.string(),
  revision: z.int(),
  undoneAt: Instant.nullable(),
  clockSkewed: z.boolean(),
};

export const Zone = z.int().min(1).max(12);
