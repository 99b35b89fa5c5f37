// Data: what waits on the phone, and what it carries, as every page says it.
const count = (n: number, what: string) => (n === 1 ? `1 ${what}` : `${n} ${what}s`);

export const carry = {
  label: 'On this phone',
  waits: (n: number) => `${count(n, 'note')} on this phone, not sent yet.`,
  needYou: (n: number) => (n === 1 ? '1 note needs you.' : `${n} notes need you.`),
  photosNeedYou: (n: number) => `${count(n, 'photo')} could not be sent.`,
  old: 'The oldest has waited for more than a day. Go where there is a network.',
  signIn: 'Sign in, and they are sent.',
  toSignIn: 'Sign in',
  look: 'See what waits',
  newer: 'A newer Middenry is ready.',
  useNewer: 'Use it now',
  saveFirst: 'Save what you have typed first.',
  partGone: 'A part of this page did not come. Load it again.',
  typedStays: 'What you typed stays.',
  leaving: (n: number) => `${count(n, 'note')} not sent yet. They stay locked on this phone until you sign in here again.`,
  leave: 'Sign out all the same',
  stay: 'Stay signed in',
} as const;
