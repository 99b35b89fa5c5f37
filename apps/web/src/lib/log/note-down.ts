import type { Problem } from '@middenry/contract';
import { call, type Outcome } from '../api/call.ts';
import type { Answer } from '../api/calls.ts';
import type { Entry } from '../bin/types.ts';
import { listen } from '../outbox/news.ts';
import { keepEntry, type NewKept, takeBack } from '../outbox/outbox.ts';
import { CALL_OF } from './entry-kinds.ts';

interface Told {
  /** It is on this phone for good: only now may the page say that it is saved (criteria B11). */
  onPhone(): void;
  onServer(entry: Entry | null): void;
  /** It stays among what needs its author until it is sent again. */
  onRefused(problem: Problem): void;
}

/**
 * Notes something: first on the phone, from where it goes out by itself. Where the browser keeps nothing, straight to the server.
 *
 * @returns How to stop being told what becomes of it
 */
export async function noteDown(entry: NewKept, told: Told): Promise<() => void> {
  const stop = listen((news) => {
    if (!('id' in news) || news.id !== entry.body.id) return;
    if (news.kind === 'sent') told.onServer(news.entry);
    if (news.kind === 'refused') told.onRefused(news.problem);
  });
  try {
    await keepEntry(entry);
    told.onPhone();
  } catch {
    const outcome: Outcome<unknown> = await call(fetch, CALL_OF[entry.kind], { body: entry.body as never });
    if (outcome.ok) told.onServer(outcome.data as Entry);
    else told.onRefused(outcome.problem);
  }
  return stop;
}

/** Takes back what was noted: on the phone while it is there, else at the server. Null when that went well. */
export async function undoNoted(id: string): Promise<Problem | null> {
  if (await takeBack(id).catch(() => false)) return null;
  const outcome: Outcome<Answer<'undoEntry'>> = await call(fetch, 'undoEntry', { params: { id } });
  return outcome.ok ? null : outcome.problem;
}
