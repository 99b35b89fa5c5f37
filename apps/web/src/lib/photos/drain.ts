/** How photos leave the phone: each after its entry, one at a time, and what each answer means for it. */
import type { Problem } from '@middenry/contract';
import type { KeptPhoto } from './store.ts';

export interface PhotoBox {
  waiting(): Promise<readonly KeptPhoto[]>;
  drop(photo: KeptPhoto): Promise<void>;
  refuse(photo: KeptPhoto, problem: Problem): Promise<void>;
}
/** `null` when nobody answered, or not the server itself. */
export type PhotoReply = { readonly status: number; readonly problem: Problem | null } | null;
export interface PhotoOutside {
  readonly box: PhotoBox;
  /** Whether the entry still waits on this phone. */
  isEntryHere(entryId: string): Promise<boolean>;
  askEntry(entryId: string): Promise<PhotoReply>;
  send(photo: KeptPhoto): Promise<PhotoReply>;
  now(): number;
}
export type PhotoStop = 'empty' | 'later' | 'entries-first' | 'sign-in';

const [OK, REDIRECT, UNAUTHORISED, FORBIDDEN, NOT_FOUND, TIMEOUT, EARLY, UPGRADE, TOO_MANY, FAULT] = [
  200, 300, 401, 403, 404, 408, 425, 426, 429, 500,
];
const MS_PER_HOUR = 3_600_000;
/** A form that nobody saved for so long will not be. */
const FORGOTTEN_HOURS = 168;

/** Sends what may be sent. A photo that is refused never holds up the next. */
export async function drainPhotos(outside: PhotoOutside): Promise<PhotoStop> {
  let anyHeld = false;
  for (const photo of await outside.box.waiting()) {
    const state = await entryState(outside, photo);
    if (state === 'later' || state === 'sign-in') return state;
    if (state === 'not-yet') {
      anyHeld = true;
      continue;
    }
    if (state === 'never') {
      await outside.box.drop(photo);
      continue;
    }
    const reply = await outside.send(photo);
    const meaning = meaningOf(reply);
    if (meaning === 'later' || meaning === 'sign-in') return meaning;
    if (meaning === 'taken') await outside.box.drop(photo);
    else await outside.box.refuse(photo, meaning);
  }
  return anyHeld ? 'entries-first' : 'empty';
}

async function entryState(outside: PhotoOutside, photo: KeptPhoto): Promise<'there' | 'not-yet' | 'never' | 'later' | 'sign-in'> {
  if (await outside.isEntryHere(photo.entryId)) return 'not-yet';
  const reply = await outside.askEntry(photo.entryId);
  if (reply?.status === NOT_FOUND) return (outside.now() - Date.parse(photo.takenAt)) / MS_PER_HOUR > FORGOTTEN_HOURS ? 'never' : 'not-yet';
  const meaning = meaningOf(reply);
  if (meaning === 'sign-in') return meaning;
  return meaning === 'taken' ? 'there' : 'later';
}

function meaningOf(reply: PhotoReply): 'taken' | 'later' | 'sign-in' | Problem {
  if (reply === null) return 'later';
  const { status, problem } = reply;
  if (status >= OK && status < REDIRECT) return 'taken';
  if ([UNAUTHORISED, FORBIDDEN, UPGRADE].includes(status)) return 'sign-in';
  if (status >= FAULT || [TIMEOUT, EARLY, TOO_MANY].includes(status) || problem === null) return 'later';
  return problem;
}
