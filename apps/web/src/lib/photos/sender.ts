/** When photos are sent: when one was chosen, when its entry has gone, on coming back, and by a timer that grows. */
import { addressOf } from '../api/call.ts';
import { PAGES_RELEASE, RELEASE_HEADER } from '../api/release.ts';
import { waitMs } from '../outbox/drain.ts';
import { listen } from '../outbox/news.ts';
import { outbox } from '../outbox/state.svelte.ts';
import { openPhone } from '../phone/open.ts';
import { drainPhotos, type PhotoReply } from './drain.ts';
import { dropPhoto, type KeptPhoto, keepPhoto, keptPhotos } from './store.ts';

/** A photo of 400 kB at a bad signal. */
const SENT_WITHIN_MS = 110_000;
const ASKED_WITHIN_MS = 15_000;

let startedFor: string | undefined;
let wake: () => void = () => undefined;
/** Looks now what can be sent. */
export const sendPhotosNow = (): void => wake();

/** Sends this person's photos for as long as the page is there; a second call changes nothing. */
export function startPhotos(personId: string): void {
  if (startedFor === personId) return;
  startedFor = personId;
  let running = false;
  let again = false;
  let failed = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const run = async () => {
    if (startedFor !== personId) return;
    clearTimeout(timer);
    if (running) {
      again = true;
      return;
    }
    running = true;
    const stop = await oneAtATime(() => drainOf(personId)).catch(() => 'later' as const);
    running = false;
    failed = stop === 'later' ? failed + 1 : 0;
    if (again) {
      again = false;
      void run();
    } else if (stop === 'later') timer = setTimeout(run, waitMs(failed, null, Math.random()));
  };
  wake = () => void run();
  listen((news) => {
    if (news.kind === 'sent') wake();
  });
  addEventListener('online', () => wake());
  document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && wake());
  wake();
}

/** Over all tabs, where the browser has locks; else the server takes each id once. */
const oneAtATime = <T>(work: () => Promise<T>): Promise<T> =>
  navigator.locks === undefined ? work() : (navigator.locks.request('middenry-photos', work) as Promise<T>);

async function drainOf(personId: string) {
  const stop = await drainPhotos({
    box: {
      waiting: async () => (await keptPhotos()).filter((photo) => photo.personId === personId && photo.problem === null),
      drop: ({ id }) => dropPhoto(id),
      refuse: (photo, problem) => keepPhoto({ ...photo, problem }),
    },
    isEntryHere: async (id) => (await (await openPhone()).getKeyFromIndex('entries', 'id', id)) !== undefined,
    askEntry: (id) => ask(addressOf('readEntry', { id }), {}, ASKED_WITHIN_MS),
    send: (photo) => ask(addressOf('putPhoto', { id: photo.id }, queryOf(photo)), bodyOf(photo), SENT_WITHIN_MS),
    now: () => Date.now(),
  });
  const mine = (await keptPhotos()).filter((photo) => photo.personId === personId);
  outbox.photosNeedYou = mine.filter(({ problem }) => problem !== null).length;
  outbox.photosWaiting = mine.length - outbox.photosNeedYou;
  return stop;
}

const queryOf = ({ binId, entryId, personId, kind, alt, takenAt }: KeptPhoto) => ({
  ...{ binId, entryId, personId, kind, takenAt, people: 'none', deviceAt: new Date().toISOString() },
  ...(alt === '' ? {} : { alt }),
});
const bodyOf = ({ picture }: KeptPhoto): RequestInit => ({
  method: 'PUT',
  body: picture,
  headers: { 'content-type': 'image/jpeg', [RELEASE_HEADER]: String(PAGES_RELEASE) },
});

async function ask(address: string, init: RequestInit, withinMs: number): Promise<PhotoReply> {
  const patience = new AbortController();
  const timer = setTimeout(() => patience.abort(), withinMs);
  try {
    const answer = await fetch(address, { ...init, redirect: 'error', signal: patience.signal });
    // A captive portal answers with a page of its own.
    if (!(answer.headers.get('content-type') ?? '').includes('json')) return null;
    return { status: answer.status, problem: answer.ok ? null : await answer.json() };
  } catch {
    return null;
  } finally {
    clearTimeout(timer);
  }
}
