// Data: what went wrong, in words: what, and what next.
import type { ErrorCode } from '@middenry/contract';

export interface ErrorWords {
  readonly what: string;
  readonly next: string;
}

export const errors: Record<ErrorCode, ErrorWords> = {
  'bad-request': { what: 'This could not be read.', next: 'Load the page again and try once more.' },
  invalid: { what: 'Something in it does not fit.', next: 'Look at the lines marked below.' },
  'too-large': { what: 'That is more than fits in one go.', next: 'Make it shorter and try again.' },
  'not-signed-in': { what: 'You are not signed in any more.', next: 'Sign in, then do it again. What you typed is still here.' },
  'wrong-sign-in': { what: 'That address and password do not fit together.', next: 'Check both and try again, or ask your coordinator.' },
  wait: { what: 'Too many tries in a short time.', next: 'Wait a little, then try again.' },
  'second-step': { what: 'One more step: your 6-digit code.', next: 'Type the code that your phone shows now.' },
  'code-wrong': { what: 'That code is not right.', next: 'Check it and type it again.' },
  'code-spent': { what: 'That code has been used or is too old.', next: 'Ask for a new one.' },
  'not-allowed': { what: 'Your role may not do this.', next: 'Ask your coordinator.' },
  'not-found': { what: 'There is nothing here.', next: 'It may have been moved. Go back to the board.' },
  'cross-site': { what: 'This came from another website, so it was not done.', next: 'Open Middenry itself and try again.' },
  'not-in-demo': { what: 'This cannot be done in the demonstration.', next: 'Start your own programme for that.' },
  'only-in-demo': { what: 'This is only for the demonstration.', next: 'Sign in instead.' },
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
  'changed-meanwhile': { what: 'Somebody changed this while you were writing.', next: 'Look at both versions and choose.' },
  'too-late-to-undo': { what: 'It is too late to undo this yourself.', next: 'Ask your coordinator to put it right.' },
  'already-undone': { what: 'This was undone before.', next: 'There is nothing more to do.' },
  'shift-full': { what: 'This shift is full now.', next: 'Here are the nearest free ones.' },
  'shift-over': { what: 'This shift is over.', next: 'Choose one that is still to come.' },
  'shift-cancelled': { what: 'This shift has been called off.', next: 'Choose another one.' },
  'already-signed-up': { what: 'You have a place on this shift already.', next: 'You need do nothing.' },
  'pupils-need-adults': { what: 'Pupils can only come when enough adults do.', next: 'Ask an adult to take a place first.' },
  'swap-gone': { what: 'This place is no longer on offer.', next: 'Look at the list of shifts for another one.' },
  'invitation-gone': { what: 'You can no longer answer this.', next: 'Look at the list of shifts for a free place.' },
  'swap-open': { what: 'You have offered this place already.', next: 'Wait for an answer, or take the offer back.' },
  'has-sign-ups': { what: 'People have signed up for this.', next: 'Tell them first, or keep their places.' },
  'site-closed': { what: 'The site is closed on that day.', next: 'Choose a day on which it is open.' },
  'not-open-yet': { what: 'Places of this term are not open yet.', next: 'Come back when it opens.' },
  'cap-reached': { what: 'You hold as many places as you may for now.', next: 'After the first two days you can take more.' },
  'wishes-first': { what: 'Places of this term are drawn.', next: 'Say which shifts you wish for.' },
  'drawn-already': { what: 'The places of this term have been drawn.', next: 'Take one of the places that are left.' },
  'code-taken': { what: 'Another bin has this code.', next: 'Choose another code.' },
  'name-taken': { what: 'This name is taken.', next: 'Choose another name.' },
  'last-owner': { what: 'Somebody must own the programme.', next: 'Make someone else an owner first.' },
  'no-room': { what: 'There is no room left to save on the machine.', next: 'Tell whoever runs it. Your note is still here.' },
  unavailable: { what: 'The machine is busy or starting.', next: 'Try again in a moment.' },
  'server-fault': { what: 'Something broke on our side.', next: 'Try again. If you tell someone, give them the number below.' },
};
