/** How old a picture on a wall may be, and what it says when it is older. */
import type { Board } from '../bin/types.ts';

/** After this long without an answer a wall says that it is not live (criteria A10). */
export const NOT_LIVE_AFTER_MS = 5 * 60_000;
/** How often a wall asks, and how often it looks at its clock: both well within the minute it has to say so. */
export const ASK_EVERY_MS = 30_000;
export const LOOK_EVERY_MS = 5000;
/** An answer that takes longer is none. */
export const PATIENCE_MS = 20_000;

/** Two clocks read together: the device's, which may be set back, and one that only goes on, which may stop in sleep. */
export interface Reading {
  readonly clockMs: number;
  readonly steadyMs: number;
}

export const readClocks = (): Reading => ({ clockMs: Date.now(), steadyMs: performance.now() });

/** Time gone by, by whichever clock says more: too old is a smaller fault than wrongly new. */
export const ageMs = (then: Reading, now: Reading): number => Math.max(0, now.clockMs - then.clockMs, now.steadyMs - then.steadyMs);

export const isLive = (answered: Reading, now: Reading): boolean => ageMs(answered, now) <= NOT_LIVE_AFTER_MS;

/** What is still known from an old picture: what was wrong may be so still, what was well may not. */
export function oldPicture(board: Board): Board {
  const bins = board.bins.map((bin) => (bin.band === 'settled' ? { ...bin, band: 'unknown' as const } : bin));
  const { act, watch, unknown, settled } = board.counts;
  return { ...board, bins, counts: { act, watch, unknown: unknown + settled, settled: 0 } };
}
