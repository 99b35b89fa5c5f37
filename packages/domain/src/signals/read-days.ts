import { type BinRun, TRACKS, type Track, trackOf } from '../bin/run.ts';
import type { MembersDay, Reading } from './member-day.ts';

type DayColumns = Readonly<Record<Track, Float64Array>>;

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
  const columns = Object.fromEntries(TRACKS.map((name) => [name, trackOf(run, name, day)])) as DayColumns;
  return Array.from({ length: run.state.members }, (_, member) => new MemberReading(columns, member) as unknown as Reading);
}

/** A member's row in the columns of a day: nothing is copied, since hundreds of members times weeks are read and most fields are not. */
class MemberReading {
  readonly columns: DayColumns;
  readonly member: number;

  constructor(columns: DayColumns, member: number) {
    this.columns = columns;
    this.member = member;
  }
}

for (const name of TRACKS) {
  Object.defineProperty(MemberReading.prototype, name, {
    enumerable: true,
    get(this: MemberReading) {
      return this.columns[name][this.member];
    },
  });
}
