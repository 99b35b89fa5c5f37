/** Whether mail gets through, and who has to be telephoned. */
import { randomUUID } from 'node:crypto';
import type { MailStatus, Told } from '@middenry/contract';
import type { Context, Signed } from '../../context.ts';
import {
  countMail,
  insertMail,
  lastHandedOverAt,
  lastMailError,
  type MailRow,
  mailOfMessages,
  newestMail,
} from '../../db/repositories/mail.ts';
import { messagesOfShift } from '../../db/repositories/message.ts';
import { messageSetting } from '../../db/repositories/message-setting.ts';
import { findPerson } from '../../db/repositories/person.ts';
import { write } from '../../db/store.ts';
import { refuse } from '../../refusal.ts';
import { nameFor } from '../names.ts';

const SHOWN_DAYS = 7;
const TEST_HOURS = 1;
const HOUR_MS = 3_600_000;
/** What a shift's people must have heard of. */
const TOLD_KINDS = ['shift-changed', 'shift-cancelled', 'place-lost', 'place-got', 'needs-adult'];

export const shownState = ({ state }: MailRow): Exclude<Told['mail'], 'none'> => (state === 'sending' ? 'waiting' : state);

export function readMailStatus(call: Signed): MailStatus {
  const { store, now, who } = call;
  const since = new Date(now);
  since.setUTCDate(since.getUTCDate() - SHOWN_DAYS);
  const test = newestMail(store, who.personId, 'test');
  return {
    configured: call.config.mail !== undefined,
    ...countMail(store, since.toISOString()),
    lastHandedOverAt: lastHandedOverAt(store),
    lastError: lastMailError(store),
    test: test === null ? null : testShape(test),
  };
}

const testShape = (row: MailRow): NonNullable<MailStatus['test']> => ({
  id: row.id,
  madeAt: row.madeAt,
  state: shownState(row),
  error: row.lastError,
});

/** Goes through the same queue and the same sender as all mail, or it would prove nothing (criteria H9). */
export function sendTest(call: Signed): NonNullable<MailStatus['test']> {
  const { store, now, who } = call;
  if (call.config.mail === undefined) throw refuse('no-mail');
  return write(store, () => {
    const { address, confirmedAt } = messageSetting(store, who.personId);
    if (address === null || confirmedAt === null)
      throw refuse('no-mail', { detail: 'Confirm a mail address of your own first; the test goes to it.' });
    const at = now.toISOString();
    const goodUntil = new Date(now.getTime() + TEST_HOURS * HOUR_MS).toISOString();
    const of = { id: randomUUID(), kind: 'test', personId: who.personId, messageId: null } as const;
    insertMail(store, { ...of, address, urgent: 1, madeAt: at, nextTryAt: at, goodUntil, secret: null });
    call.audit('mail.tested');
    return testShape(newestMail(store, who.personId, 'test')!);
  });
}

/** Everybody who was told about a shift, whether it got through, and who should be telephoned (criteria C7). */
export function toldOfShift(call: Context, shiftId: string): Told[] {
  const { store, who } = call;
  const messages = messagesOfShift(store, shiftId, TOLD_KINDS);
  const mails = new Map(
    mailOfMessages(
      store,
      messages.map(({ id }) => id),
    ).map((row) => [row.messageId, row]),
  );
  return messages.map((message) => {
    const row = mails.get(message.id);
    const person = findPerson(store, message.personId);
    const mail = row === undefined ? 'none' : shownState(row);
    const read = message.readAt !== null;
    return {
      personId: message.personId,
      name: person === undefined ? '' : nameFor(who, person),
      kind: message.kind as Told['kind'],
      madeAt: message.madeAt,
      urgent: message.urgent === 1,
      read,
      mail,
      error: row?.lastError ?? '',
      call: message.urgent === 1 && !read && mail !== 'handed-over',
    };
  });
}
