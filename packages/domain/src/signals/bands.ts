import { parameter } from '../bin/parameter.ts';
import type { Band, SignalId } from './types.ts';

/** Shares of members at which a band is entered and left (model 4). */
export const BAND_MARKS = {
  watchFrom: parameter(0.3, 'share of members', 'estimate', 'common-practice'),
  watchUntil: parameter(0.2, 'share of members', 'estimate', 'common-practice'),
  actFrom: parameter(0.6, 'share of members', 'estimate', 'common-practice'),
  actUntil: parameter(0.45, 'share of members', 'estimate', 'common-practice'),
  /** From this day on trouble must still be there to ask for action: a remedy of tomorrow is judged from it too. */
  lastingFromDays: parameter(2, 'd', 'estimate', 'common-practice'),
  horizonDays: parameter(7, 'd', 'estimate', 'common-practice'),
  /** One member knows no doubt, so `act` waits until the thing is near. */
  oneMemberActDays: parameter(2, 'd', 'estimate', 'common-practice'),
} as const;

/** How likely a signal is, looked at from today. */
export interface Likelihood {
  /** Share of members in which it holds now or begins within the horizon. */
  readonly soon: number;
  /** The same for the days that make `act`. */
  readonly near: number;
  /** Share of members in which it has held for longer than there was time to answer. */
  readonly overdue: number;
  /** Something written down is itself the event. */
  readonly seen: boolean;
}

/** What one look leaves behind for the next: the band shown, and the one that the figures asked for. */
export interface BandBefore {
  readonly band: Band;
  readonly asked: Band;
}

const RANK: Readonly<Record<Band, number>> = { settled: 0, unknown: 0, watch: 1, act: 2 };

/**
 * The band to show: it moves when two looks running ask for it, so that one look alone neither raises nor ends a flag.
 *
 * @shape before, asked -> band
 * @returns At once what is asked for when nothing was shown before, when something seen is itself the event, and upwards when
 *   somebody wrote something down today; downwards never at once
 * @source common-practice (A15: a delay of one reading each way)
 */
export function bandToShow(before: BandBefore | undefined, asked: Band, now: { readonly seen: boolean; readonly news: boolean }): Band {
  if (before === undefined || now.seen) return asked;
  const step = Math.sign(RANK[asked] - RANK[before.band]);
  if (step === 0 || (step > 0 && now.news)) return asked;
  const stepBefore = Math.sign(RANK[before.asked] - RANK[before.band]);
  if (stepBefore !== step) return before.band;
  // Both looks ask for a move: as far as both of them go.
  return step * (RANK[asked] - RANK[before.asked]) < 0 ? asked : before.asked;
}

/** Where a signal's band stands by its likelihood alone, with the dead band of the band it was in before. */
export function bandOf(role: 'alert' | 'duty', likely: Likelihood, before: Band = 'settled'): Band {
  const actAt = before === 'act' ? BAND_MARKS.actUntil.value : BAND_MARKS.actFrom.value;
  const watchAt = before === 'settled' || before === 'unknown' ? BAND_MARKS.watchFrom.value : BAND_MARKS.watchUntil.value;
  if (likely.seen || (role === 'alert' ? likely.near : likely.overdue) >= actAt) return 'act';
  return (role === 'alert' ? likely.soon : likely.near) >= watchAt ? 'watch' : 'settled';
}

/**
 * A bin's band: `act` if any signal is; else `unknown` if nobody looked for too long; else `watch` if any is; else settled.
 *
 * @shape signals[n] -> band, lead
 * @returns The band and the signal that gives it: the most urgent one of that band
 * @source common-practice
 */
export function binBand(signals: readonly { readonly id: SignalId; readonly band: Band }[]): {
  readonly band: Band;
  readonly lead: SignalId | null;
} {
  for (const band of ['act', 'unknown', 'watch'] as const) {
    const first = signals.find((signal) => signal.band === band);
    if (first) return { band, lead: first.id };
  }
  return { band: 'settled', lead: null };
}
