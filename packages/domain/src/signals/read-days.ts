import { type BinRun, TRACKS } from '../bin/run.ts';
import type { MembersDay, Reading } from './member-day.ts';

/**
 * What every member read on the days from one to another, as the run kept it.
 *
 * @shape run, day, day -> days[n]
 * @returns Consecutive days, oldest first
 * @throws {RangeError} when the run kept no tracks of a day asked for
 */
export function daysOf(run: BinRun, fromDay: number, toDay: number): readonly MembersDay[] {
  const days: MembersDay[] = [];
  for (let day = fromDay; day <= toDay; day++) days.push({ day, weights: run.state.bed.weight, readings: readingsOn(run, day) });
  return days;
}

function readingsOn(run: BinRun, day: number): readonly Reading[] {
  const index = day - run.tracksFromDay;
  return Array.from({ length: run.state.members }, (_, member) => {
    const reading: Partial<Record<(typeof TRACKS)[number], number>> = {};
    for (const name of TRACKS) {
      const value = run.tracks[name][index]?.[member];
      if (value === undefined)
        throw new RangeError(
          `Cannot read ${name} as the run keeps it from day ${run.tracksFromDay} to ${run.day}: current value is day ${day}`,
        );
      reading[name] = value;
    }
    return reading as Reading;
  });
}
