/**
 * What goes wrong, as RFC 9457 problem details with a closed `code`. The web has words for every
 * code (what, why, what next); the API's own `detail` is a plain sentence for whoever reads JSON.
 */
import * as z from 'zod';

export const ERROR_CODES = [
  'bad-request', // malformed JSON, wrong content type
  'invalid', // field errors
  'too-large',
  'not-signed-in',
  'wrong-sign-in',
  'wait', // too many tries; retryAfterSeconds
  'erased', // the data of whoever was signed in here was erased
  'signed-in-as-another', // what was sent is somebody else's
  'update-first', // pages and server are more than one release apart
  'second-step', // TOTP asked for
  'second-step-first', // a coordinator without an authenticator may set one up, and nothing else
  'code-wrong',
  'code-spent',
  'password-guessable',
  'not-allowed',
  'not-found',
  'cross-site',
  'not-in-demo',
  'only-in-demo',
  'demo-is-fresh', // not older than three days: nothing to renew
  'date-before-bin',
  'date-in-future',
  'bin-retired',
  'photo-heic', // a format that cannot be read here
  'photo-unreadable',
  'photo-quota',
  'photos-of-people-off', // the programme has not switched them on
  'consent-missing', // somebody in a photo has not consented to it
  'castings-short', // more castings would have gone out of a store than were ready in it
  'sheet-unreadable', // neither CSV nor XLSX
  'export-refused', // a zip that is no sound export of ours; detail says why
  'answers-first', // an import with something still to be said
  'import-taken', // taken, undone or given up already
  'zone-unknown',
  'material-never',
  'material-hidden',
  'material-unknown',
  'same-id-other-content',
  'still-running',
  'changed-meanwhile',
  'too-late-to-undo',
  'already-undone',
  'shift-full',
  'shift-over',
  'shift-cancelled',
  'already-signed-up',
  'pupils-need-adults',
  'swap-gone', // accepted by somebody else, taken back, or the place is gone
  'swap-open', // this place is on offer already
  'invitation-gone', // answered, run out or taken back
  'has-sign-ups',
  'site-closed',
  'plan-accepted',
  'not-open-yet',
  'cap-reached',
  'wishes-first',
  'drawn-already',
  'code-taken',
  'name-taken',
  'last-owner',
  'no-room', // disk full
  'store-damaged', // nothing is written until a backup is back
  'no-mail', // no mail server, or no confirmed address
  'unavailable',
  'server-fault',
] as const;
export const ErrorCode = z.enum(ERROR_CODES);
export type ErrorCode = z.infer<typeof ErrorCode>;

export const FieldError = z.object({
  /** JSON pointer into the request body, or `query/from`, `path/id`. */
  pointer: z.string(),
  message: z.string(),
});
export type FieldError = z.infer<typeof FieldError>;

export const Problem = z.object({
  type: z.string(),
  title: z.string(),
  status: z.int(),
  detail: z.string(),
  code: ErrorCode,
  requestId: z.string(),
  errors: z.array(FieldError).optional(),
  retryAfterSeconds: z.int().optional(),
  /** What the client needs to carry on: the three nearest open shifts, the other version. */
  help: z.record(z.string(), z.unknown()).optional(),
});
export type Problem = z.infer<typeof Problem>;
