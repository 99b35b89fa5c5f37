import { DAYS_PER_WEEK, MINUTES_PER_HOUR } from '../units/time.ts';
import type { SeasonTotals } from './season.ts';

/** What totals of different size are compared by. Null: there is nothing to divide by. */
export interface SeasonRates {
  readonly fedPerWeekG: number;
  readonly castingsPerWeekG: number;
  /** Castings over scraps and bedding, as weighed: without the bedding it would promise too much. */
  readonly yieldFrac: number | null;
  readonly weighedFrac: number | null;
  readonly estimatedFrac: number | null;
  readonly moistureNotedFrac: number | null;
  /** Of the time that was planned, how much was given. */
  readonly givenFrac: number | null;
  readonly fedPerHourG: number | null;
}

const over = (part: number, whole: number): number | null => (whole === 0 ? null : part / whole);

/** @shape scalar -> scalar @returns Mass per week, [g/week] */
export const gramsPerWeek = (grams: number, days: number): number => (grams * DAYS_PER_WEEK) / days;

/**
 * Rates of a group's totals over so many days.
 *
 * @shape totals, days -> rates
 * @returns Masses per week, [g/week]; shares, 0 to 1
 * @valid days above 0
 * @throws {RangeError} otherwise
 */
export function seasonRates(totals: SeasonTotals, days: number): SeasonRates {
  if (!(days > 0)) throw new RangeError(`Cannot give rates as a season lasts a day or more: current value is ${days}`);
  const fedG = totals.fedWeighedG + totals.fedEstimatedG;
  return {
    fedPerWeekG: gramsPerWeek(fedG, days),
    castingsPerWeekG: gramsPerWeek(totals.harvestedG, days),
    yieldFrac: over(totals.harvestedG, fedG + totals.beddingG),
    weighedFrac: over(totals.fedWeighedG, fedG),
    estimatedFrac: over(totals.fedEstimatedG, fedG),
    moistureNotedFrac: over(totals.castingsMoistureNotedG, totals.harvestedG),
    givenFrac: over(totals.minutes, totals.minutesPlanned),
    fedPerHourG: over(fedG * MINUTES_PER_HOUR, totals.minutes),
  };
}
