import type { Spread } from './bin/outcome.ts';
import { type BinRun, type Track, trackOf, weightsOf } from './bin/run.ts';
import { spreadOf } from './ensemble/spread.ts';

/** What a bin's page draws as a fan over days. */
export const FAN_QUANTITIES = [
  'foodInHandDays',
  'airlessFrac',
  'moistureFracWb',
  'bedTempC',
  'bedPeakTempC',
  'ph',
  'wormsKg',
  'castingsKgWb',
] as const satisfies readonly Track[];
export type FanQuantity = (typeof FAN_QUANTITIES)[number];

/** One day of the fan; up to today it is what the members that are left after all that was seen say of that day. */
export type FanRow = { readonly day: number } & Readonly<Record<FanQuantity, Spread>>;

/** Days before today that the fan shows. */
export const FAN_TAIL_DAYS = 14;

/**
 * Percentiles by day from a fortnight back to the end of a run.
 *
 * @shape run -> rows[n]
 * @returns One row a day, oldest first
 * @valid a run that kept the tracks of those days
 * @source none: weighted percentiles of the members
 */
export function fanOf(run: BinRun, today: number): readonly FanRow[] {
  const fromDay = Math.max(run.tracksFromDay, today - FAN_TAIL_DAYS);
  return Array.from({ length: run.day - fromDay + 1 }, (_, at) => {
    const day = fromDay + at;
    const spreads = FAN_QUANTITIES.map((name) => [name, spreadOf(trackOf(run, name, day), weightsOf(run))]);
    return { day, ...(Object.fromEntries(spreads) as Record<FanQuantity, Spread>) };
  });
}
