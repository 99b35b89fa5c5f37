/** One mail as it is sent: made at the last moment, so that it says what is so now. */
import type { MailRow } from '../../db/repositories/mail.ts';
import { type MessageRow, messageById } from '../../db/repositories/message.ts';
import { findPerson } from '../../db/repositories/person.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import { type ShiftRow, shiftById } from '../../db/repositories/shift.ts';
import { isSignedUp } from '../../db/repositories/sign-up.ts';
import { waitingById } from '../../db/repositories/waiting.ts';
import type { Store } from '../../db/store.ts';
import { localDateAt, localTimeAt } from '../local-time.ts';
import type { MessageFacts } from '../messages/tell.ts';
import { shortName } from '../names.ts';
import type { MailText, ShiftMessageKind, ShiftWords, Words } from '../words/en.ts';
import { dateWords, wordsFor } from '../words/languages.ts';
import type { Letter } from './sender.ts';

export interface LetterParts {
  readonly store: Store;
  readonly row: MailRow;
  /** undefined: the program does not know its own address, so mails hold none. */
  readonly publicUrl: string | undefined;
  /** For the page on which a place is given back or mail is stopped. */
  readonly replyToken: string;
  readonly from: string;
}

/** Several mails to one person as one, or null when only one of them or none has anything to say any more. */
export function lettersAsOne(all: readonly LetterParts[]): Letter | null {
  const first = all[0]!;
  const programme = findProgramme(first.store)?.name ?? 'Middenry';
  const words = wordsFor(first.store, first.row.personId);
  const said = all.flatMap((parts) => saidBy(parts, programme) ?? []);
  const person = findPerson(first.store, first.row.personId);
  if (person === undefined || person.disabled || said.length < 2) return null;
  const paragraphs = said.map(({ subject, text, links }) => [subject, text, ...links].join('\n'));
  return {
    ...envelopeOf(first),
    subject: words.severalMail(programme, said.length),
    text: `${[words.greeting(person.name), ...paragraphs].join('\n\n')}\n`,
    stopUrl: said[0]!.replyUrl,
  };
}

/** Whether a mail still has something to say. */
export const isStillTold = (parts: LetterParts): boolean => saidBy(parts, '') !== null;

const envelopeOf = ({ row, from }: LetterParts) => ({ to: row.address, messageId: `<${row.id}@${from.split('@')[1]}>` });

/** The mail, or null when what it would say is no longer so. */
export function letterOf(parts: LetterParts): Letter | null {
  const { store, row } = parts;
  const person = findPerson(store, row.personId);
  if (person === undefined || person.disabled) return null;
  const programme = findProgramme(store)?.name ?? 'Middenry';
  const words = wordsFor(store, row.personId);
  const envelope = envelopeOf(parts);
  if (row.kind === 'code') return { ...envelope, ...words.codeMail(programme, row.secret ?? ''), stopUrl: undefined };
  const greet = words.greeting(person.name);
  if (row.kind === 'test') {
    const { subject, text } = words.testMail(programme);
    return { ...envelope, subject, text: `${greet}\n\n${text}\n`, stopUrl: undefined };
  }
  const said = saidBy(parts, programme);
  if (said === null) return null;
  return { ...envelope, subject: said.subject, text: `${greet}\n\n${said.text}\n\n${said.links.join('\n')}\n`, stopUrl: said.replyUrl };
}

interface Said extends MailText {
  readonly links: readonly string[];
  readonly replyUrl: string | undefined;
}

function saidBy({ store, row, publicUrl, replyToken }: LetterParts, programme: string): Said | null {
  const message = messageById(store, row.messageId ?? '');
  if (message === null || message.overAt !== null) return null;
  const words = wordsFor(store, row.personId);
  const replyUrl = publicUrl === undefined ? undefined : `${publicUrl}/reply#${replyToken}`;
  const reply = replyUrl === undefined ? [] : [words.replyHere(replyUrl)];
  const ofNoShift = mailOfNoShift(words, message, programme);
  if (ofNoShift !== null) {
    const links = publicUrl === undefined ? [] : [words.seeShifts(`${publicUrl}/messages`), ...reply];
    return { ...ofNoShift, links, replyUrl };
  }
  const shift = message.shiftId === null ? null : shiftById(store, message.shiftId);
  if (shift === null || !isStillSo(store, message, shift)) return null;
  const say = sayerOf(store, words);
  const text = words.shiftMails[message.kind as ShiftMessageKind](say.shift(shift), factsOf({ store, message, shift, say }));
  const links = publicUrl === undefined ? [] : [words.seeShift(`${publicUrl}/shifts/${shift.id}`), ...reply];
  return { ...text, links, replyUrl };
}

function mailOfNoShift(words: Words, message: MessageRow, programme: string): MailText | null {
  const facts = JSON.parse(message.facts) as MessageFacts;
  switch (message.kind) {
    case 'digest':
      return words.digestMail(programme, facts);
    case 'late-entries':
      return words.lateEntriesMail(facts);
    case 'upkeep':
      return words.upkeepMail(facts);
    default:
      return null;
  }
}

/** Reminders are for who still comes, offers for who may still take them. */
function isStillSo(store: Store, message: MessageRow, shift: ShiftRow): boolean {
  switch (message.kind) {
    case 'reminder-day':
    case 'reminder-hours':
      return shift.cancelledAt === null && shift.localDate === message.occasion && isSignedUp(store, shift.id, message.personId);
    case 'place-offered':
      return shift.cancelledAt === null && waitingById(store, message.occasion)?.endedAt === null;
    case 'shift-changed':
      return shift.cancelledAt === null && String(shift.revision) === message.occasion;
    default:
      return true;
  }
}

interface Sayer {
  readonly words: Words;
  shift(shift: ShiftRow): ShiftWords;
  when(localDate: string, localTime: string): string;
}

/** Days and lengths in the words of one language. */
function sayerOf(store: Store, words: Words): Sayer {
  const locale = findProgramme(store)?.locale ?? words.locale;
  const when = (localDate: string, localTime: string) => words.whenWords(dateWords(words, localDate, locale), localTime);
  const shift = ({ siteName, localDate, localTime, minutes }: ShiftRow) => ({
    ...{ site: siteName, when: when(localDate, localTime), length: words.lengthWords(minutes) },
  });
  return { words, when, shift };
}

interface Told {
  readonly store: Store;
  readonly message: MessageRow;
  readonly shift: ShiftRow;
  readonly say: Sayer;
}

/** Names and times in words, for the shift's own place. */
function factsOf({ store, message, shift: { timeZone }, say }: Told): MessageFacts {
  const facts = JSON.parse(message.facts) as MessageFacts;
  const by = typeof facts.byPersonId === 'string' ? findPerson(store, facts.byPersonId)?.name : undefined;
  const was = typeof facts.wasDate === 'string' ? say.when(facts.wasDate, String(facts.wasTime)) : null;
  const at = typeof facts.until === 'string' ? new Date(facts.until) : null;
  const until = at === null ? null : say.when(localDateAt(at, timeZone), localTimeAt(at, timeZone));
  return { ...facts, by: by === undefined ? say.words.somebody : shortName(by), was, until };
}
