/** How the outbox is emptied: what each answer of the server means for the entries that wait (criteria B14). */
import type { BatchResult, Problem } from '@middenry/contract';
import type { Kept } from '../phone/open.ts';
import type { News } from './news.ts';

/** The entries of one person, in the order in which they were kept. */
export interface Box {
  /** Those that wait for nothing but the network. */
  waiting(): Promise<Kept[]>;
  drop(entry: Kept): Promise<void>;
  refuse(entry: Kept, problem: Problem): Promise<void>;
}
export interface Reply {
  readonly status: number;
  /** `null` when the answer was no JSON, as a captive portal's. */
  readonly body: unknown;
  readonly retryAfterS: number | null;
}
export interface Outside {
  readonly box: Box;
  /** `null` when nobody answered. */
  send(entries: readonly Kept[]): Promise<Reply | null>;
  tell(news: News): void;
}

/** Why the sender stopped. */
export type Stop =
  | { readonly why: 'empty' }
  | { readonly why: 'later'; readonly retryAfterS: number | null; readonly sentAny: boolean }
  | { readonly why: 'sign-in' | 'update' };

const MOST_AT_ONCE = 50;
/** Well under what the server takes at once. */
const MOST_CHARACTERS = 150_000;
const [OK, REDIRECT, REFUSED, UNAUTHORISED, FORBIDDEN] = [200, 300, 400, 401, 403];
const [TIMEOUT, EARLY, UPGRADE, TOO_MANY, FAULT] = [408, 425, 426, 429, 500];

/** Sends until nothing waits, or until the network, the server or the person is needed. One bad entry never holds up the next. */
export async function drain({ box, send, tell }: Outside): Promise<Stop> {
  let sentAny = false;
  let oneByOne = false;
  for (;;) {
    const waiting = await box.waiting();
    if (waiting.length === 0) return { why: 'empty' };
    const batch = oneByOne ? waiting.slice(0, 1) : firstBatch(waiting);
    const reply = await send(batch);
    const meaning = meaningOf(reply);
    if (meaning === 'sign-in' || meaning === 'update') return { why: meaning };
    const later: Stop = { why: 'later', retryAfterS: reply?.retryAfterS ?? null, sentAny };
    if (meaning === 'later') return later;
    if (meaning === 'no') {
      const [only] = batch;
      if (batch.length > 1) oneByOne = true;
      else if (only) await refuse({ box, tell }, only, problemIn(reply));
      continue;
    }
    const settled = await settle({ box, tell }, batch, meaning);
    if (settled === 0) return later;
    sentAny = true;
  }
}

function firstBatch(waiting: readonly Kept[]): Kept[] {
  const batch: Kept[] = [];
  let characters = 0;
  for (const entry of waiting.slice(0, MOST_AT_ONCE)) {
    characters += JSON.stringify(entry.body).length;
    if (batch.length > 0 && characters > MOST_CHARACTERS) break;
    batch.push(entry);
  }
  return batch;
}

function meaningOf(reply: Reply | null): 'later' | 'sign-in' | 'update' | 'no' | readonly BatchResult[] {
  if (reply === null) return 'later';
  const { status, body } = reply;
  if (status === UNAUTHORISED || status === FORBIDDEN) return 'sign-in';
  if (status === UPGRADE) return 'update';
  if (status >= OK && status < REDIRECT) {
    const items = (body as { items?: unknown } | null)?.items;
    return Array.isArray(items) ? (items as BatchResult[]) : 'later';
  }
  return isPassing(status) ? 'later' : 'no';
}

/** What passes by itself, given time. */
const isPassing = (status: number): boolean => status < REFUSED || status >= FAULT || [TIMEOUT, EARLY, TOO_MANY].includes(status);

/** @returns How many of them wait no more */
async function settle(outside: Pick<Outside, 'box' | 'tell'>, batch: readonly Kept[], results: readonly BatchResult[]): Promise<number> {
  let settled = 0;
  for (const entry of batch) {
    const result = results.find(({ id }) => id === entry.id);
    if (result === undefined) continue;
    if (result.status >= OK && result.status < REDIRECT) {
      await outside.box.drop(entry);
      outside.tell({ kind: 'sent', id: entry.id, entry: result.entry ?? null });
    } else if (isPassing(result.status)) continue;
    else await refuse(outside, entry, result.problem ?? unknownProblem(result.status));
    settled += 1;
  }
  return settled;
}

async function refuse({ box, tell }: Pick<Outside, 'box' | 'tell'>, entry: Kept, problem: Problem): Promise<void> {
  await box.refuse(entry, problem);
  tell({ kind: 'refused', id: entry.id, problem });
}

function problemIn(reply: Reply | null): Problem {
  const body = reply?.body as Partial<Problem> | null | undefined;
  return typeof body?.code === 'string' ? (body as Problem) : unknownProblem(reply?.status ?? 0);
}

const unknownProblem = (status: number): Problem => ({
  type: 'about:blank',
  title: 'Not taken',
  status,
  detail: 'The server did not take this.',
  code: 'bad-request',
  requestId: '',
});

const [FIRST_WAIT_MS, LONGEST_WAIT_MS] = [2000, 300_000];
const MS_PER_S = 1000;
const MOST_DOUBLINGS = 10;

/**
 * How long until the next try after `failed` failures in a row: 2 s to 5 min, each between half and
 * the whole of it, so that a class that comes back into the network does not knock all at once.
 *
 * @param chance between 0 and 1
 */
export function waitMs(failed: number, retryAfterS: number | null, chance: number): number {
  const most = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(failed, MOST_DOUBLINGS));
  const own = Math.max(FIRST_WAIT_MS, most * (0.5 + chance / 2));
  return Math.max(own, (retryAfterS ?? 0) * MS_PER_S);
}
