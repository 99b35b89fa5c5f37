import { call } from '../api/call.ts';
import type { Asked } from './follow.svelte.ts';
import { PATIENCE_MS } from './fresh.ts';

const NOT_ALLOWED: readonly number[] = [401, 403, 404, 410];

/** Asks for the board as somebody who signed in, or by a link; anything but a whole answer in time is none. */
export async function askBoard(secret: string | null): Promise<Asked> {
  const send: typeof fetch = (address, how) => fetch(address, { ...how, signal: AbortSignal.timeout(PATIENCE_MS) });
  try {
    const outcome = secret === null ? await call(send, 'readBoard') : await call(send, 'readLinkedBoard', { body: { token: secret } });
    return outcome.ok ? { board: outcome.data } : { shut: NOT_ALLOWED.includes(outcome.problem.status) };
  } catch {
    return { shut: false };
  }
}
