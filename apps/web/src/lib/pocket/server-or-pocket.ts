import { isHttpError } from '@sveltejs/kit';
import { browser } from '$app/environment';
import type { Pocket, Source } from './types.ts';

/** A page at the bin waits this long for the network (criteria B17, H5). */
const PATIENCE_MS = 4000;
/** The shell came because the network had not answered already. */
const SHELL_PATIENCE_MS = 1000;
const AWAY = 500;

/**
 * What the server says, or what the phone carries when nobody answers in time.
 *
 * @param pocket null when the phone does not carry it
 */
export async function serverOrPocket<T extends object>(
  send: typeof fetch,
  server: (send: typeof fetch) => Promise<T>,
  pocket: (carried: Pocket) => T | null,
): Promise<T & { source: Source }> {
  if (!browser) return { ...(await server(send)), source: { from: 'server' } };
  const patience = new AbortController();
  const timer = setTimeout(() => patience.abort(), document.documentElement.dataset.shell === '' ? SHELL_PATIENCE_MS : PATIENCE_MS);
  try {
    return { ...(await server((input, init) => send(input, { ...init, signal: patience.signal }))), source: { from: 'server' } };
  } catch (problem) {
    if (!isHttpError(problem) || problem.status < AWAY) throw problem;
    const { lastPocket } = await import('./store.ts');
    const kept = await lastPocket().catch(() => undefined);
    const carried = kept === undefined ? null : pocket(kept.pocket);
    if (kept === undefined || carried === null) throw problem;
    return { ...carried, source: { from: 'pocket', asOf: kept.checkedAt } };
  } finally {
    clearTimeout(timer);
  }
}

/** Today by the phone's own clock, since the pocket's may be days old. */
export function todayIn(timeZone: string, now = new Date()): string {
  return new Intl.DateTimeFormat('en-CA', { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' }).format(now);
}
