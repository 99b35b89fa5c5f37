/** Entries that waited on a phone: one transaction, and each of them judged by itself. */
import { type BatchResult, ENTRY_BODIES, type EntryBatch, type EntryKind } from '@middenry/contract';
import type * as z from 'zod';
import type { Signed } from '../context.ts';
import { write, writePart } from '../db/store.ts';
import { problemOf } from '../plugins/problem.ts';
import { Refusal, refuse } from '../refusal.ts';
import { faultsOf } from '../routing/parse.ts';
import { logEntry } from './entries.ts';
import { tellLateEntries } from './late-entries.ts';

type Batch = z.output<typeof EntryBatch>;
type Sent = Batch['entries'][number];

const MADE = 201;
const KNOWN = 200;

/**
 * Notes them in the order in which they were kept. What a rule refuses is answered with its problem
 * and leaves no trace; a fault of our own takes the whole batch back, so that the phone sends it again.
 *
 * @throws {Refusal} signed-in-as-another
 */
export function logBatch(call: Signed, { personId, deviceAt, entries }: Batch): { items: BatchResult[] } {
  if (personId !== call.who.personId) throw refuse('signed-in-as-another');
  return write(call.store, () => {
    const items = entries.map((entry) => logOne(call, entry, deviceAt));
    const made = entries.filter((_entry, at) => items[at]?.status === MADE);
    tellLateEntries(
      call,
      made.map(({ keptAt }) => keptAt),
      deviceAt,
    );
    return { items };
  });
}

function logOne(call: Signed, { kind, body }: Sent, deviceAt: string): BatchResult {
  let isAgain = false;
  const again = () => {
    isAgain = true;
  };
  try {
    const entry = writePart(call.store, () => logEntry({ ...call, again }, kind, bodyOf(kind, { ...body, deviceAt }) as never));
    return { id: body.id, status: isAgain ? KNOWN : MADE, entry };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const problem = problemOf(error.code, call.requestId, error.extra);
    return { id: body.id, status: problem.status, problem };
  }
}

function bodyOf(kind: EntryKind, sent: unknown): unknown {
  const read = ENTRY_BODIES[kind].safeParse(sent);
  if (!read.success) throw refuse('invalid', { errors: faultsOf('', read) });
  return read.data;
}
