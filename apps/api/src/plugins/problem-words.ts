import type { ErrorCode } from '@middenry/contract';

interface ProblemWords {
  readonly status: number;
  readonly title: string;
  /** For whoever reads JSON; the pages have words of their own. */
  readonly detail: string;
}

/** Status and plain words of every code. */
export const PROBLEMS = {
  'bad-request': { status: 400, title: 'Not understood', detail: 'The request is not well-formed JSON of the expected content type.' },
  invalid: { status: 422, title: 'Something is not right', detail: 'One or more fields cannot be taken; see errors.' },
  'too-large': { status: 413, title: 'Too large', detail: 'The request is larger than 64 kB.' },
  'not-signed-in': { status: 401, title: 'Not signed in', detail: 'Sign in first.' },
  'wrong-sign-in': { status: 401, title: 'Wrong sign-in', detail: 'The e-mail address or the password is not right.' },
  wait: { status: 429, title: 'Too many tries', detail: 'Wait before the next try; see retryAfterSeconds.' },
  'signed-in-as-another': { status: 403, title: "Somebody else's", detail: 'These entries belong to another person; sign in as them.' },
  'update-first': {
    status: 426,
    title: 'Update first',
    detail: 'These pages and the server are more than one release apart; load the pages anew.',
  },
  'second-step': { status: 401, title: 'Second step', detail: 'Send the code of your authenticator or a recovery code too.' },
  'second-step-first': { status: 403, title: 'Second step first', detail: 'Coordinators set up an authenticator before anything else.' },
  'code-wrong': { status: 422, title: 'Wrong code', detail: 'This code is not right.' },
  'code-spent': { status: 410, title: 'Code used up', detail: 'This code or link was used or has run out; ask for a new one.' },
  'not-allowed': { status: 403, title: 'Not allowed', detail: 'Your role may not do this.' },
  'not-found': { status: 404, title: 'Not there', detail: 'There is nothing here under this address.' },
  'cross-site': { status: 403, title: 'From another site', detail: 'Changes are only taken from our own pages.' },
  'not-in-demo': { status: 409, title: 'Not in the demonstration', detail: 'The demonstration cannot do this.' },
  'only-in-demo': { status: 404, title: 'Only in the demonstration', detail: 'One-tap entry is closed here.' },
  'demo-is-fresh': { status: 409, title: 'Still fresh', detail: 'The demonstration is made anew once it is older than three days.' },
  'date-before-bin': { status: 422, title: 'Before the bin began', detail: 'The bin was started after that day.' },
  'date-in-future': { status: 422, title: 'In the future', detail: 'That time has not come yet.' },
  'bin-retired': { status: 409, title: 'Bin retired', detail: 'This bin is retired; nothing more is noted on it.' },
  'zone-unknown': { status: 422, title: 'No such zone', detail: 'This bin has fewer zones.' },
  'material-never': { status: 422, title: 'Never fed', detail: 'This material does not belong in a worm bin.' },
  'material-hidden': { status: 422, title: 'Figures missing', detail: 'Fill in the missing figures of this material first.' },
  'material-unknown': { status: 422, title: 'Unknown material', detail: 'There is no such material.' },
  'same-id-other-content': { status: 422, title: 'Id used before', detail: 'This id was used for something else; make a new one.' },
  'still-running': { status: 409, title: 'Still running', detail: 'The same request is still being worked on.' },
  'changed-meanwhile': { status: 412, title: 'Changed meanwhile', detail: 'Somebody else changed this; both versions are in help.' },
  'too-late-to-undo': { status: 409, title: 'Too late to undo', detail: 'This can no longer be undone here.' },
  'already-undone': { status: 409, title: 'Undone before', detail: 'This entry was already undone.' },
  'shift-full': { status: 409, title: 'Shift full', detail: 'All places on this shift are taken.' },
  'shift-over': { status: 409, title: 'Shift over', detail: 'This shift has ended.' },
  'shift-cancelled': { status: 409, title: 'Shift cancelled', detail: 'This shift does not take place.' },
  'already-signed-up': { status: 409, title: 'Already signed up', detail: 'This person has a place on this shift.' },
  'pupils-need-adults': { status: 409, title: 'Adults first', detail: 'Pupils come only when enough adults do.' },
  'swap-gone': { status: 409, title: 'No longer on offer', detail: 'This place is no longer on offer.' },
  'swap-open': { status: 409, title: 'On offer already', detail: 'This place is on offer already.' },
  'invitation-gone': { status: 409, title: 'Too late', detail: 'This invitation was answered, has run out or was taken back.' },
  'has-sign-ups': { status: 409, title: 'People signed up', detail: 'People hold places here; see help.' },
  'site-closed': { status: 409, title: 'Site closed', detail: 'The site is closed on that day.' },
  'not-open-yet': { status: 409, title: 'Not open yet', detail: 'Places of this term cannot be taken yet; see help.' },
  'cap-reached': { status: 409, title: 'Enough for now', detail: 'In the first 48 hours nobody holds more places than the cap; see help.' },
  'wishes-first': { status: 409, title: 'Wishes first', detail: 'Places of this term are drawn; say your wishes.' },
  'drawn-already': { status: 409, title: 'Drawn already', detail: 'Places of this term were drawn; that is done once.' },
  'plan-accepted': { status: 409, title: 'Accepted already', detail: 'This plan is on a shift already.' },
  'code-taken': { status: 409, title: 'Code taken', detail: 'Another bin has this code.' },
  'name-taken': { status: 409, title: 'Name taken', detail: 'This name is in use.' },
  'last-owner': { status: 409, title: 'Last owner', detail: 'At least one owner must remain; name another one first.' },
  'no-room': { status: 507, title: 'Disk full', detail: 'The disk is full; nothing was saved. Reading still works.' },
  'no-mail': { status: 409, title: 'No mail here', detail: 'No mail server is set up here; messages are in the app.' },
  unavailable: { status: 503, title: 'Not now', detail: 'The store cannot answer now; try again in a moment.' },
  'server-fault': { status: 500, title: 'Our fault', detail: 'Something went wrong here. The requestId finds it in the log.' },
} as const satisfies Record<ErrorCode, ProblemWords>;
