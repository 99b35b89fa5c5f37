/** Which days a bin's runs are kept of, so that an entry of any age has one not far before it. */

/** With all that the outlook reads of the last month: an entry of this fortnight goes on from the day before it. */
const DAILY = 14;
/** State alone, from which the month before an old entry is stepped again. */
const FOUR_WEEKS = 28;
const FOUR_WEEKLY = 13;
const YEAR = 364;

/** Days of the last month that the outlook reads back, and one. */
const LONG_TRACKS_DAYS = 31;
/** What a condition of two days running needs. */
const SHORT_TRACKS_DAYS = 2;

export const isDaily = (day: number, today: number): boolean => day >= 0 && day < today && day >= today - DAILY;

/** Counted from the bin's first day, so that they stay where they are. */
export const isLasting = (day: number, today: number): boolean =>
  day > 0 && day < today && (day % YEAR === 0 || (day % FOUR_WEEKS === 0 && day >= today - FOUR_WEEKS * FOUR_WEEKLY));

/** Of a run from the bin's first day only yesterday is kept of the daily ones: the others come with the days, and the first answer sooner. */
export function keepDays(today: number, isFromStart = false): readonly number[] {
  const isDue = (day: number): boolean => (isFromStart ? day === today - 1 : isDaily(day, today));
  return Array.from({ length: today }, (_, day) => day).filter((day) => isDue(day) || isLasting(day, today));
}

/** How many days of tracks go with the run of a day, one number for each time that it is kept. */
export function tracksKept(day: number, today: number): readonly number[] {
  return [...(isDaily(day, today) ? [LONG_TRACKS_DAYS] : []), ...(isLasting(day, today) ? [SHORT_TRACKS_DAYS] : [])];
}

/** A run that is still wanted: long ones while they are daily, short ones for as long as they last. */
export function isWanted(run: { readonly day: number; readonly tracksFromDay: number }, today: number): boolean {
  const isLong = run.day - run.tracksFromDay + 1 > SHORT_TRACKS_DAYS;
  return isLong ? isDaily(run.day, today) : isLasting(run.day, today) || isDaily(run.day, today);
}
