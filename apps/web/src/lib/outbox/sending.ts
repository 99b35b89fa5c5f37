/** When the outbox is emptied: at open, on coming back, when the network says so, after each note, by button, and by a timer that never gives up (B16). */
import { addressOf } from '../api/call.ts';
import { PAGES_RELEASE, RELEASE_HEADER } from '../api/release.ts';
import type { Kept } from '../phone/open.ts';
import { allKept, boxOf } from './box.ts';
import { drain, type Reply, type Stop, waitMs } from './drain.ts';
import { listen, tell } from './news.ts';
import { quietly } from './one-sender.ts';
import { outbox } from './state.svelte.ts';

/** A batch that takes longer will be sent again. */
const ANSWER_WITHIN_MS = 15_000;
/** Whoever has to sign in may do so in another tab. */
const LOOK_AGAIN_MS = 60_000;

let wakeNow: () => void = () => undefined;
/** Tries at once, as the button does. */
export const sendNow = (): void => wakeNow();

/** Empties the outbox of whoever is signed in for as long as the page is there. */
export function startSending(personId: string): () => void {
  let stopped = false;
  let running = false;
  let again = false;
  let failed = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const run = async () => {
    clearTimeout(timer);
    if (running || stopped) {
      again = true;
      return;
    }
    running = true;
    const stop = await quietly(() => empty(personId)).catch((): Stop => ({ why: 'later', retryAfterS: null, sentAny: false }));
    running = false;
    failed = stop.why === 'later' && !stop.sentAny ? failed + 1 : 0;
    say(stop);
    if (stopped) return;
    if (again) {
      again = false;
      void run();
    } else if (stop.why === 'later') timer = setTimeout(run, waitMs(failed, stop.retryAfterS, Math.random()));
    else if (stop.why !== 'empty') timer = setTimeout(run, LOOK_AGAIN_MS);
  };
  const wake = () => void run();
  const onVisible = () => document.visibilityState === 'visible' && wake();
  wakeNow = wake;
  const unlisten = listen((news) => {
    if (news.kind === 'kept') {
      askToKeep();
      wake();
    }
    void count(personId);
  });
  addEventListener('online', wake);
  addEventListener('pageshow', wake);
  document.addEventListener('visibilitychange', onVisible);
  void count(personId);
  wake();
  return () => {
    stopped = true;
    clearTimeout(timer);
    unlisten();
    removeEventListener('online', wake);
    removeEventListener('pageshow', wake);
    document.removeEventListener('visibilitychange', onVisible);
  };
}

async function empty(personId: string): Promise<Stop> {
  const box = boxOf(personId);
  if ((await box.waiting()).length > 0) outbox.state = 'sending';
  return drain({ box, tell, send: (entries) => post(personId, entries) });
}

function say(stop: Stop): void {
  outbox.state = stop.why === 'empty' ? 'idle' : stop.why === 'later' ? 'away' : stop.why;
  if (stop.why !== 'empty') tell({ kind: 'state', state: outbox.state });
}

async function post(personId: string, kept: readonly Kept[]): Promise<Reply | null> {
  const patience = new AbortController();
  const timer = setTimeout(() => patience.abort(), ANSWER_WITHIN_MS);
  const entries = kept.map(({ kind, keptAt, body }) => ({ kind, keptAt, body }));
  try {
    const answer = await fetch(addressOf('logBatch'), {
      method: 'POST',
      headers: { accept: 'application/json', 'content-type': 'application/json', [RELEASE_HEADER]: String(PAGES_RELEASE) },
      // The clock as it is now, at every try: only so can the server tell by how much it is wrong (B24).
      body: JSON.stringify({ personId, deviceAt: new Date().toISOString(), entries }),
      redirect: 'error',
      signal: patience.signal,
    });
    const isJson = (answer.headers.get('content-type') ?? '').includes('json');
    const after = Number(answer.headers.get('retry-after') ?? Number.NaN);
    return { status: answer.status, body: isJson ? await answer.json() : null, retryAfterS: Number.isFinite(after) ? after : null };
  } catch {
    return null;
  } finally {
    clearTimeout(timer);
  }
}

async function count(personId: string): Promise<void> {
  const all = await allKept().catch(() => []);
  const mine = all.filter((entry) => entry.personId === personId);
  outbox.needsYou = mine.filter(({ problem }) => problem !== null).length;
  outbox.waiting = mine.length - outbox.needsYou;
  outbox.sealed = all.length - mine.length;
  outbox.oldestAt = mine[0]?.keptAt ?? null;
}

let asked = false;
/** Asks the browser not to clear the store away by itself (B18). */
function askToKeep(): void {
  if (asked || navigator.storage?.persist === undefined) return;
  asked = true;
  void navigator.storage.persist().then(
    (safe) => {
      outbox.safe = safe;
    },
    () => undefined,
  );
}
