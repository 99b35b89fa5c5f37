import { parameter } from '../bin/parameter.ts';
import { dayNumber } from '../units/local-day.ts';
import { SECONDS_PER_DAY } from '../units/time.ts';

/** Castings that are put aside loose, shaded and covered before they are given out. */
export const CURING_PARAMETERS = {
  leastDays: parameter(14, 'd', 'from memory', 'science 10: curing 2-4 weeks'),
  usualDays: parameter(21, 'd', 'from memory', 'science 10: curing 2-4 weeks'),
  mostDays: parameter(28, 'd', 'from memory', 'science 10: curing 2-4 weeks'),
} as const;

const MS_PER_DAY = SECONDS_PER_DAY * 1000;
const DATE_LENGTH = 10;

/**
 * The day on which castings harvested on a day are ready, where nobody said another.
 *
 * @shape date -> date
 * @source science 10: curing 2-4 weeks
 */
export const castingsReadyOn = (harvestedOn: string, days: number = CURING_PARAMETERS.usualDays.value): string =>
  new Date((dayNumber(harvestedOn) + days) * MS_PER_DAY).toISOString().slice(0, DATE_LENGTH);
