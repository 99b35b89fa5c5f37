/** What somebody was told. */
import type { Message } from '@middenry/contract';
import type { Context, Signed } from '../../context.ts';
import { countUnread as count, countOwn, type MessageRow, markRead as mark, messagesOf } from '../../db/repositories/message.ts';
import { findPerson } from '../../db/repositories/person.ts';
import { shiftById } from '../../db/repositories/shift.ts';
import { placesHeldOn } from '../../db/repositories/sign-up.ts';
import { write } from '../../db/store.ts';
import { refuse } from '../../refusal.ts';
import { nameFor } from '../names.ts';
import { endOf } from '../shift-shape.ts';
import type { MessageFacts } from './tell.ts';

/** Facts with this name hold whom it is about; the reader gets the name as they may see it. */
const WHO_FACT = 'byPersonId';

export function listMessages(
  call: Signed,
  query: { readonly before?: string | undefined; readonly limit: number },
): { items: Message[]; unread: number; more: boolean } {
  const rows = messagesOf(call.store, call.who.personId, { before: query.before ?? null, limit: query.limit + 1 });
  const items = rows.slice(0, query.limit).map((row) => messageShape(call, row));
  return { items, unread: countUnread(call), more: rows.length > query.limit };
}

export const countUnread = (call: Signed): number => count(call.store, call.who.personId);

export function markRead(call: Signed, ids: readonly string[]): void {
  if (countOwn(call.store, call.who.personId, ids) < new Set(ids).size) throw refuse('not-found');
  write(call.store, () => mark(call.store, call.who.personId, ids, call.now.toISOString()));
}

function messageShape(call: Signed, row: MessageRow): Message {
  const shift = shiftCardOf(call, call.who.personId, row.shiftId);
  const isLate = row.goodUntil !== null && row.goodUntil <= call.now.toISOString();
  return {
    id: row.id,
    kind: row.kind as Message['kind'],
    shift,
    facts: factsFor(call, JSON.parse(row.facts) as MessageFacts),
    urgent: row.urgent === 1,
    madeAt: row.madeAt,
    read: row.readAt !== null,
    over: row.overAt !== null || isLate || (shift?.over ?? false),
  };
}

/** A shift as the person of a message may see it. */
export function shiftCardOf(call: Context, personId: string, shiftId: string | null): Message['shift'] {
  const row = shiftId === null ? null : shiftById(call.store, shiftId);
  if (row === null) return null;
  const { id, title, siteName, localDate, localTime, minutes } = row;
  return {
    ...{ id, title, siteName, localDate, localTime, minutes },
    cancelled: row.cancelledAt !== null,
    over: endOf(row) <= call.now.getTime(),
    mySignUpId: placesHeldOn(call.store, personId, [id])[0]?.id ?? null,
  };
}

function factsFor(call: Signed, facts: MessageFacts): Record<string, string | number | boolean | null> {
  const { [WHO_FACT]: personId, ...rest } = facts;
  const person = typeof personId === 'string' ? findPerson(call.store, personId) : undefined;
  return person === undefined ? rest : { ...rest, by: nameFor(call.who, person) };
}
