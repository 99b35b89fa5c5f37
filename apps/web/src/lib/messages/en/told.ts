// Data: the words for messages, reminders, mail and calendars.
type Facts = Readonly<Record<string, string | number | boolean | null>>;
export interface Said {
  readonly site: string;
  readonly when: string;
  readonly was: string;
  readonly until: string;
  readonly facts: Facts;
}
const count = (number: unknown, one: string, many: string) => `${number} ${number === 1 ? one : many}`;

export const told = {
  messages: {
    title: 'Messages',
    heading: (unread: number) => (unread === 0 ? 'Nothing new.' : `${count(unread, 'new message', 'new messages')}.`),
    none: 'Nobody has told you anything yet. Reminders and changes to your shifts come here.',
    markRead: 'I have read them',
    fresh: 'New',
    urgent: 'Urgent',
    over: 'No longer so',
    see: 'See the shift',
    settings: 'Reminders, mail and calendar',
    kinds: {
      'reminder-day': ({ site, when }: Said) => `Tomorrow: you have a place at ${site}, ${when}.`,
      'reminder-hours': ({ site, when }: Said) => `Soon: your shift at ${site}, ${when}.`,
      'shift-changed': ({ site, when, was }: Said) => `Your shift at ${site} moved. It was ${was}. It is now ${when}.`,
      'shift-cancelled': ({ site, when }: Said) => `The shift at ${site}, ${when}, is cancelled.`,
      'place-got': ({ site, when }: Said) => `You have a place at ${site}, ${when}.`,
      'place-lost': ({ site, when }: Said) => `You no longer have a place at ${site}, ${when}.`,
      'place-offered': ({ site, when, until }: Said) => `A place is free at ${site}, ${when}. It is kept for you until ${until}.`,
      'swap-offered': ({ site, when, facts }: Said) => `${facts.by ?? 'Somebody'} would like to hand you a place at ${site}, ${when}.`,
      'swap-accepted': ({ site, when, facts }: Said) => `${facts.by ?? 'Somebody'} took your place at ${site}, ${when}. You are free.`,
      'rota-invitation': ({ site, when }: Said) => `Could you help at ${site}, ${when}? Yes or no, no reason is needed.`,
      'needs-adult': ({ site, when }: Said) => `Pupils come to ${site}, ${when}, and too few adults do.`,
      'late-entries': ({ facts }: Said) =>
        `What ${facts.by ?? 'somebody'} noted waited ${count(Math.floor(Number(facts.hours) / 24), 'day', 'days')} on a phone. It is in the log now.`,
      upkeep: ({ facts }: Said) =>
        ({
          backup: 'The last backup is too old, or a new one could not be made.',
          drill: 'The trial restore of a backup is overdue, or did not go through.',
          soundness: 'The store has not been read whole for two days.',
          disk: 'The disk is nearly full.',
        })[String(facts.part)]?.concat(' The status page says what to do.') ?? '',
      digest: ({ facts }: Said) =>
        [
          Number(facts.needsAdult) > 0 ? count(facts.needsAdult, 'shift needs an adult', 'shifts need an adult') : '',
          Number(facts.overdueDuties) > 0 ? count(facts.overdueDuties, 'job is late', 'jobs are late') : '',
          Number(facts.openShifts) > 0 ? `${count(facts.openShifts, 'shift has', 'shifts have')} open places this week` : '',
          Number(facts.failedMail) > 0 ? `${count(facts.failedMail, 'mail', 'mails')} did not get through` : '',
        ]
          .filter((part) => part !== '')
          .join('. ')
          .concat('.'),
    },
  },
  reminders: {
    title: 'Reminders',
    heading: 'How should we tell you?',
    saved: 'Saved.',
    when: 'Reminders',
    day: 'The day before',
    hours: 'Two hours before',
    digest: 'One message a day of what there is to see to',
    quiet: 'Leave me alone from',
    quietTo: 'until',
    save: 'Save',
    mail: 'Mail',
    mailOn: 'Mail me too',
    language: 'Language',
    languageNow: (name: string) => `Mail and your calendar speak ${name}. If you choose another, these pages speak it too.`,
    noServer: 'Nothing can be mailed from here yet. All messages are in the app.',
    address: 'Mail address',
    sendCode: 'Send me a code',
    code: 'The six digits in the mail',
    confirm: 'It is mine',
    waits: (address: string) => `A code is on its way to ${address}.`,
    goesTo: (address: string) => `Mail goes to ${address}.`,
    forget: 'Forget this address',
    calendar: 'Your calendar',
    calendarText:
      'Add your shifts to the calendar on your phone or computer. Some calendars look only once a day, so a change can take up to 24 hours to show.',
    secret: 'This address is a secret. Whoever has it sees when and where you help. It is shown once.',
    label: 'Which device is it for?',
    make: 'Make an address',
    revoke: 'Make it useless',
    revoked: 'useless',
    unnamed: 'Calendar address',
    lastRead: (ago: string) => `last asked ${ago}`,
    neverRead: 'not asked yet',
  },
  reply: {
    title: 'Your reply',
    about: (site: string, when: string) => `${site}, ${when}`,
    general: 'Mail from here',
    cantCome: "I can't come",
    given: 'You do not have a place on this shift.',
    noReason: 'No reason is needed. Whoever waits is asked next.',
    stop: 'No more mail',
    stopped: 'You get no more mail. Messages are still in the app.',
    cancelled: 'This shift is cancelled.',
    bad: 'This link does not work any more.',
    badNext: 'Sign in to see your shifts.',
  },
} as const;
