// Data: what went wrong, in words: what, and what next.
import type { ErrorCode } from '@middenry/contract';

export interface ErrorWords {
  readonly what: string;
  readonly next: string;
}

/** Codes that nothing at the bin is answered with: their words come with the other pages (B26). */
export type ErrorElsewhere =
  | 'wrong-sign-in'
  | 'second-step'
  | 'second-step-first'
  | 'code-wrong'
  | 'code-spent'
  | 'password-guessable'
  | 'not-in-demo'
  | 'sheet-unreadable'
  | 'export-refused'
  | 'answers-first'
  | 'import-taken'
  | 'shift-full'
  | 'shift-over'
  | 'shift-cancelled'
  | 'already-signed-up'
  | 'pupils-need-adults'
  | 'swap-gone'
  | 'invitation-gone'
  | 'swap-open'
  | 'has-sign-ups'
  | 'site-closed'
  | 'not-open-yet'
  | 'cap-reached'
  | 'wishes-first'
  | 'drawn-already'
  | 'plan-accepted'
  | 'code-taken'
  | 'name-taken'
  | 'last-owner'
  | 'no-mail'
  | 'only-in-demo'
  | 'demo-is-fresh'
  | 'photo-heic'
  | 'photo-unreadable'
  | 'photo-quota'
  | 'photos-of-people-off'
  | 'consent-missing'
  | 'castings-short'
  | 'cross-site'
  | 'changed-meanwhile';

export const errors: Record<Exclude<ErrorCode, ErrorElsewhere>, ErrorWords> = {
  'bad-request': { what: 'This could not be read.', next: 'Load the page again and try once more.' },
  invalid: { what: 'Something in it does not fit.', next: 'Look at the lines marked below.' },
  'too-large': { what: 'That is more than fits in one go.', next: 'Make it shorter and try again.' },
  'not-signed-in': { what: 'You are not signed in any more.', next: 'Sign in, then do it again. What you typed is still here.' },
  wait: { what: 'Too many tries in a short time.', next: 'Wait a little, then try again.' },
  erased: {
    what: 'Your data was erased here, so this was not taken.',
    next: 'Copy it if somebody still needs it, then throw it away.',
  },
  'signed-in-as-another': { what: 'These notes belong to somebody else.', next: 'They wait here until that person signs in.' },
  'update-first': { what: 'This page is too old for the server.', next: 'Load the page again. What waits here stays.' },
  'not-allowed': { what: 'Your role may not do this.', next: 'Ask your coordinator.' },
  'not-found': { what: 'There is nothing here.', next: 'It may have been moved. Go back to the board.' },
  'date-before-bin': { what: 'That day is before the bin was set up.', next: 'Choose a later day.' },
  'date-in-future': { what: 'That time has not come yet.', next: 'Choose now or earlier.' },
  'bin-retired': { what: 'This bin is no longer in use.', next: 'Choose another bin.' },
  'zone-unknown': { what: 'This bin has no such zone.', next: 'Choose one of its zones.' },
  'material-never': { what: 'This must never go into a worm bin.', next: 'Leave it out. If it is already in, take it out.' },
  'material-hidden': {
    what: 'We know too little about this food yet.',
    next: 'Choose the nearest one, or ask your coordinator to add its figures.',
  },
  'material-unknown': { what: 'We do not know this food.', next: 'Choose one from the list.' },
  'same-id-other-content': { what: 'This note was sent before with other words.', next: 'Start a new note.' },
  'still-running': { what: 'The same note is just being saved.', next: 'Wait a moment, then look at the log.' },
  'too-late-to-undo': { what: 'It is too late to undo this yourself.', next: 'Ask your coordinator to put it right.' },
  'already-undone': { what: 'This was undone before.', next: 'There is nothing more to do.' },
  'store-damaged': {
    what: 'The store on the machine is damaged.',
    next: 'Nothing is saved now. Your note is still here. Tell whoever runs it.',
  },
  'no-room': { what: 'There is no room left to save on the machine.', next: 'Tell whoever runs it. Your note is still here.' },
  unavailable: { what: 'The machine is busy or starting.', next: 'Try again in a moment.' },
  'server-fault': { what: 'Something broke on our side.', next: 'Try again. If you tell someone, give them the number below.' },
};
