/** The season's own rows, added up for each week. */
import type { SeasonWeek } from '@middenry/contract';
import { DAYS_PER_WEEK, firstWeekday, type SeasonRow as SeasonRecord, seasonTotal } from '@middenry/domain';
import type { Context } from '../context.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import type { SeasonRange } from '../db/repositories/season.ts';
import { addDays, daysBetween } from './local-time.ts';
import { recordsOf } from './season.ts';

/** The day before a Monday. */
const A_SUNDAY = '1970-01-04';

/** The first day of the week that a day is in, as the programme's country counts weeks. */
function weeksOf({ store }: Context): (day: string) => string {
  const aFirstDay = addDays(A_SUNDAY, firstWeekday(findProgramme(store)?.locale ?? 'en-GB'));
  return (day) => {
    const since = daysBetween(aFirstDay, day) % DAYS_PER_WEEK;
    return addDays(day, -((since + DAYS_PER_WEEK) % DAYS_PER_WEEK));
  };
}

export function readSeasonWeeks(call: Context, range: SeasonRange): { weeks: SeasonWeek[] } {
  const firstOf = weeksOf(call);
  const byFirstDay = new Map<string, SeasonRecord[]>();
  const weeksFrom = firstOf(range.from);
  for (let first = weeksFrom; first <= range.to; first = addDays(first, DAYS_PER_WEEK)) byFirstDay.set(first, []);
  for (const record of recordsOf(call, range, weeksFrom)) byFirstDay.get(firstOf(record.localDate))?.push(record);
  return { weeks: [...byFirstDay].map(([from, records]) => weekOf(from, records)) };
}

function weekOf(from: string, records: readonly SeasonRecord[]): SeasonWeek {
  const { fedWeighedG, fedEstimatedG, beddingG, harvestedG, minutes, shifts } = seasonTotal(records);
  return { from, fedG: fedWeighedG + fedEstimatedG, beddingG, harvestedG, minutes, shifts };
}
