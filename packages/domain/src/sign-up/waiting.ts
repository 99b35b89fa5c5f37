/** When whose turn it is (criteria C3): pure, so that ten thousand made-up histories can be run through it. */

export interface Waiter {
  readonly id: string;
  readonly offerUntilMs: number | null;
}

export interface WaitingScene {
  readonly nowMs: number;
  readonly startsAtMs: number;
  readonly endsAtMs: number;
  readonly cancelled: boolean;
  readonly places: number;
  readonly taken: number;
  /** First come first. */
  readonly waiters: readonly Waiter[];
}

export interface Settlement {
  readonly lapsed: readonly string[];
  readonly offered: readonly { readonly id: string; readonly untilMs: number }[];
  /** The shift is over or off: nobody waits any more. */
  readonly ended: readonly string[];
}

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const LONGEST_OFFER_MS = 24 * HOUR_MS;
const SHORTEST_OFFER_MS = 30 * MINUTE_MS;
/** So close to the start there is no time to take turns: all are told, and the first to accept has it. */
export const RUSH_MS = 3 * HOUR_MS;

export const isRush = (nowMs: number, startsAtMs: number): boolean => startsAtMs - nowMs <= RUSH_MS;

/** What has to happen now: offers that ran out, places that can be offered, and to whom. */
export function settlementOf(scene: WaitingScene): Settlement {
  const { nowMs, startsAtMs, endsAtMs, cancelled, places, taken, waiters } = scene;
  if (cancelled || nowMs >= endsAtMs) return { lapsed: [], offered: [], ended: waiters.map(({ id }) => id) };
  const isLapsed = ({ offerUntilMs }: Waiter) => offerUntilMs !== null && offerUntilMs <= nowMs;
  const lapsed = waiters.filter(isLapsed).map(({ id }) => id);
  const left = waiters.filter((waiter) => !isLapsed(waiter));
  const unasked = left.filter(({ offerUntilMs }) => offerUntilMs === null);
  const free = places - taken;
  if (isRush(nowMs, startsAtMs)) {
    const told = free > 0 ? unasked.map(({ id }) => ({ id, untilMs: endsAtMs })) : [];
    return { lapsed, offered: told, ended: [] };
  }
  const untilMs = nowMs + Math.max(SHORTEST_OFFER_MS, Math.min(LONGEST_OFFER_MS, (startsAtMs - nowMs) / 2));
  const open = Math.max(0, free - (left.length - unasked.length));
  return { lapsed, offered: unasked.slice(0, open).map(({ id }) => ({ id, untilMs })), ended: [] };
}
