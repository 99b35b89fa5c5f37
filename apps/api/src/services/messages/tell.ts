/** Telling somebody something, at most once, in the transaction of what it is about. */
import { randomUUID } from 'node:crypto';
import type { MessageKind } from '@middenry/contract';
import { insertMail } from '../../db/repositories/mail.ts';
import { insertMessage } from '../../db/repositories/message.ts';
import { type MessageSettingRow, messageSetting } from '../../db/repositories/message-setting.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import { shiftById } from '../../db/repositories/shift.ts';
import { signUpPerson } from '../../db/repositories/sign-up.ts';
import { type Store, write } from '../../db/store.ts';
import { afterQuiet } from './quiet.ts';

/** Ids, dates and counts that the words are filled with; never a name, since names are looked up for whoever reads. */
export type MessageFacts = Readonly<Record<string, string | number | boolean | null>>;

export interface Tell {
  readonly personId: string;
  readonly kind: MessageKind;
  readonly now: Date;
  readonly shiftId?: string | undefined;
  /** Which time of several, such as the id of the offer: the same person is told once of each. */
  readonly occasion?: string | undefined;
  readonly facts?: MessageFacts | undefined;
  /** By mail at once, quiet hours or not. */
  readonly urgent?: boolean | undefined;
  /** Afterwards it is of no use to anybody, and no mail goes out. */
  readonly goodUntil?: Date | undefined;
}

/** Mail that could not be sent for so long says nothing new. */
const MAIL_KEPT_MS = 48 * 3_600_000;
/** What comes in bursts while somebody plans: it waits a little, and all of it goes in one mail (criteria H11). */
export const GATHERED: readonly string[] = [
  'shift-changed',
  'shift-cancelled',
  'place-got',
  'place-lost',
  'swap-accepted',
  'rota-invitation',
];
export const GATHERED_MS = 300_000;
const REMINDERS: ReadonlySet<MessageKind> = new Set(['reminder-day', 'reminder-hours']);

/**
 * Puts a message into somebody's list, and into the mail where they asked for that.
 *
 * Call it inside the `write` that changed things. Told before, disabled, erased, or a pupil: nothing
 * happens, as nobody may reach a pupil in private (criteria C23).
 *
 * @returns Whether it is new
 */
export function tell(store: Store, what: Tell): boolean {
  const { personId, kind, shiftId = null, occasion = '', now } = what;
  const person = signUpPerson(store, personId);
  if (person === null || person.disabled === 1 || person.isPupil === 1) return false;
  return write(store, () => {
    const id = randomUUID();
    const isNew = insertMessage(store, {
      ...{ id, personId, kind, shiftId, occasion },
      facts: JSON.stringify(what.facts ?? {}),
      urgent: what.urgent ? 1 : 0,
      madeAt: now.toISOString(),
      goodUntil: what.goodUntil?.toISOString() ?? null,
    });
    if (isNew) queueMail(store, what, id);
    return isNew;
  });
}

function queueMail(store: Store, what: Tell, messageId: string): void {
  const setting = messageSetting(store, what.personId);
  if (setting.mail === 0 || setting.address === null || setting.confirmedAt === null) return;
  const latest = new Date(what.now.getTime() + MAIL_KEPT_MS);
  const goodUntil = what.goodUntil !== undefined && what.goodUntil < latest ? what.goodUntil : latest;
  insertMail(store, {
    id: randomUUID(),
    kind: 'message',
    personId: what.personId,
    messageId,
    address: setting.address,
    urgent: what.urgent ? 1 : 0,
    madeAt: what.now.toISOString(),
    nextTryAt: firstTry(store, what, goodUntil, setting).toISOString(),
    goodUntil: goodUntil.toISOString(),
    secret: null,
  });
}

/** After the quiet hours, unless it would be worthless by then; a reminder that comes too late is dropped instead. */
function firstTry(store: Store, what: Tell, goodUntil: Date, setting: MessageSettingRow): Date {
  if (what.urgent) return what.now;
  const shift = what.shiftId === undefined ? null : shiftById(store, what.shiftId);
  const timeZone = shift?.timeZone ?? findProgramme(store)?.timeZone ?? 'UTC';
  const gathered = GATHERED.includes(what.kind) ? new Date(what.now.getTime() + GATHERED_MS) : what.now;
  const after = afterQuiet(gathered, timeZone, setting);
  return after >= goodUntil && !REMINDERS.has(what.kind) ? what.now : after;
}
