import type { MessageKind } from '@middenry/contract';
import { CATALOGUE, HOURS_PER_DAY, type MaterialId } from '@middenry/domain';
import type { MessageFacts } from '../messages/tell.ts';

export interface ShiftWords {
  readonly site: string;
  /** Such as Saturday 5 December, 10:00. */
  readonly when: string;
  readonly length: string;
}

export interface MailText {
  readonly subject: string;
  readonly text: string;
}

/** What is told of a shift; the others are about none. */
export type ShiftMessageKind = Exclude<MessageKind, 'digest' | 'late-entries' | 'upkeep'>;

/** What can be said of a shift; each gives a subject and the first lines. */
const SHIFT_MAILS: Readonly<Record<ShiftMessageKind, (shift: ShiftWords, facts: MessageFacts) => MailText>> = {
  'reminder-day': ({ site, when, length }) => ({
    subject: `Tomorrow: ${site}, ${when}`,
    text: `You have a place at ${site}: ${when} (${length}).`,
  }),
  'reminder-hours': ({ site, when, length }) => ({
    subject: `Soon: ${site}, ${when}`,
    text: `Your shift at ${site} begins soon: ${when} (${length}).`,
  }),
  'shift-changed': ({ site, when, length }, { was }) => ({
    subject: `Moved: ${site}, now ${when}`,
    text: `Your shift at ${site} has moved.\nIt was: ${was}.\nIt is now: ${when} (${length}).\nYou still have your place.`,
  }),
  'shift-cancelled': ({ site, when }) => ({ subject: `Cancelled: ${site}, ${when}`, text: `The shift at ${site} is cancelled: ${when}.` }),
  'place-got': ({ site, when, length }) => ({
    subject: `You have a place: ${site}, ${when}`,
    text: `You now have a place at ${site}: ${when} (${length}).`,
  }),
  'place-lost': ({ site, when }) => ({
    subject: `You are off: ${site}, ${when}`,
    text: `You no longer have a place at ${site}: ${when}.`,
  }),
  'place-offered': ({ site, when, length }, { until }) => ({
    subject: `A place for you: ${site}, ${when}`,
    text: `A place is free at ${site}: ${when} (${length}).\nIt is kept for you until ${until}.`,
  }),
  'swap-offered': ({ site, when, length }, { by }) => ({
    subject: `Can you take this? ${site}, ${when}`,
    text: `${by} would like to hand you a place at ${site}: ${when} (${length}).\nUntil you say yes, they still have it.`,
  }),
  'swap-accepted': ({ site, when }, { by }) => ({
    subject: `Taken over: ${site}, ${when}`,
    text: `${by} has taken your place at ${site}: ${when}. You are free.`,
  }),
  'rota-invitation': ({ site, when, length }) => ({
    subject: `Could you come? ${site}, ${when}`,
    text: `You are asked to help at ${site}: ${when} (${length}).\nYou can say yes or no; no reason is needed.`,
  }),
  'needs-adult': ({ site, when }) => ({
    subject: `Needs an adult: ${site}, ${when}`,
    text: `Pupils come to ${site}: ${when}, and too few adults do.\nUntil that is mended they cannot be checked in.`,
  }),
};

const count = (number: unknown, one: string, many: string): string => `${number} ${number === 1 ? one : many}`;

/** Who noted it is said in the app, not in mail. */
function lateEntriesMail(facts: MessageFacts): MailText {
  const days = count(Math.floor(Number(facts.hours) / HOURS_PER_DAY), 'day', 'days');
  return {
    subject: 'Notes that waited on a phone',
    text: `A note from a bin waited ${days} on a phone before it got through.\nIt is in the log now.`,
  };
}

const UPKEEP: Readonly<Record<string, string>> = {
  backup: 'The last backup is too old, or a new one could not be made.',
  drill: 'The trial restore of a backup is overdue, or did not go through.',
  soundness: 'The store has not been read whole for two days.',
  disk: 'The disk is nearly full.',
};

function upkeepMail({ part }: MessageFacts): MailText {
  return { subject: 'The server needs a look', text: `${UPKEEP[String(part)]}\nThe status page says since when, and what to do.` };
}

