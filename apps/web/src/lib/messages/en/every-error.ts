// Data: what went wrong away from the bin, in words: what, and what next.
import type { ErrorCode } from '@middenry/contract';
import { type ErrorElsewhere, type ErrorWords, errors } from './errors.ts';

const elsewhere: Record<ErrorElsewhere, ErrorWords> = {
  'wrong-sign-in': { what: 'That address and password do not fit together.', next: 'Check both and try again, or ask your coordinator.' },
  'second-step': { what: 'One more step: your 6-digit code.', next: 'Type the code that your phone shows now.' },
  'second-step-first': { what: 'Your second step is not set up yet.', next: 'Set up an authenticator first; then everything is open.' },
  'code-wrong': { what: 'That code is not right.', next: 'Check it and type it again.' },
  'password-guessable': { what: 'That password is easy to guess.', next: 'Take four or five words that do not belong together.' },
  'code-spent': { what: 'That code has been used or is too old.', next: 'Ask for a new one.' },
  'not-in-demo': { what: 'This cannot be done in the demonstration.', next: 'Start your own programme for that.' },
  'export-refused': {
    what: 'This zip is no whole export of Middenry.',
    next: 'Fetch the export again, or choose another file. Nothing was changed.',
  },
  'sheet-unreadable': { what: 'This is not a list that we can read.', next: 'Save it as CSV or XLSX and choose it again.' },
  'answers-first': { what: 'Something is still asked about this file.', next: 'Answer it below, then take the rows.' },
  'import-taken': { what: 'These rows were taken already.', next: 'Load the page again.' },
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
  'plan-accepted': { what: 'This plan is on a shift already.', next: 'Look at the card of that shift.' },
  'code-taken': { what: 'Another bin has this code.', next: 'Choose another code.' },
  'name-taken': { what: 'This name is taken.', next: 'Choose another name.' },
  'last-owner': { what: 'Somebody must own the programme.', next: 'Make someone else an owner first.' },
  'no-mail': { what: 'Nothing can be mailed from here yet.', next: 'Messages are in the app. Whoever runs it can set up a mail server.' },
  'only-in-demo': { what: 'This is only for the demonstration.', next: 'Sign in instead.' },
  'demo-is-fresh': { what: 'The demonstration is not old yet.', next: 'It can be made anew once it is older than three days.' },
  'photo-heic': {
    what: 'This photo is in a form called HEIC, which we cannot read.',
    next: 'Set your camera to JPEG ("most compatible"), or send a screenshot of it.',
  },
  'photo-unreadable': { what: 'This is not a photo that we can read.', next: 'Take it again, or choose another one.' },
  'photo-quota': { what: 'You have as many photos here as one person may.', next: 'Take some old ones off first.' },
  'photos-of-people-off': {
    what: 'This programme shows no photos of people.',
    next: 'Ask a coordinator to switch them on, or take a photo without people.',
  },
  'consent-missing': {
    what: 'Somebody in this photo has not agreed to be shown.',
    next: 'Note their consent first, or choose another photo.',
  },
  'cross-site': { what: 'This came from another website, so it was not done.', next: 'Open Middenry itself and try again.' },
  'changed-meanwhile': { what: 'Somebody changed this while you were writing.', next: 'Look at both versions and choose.' },
  'castings-short': { what: 'There are not so many castings in store.', next: 'Take less, or take back first what was given out.' },
};

/** All that can go wrong. */
export const everyError: Record<ErrorCode, ErrorWords> = { ...errors, ...elsewhere };