function digestMail(programme: string, facts: MessageFacts): MailText {
  const lines = [
    [facts.needsAdult, count(facts.needsAdult, 'shift needs an adult', 'shifts need an adult')],
    [facts.overdueDuties, count(facts.overdueDuties, 'duty is overdue', 'duties are overdue')],
    [facts.openShifts, `${count(facts.openShifts, 'shift has', 'shifts have')} open places in the next seven days`],
    [facts.failedMail, `${count(facts.failedMail, 'mail', 'mails')} did not get through since yesterday`],
  ] as const;
  const text = lines.filter(([number]) => Number(number) > 0).map(([, line]) => `- ${line}`);
  return { subject: `Today at ${programme}`, text: text.join('\n') };
}

const daysWords = (days: number): string => (days === 7 ? 'this week' : `in the next ${count(days, 'day', 'days')}`);

/** What mails, calendars and texts to copy say in English. */
export const en = {
  /** Of dates, where the programme's own is of another language. */
  locale: 'en-GB',
  /** What the catalogue calls it. */
  material: (id: MaterialId): string => CATALOGUE[id].name,
  shiftMails: SHIFT_MAILS,
  digestMail,
  lateEntriesMail,
  upkeepMail,
  /** To whoever keeps the machine; `since` is in UTC. */
  damageMail: (programme: string, since: string, backup: string | null): MailText => ({
    subject: `The store of ${programme} is damaged`,
    text: [
      `The store of ${programme} is damaged. It was found at ${since} UTC.`,
      'Nothing is saved any more, and no sums are given out. What people enter waits on their phones.',
      backup === null
        ? 'There is no backup on this machine: look for a copy elsewhere.'
        : `The newest backup is ${backup}; it was read whole when it was made.`,
      'Stop the server, put the backup back with "npx middenry restore", and start it again. This mail comes once.',
    ].join('\n'),
  }),
  codeMail: (programme: string, code: string): MailText => ({
    subject: `Your code for ${programme}`,
    text: `Your code is ${code}.\nType it in where you asked for it. It works for 15 minutes.\nIf you did not ask for it, do nothing.`,
  }),
  testMail: (programme: string): MailText => ({
    subject: `A test from ${programme}`,
    text: 'This is the test that you asked for. Mail from here gets through to you.',
  }),
  /** The first lines of what somebody takes along of their own. */
  ownData: (programme: string, date: string) => ({
    heading: `What ${programme} knows of you`,
    lines: [
      `This is all that was kept of you on ${date}. Nothing of anybody else is in it. It is yours: keep it where only you can open it.`,
      'Each table is there twice: as CSV, which any spreadsheet opens, and in my-data.json with nothing lost. Photos that you took are in the folder photos.',
      'Passwords and codes are not in it. Nobody here can read them.',
    ],
  }),
  severalMail: (programme: string, n: number): string => `${programme}: ${n} messages`,
  greeting: (name: string): string => `Hello ${name.split(/\s+/)[0]},`,
  somebody: 'Somebody',
  seeShift: (url: string): string => `See the shift: ${url}`,
  seeShifts: (url: string): string => `Open it: ${url}`,
  replyHere: (url: string): string => `Can't come, or want no more mail? One tap: ${url}`,
  lengthWords: (minutes: number): string => (minutes % 60 === 0 ? count(minutes / 60, 'hour', 'hours') : `${minutes} minutes`),
  whenWords: (date: string, time: string): string => `${date}, ${time}`,
  groupHead: (programme: string, days: number): string => `${programme}: who can help ${daysWords(days)}?`,
  groupLine: ({ when, length, free }: { when: string; length: string; free: number }): string =>
    `- ${when} (${length}): ${count(free, 'place', 'places')} free`,
  groupLink: (url: string): string => `Take a place: ${url}`,
  groupNothing: (programme: string, days: number): string => `${programme}: every shift ${daysWords(days)} is covered. Thank you!`,
  /** No comma: it is the one text of a calendar that is not escaped. */
  calendarName: 'Middenry shifts',
  feeding: (site: string): string => `Bin feeding – ${site}`,
  care: (site: string): string => `Bin care – ${site}`,
  bins: (codes: string): string => `Bins: ${codes}`,
};
export type Words = typeof en;
