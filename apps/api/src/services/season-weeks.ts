/** The season's own rows, added up for each week. */
import type { SeasonWeek } from '@middenry/contract';
import { type SeasonRow as SeasonRecord, seasonOf } from '@middenry/domain';
import type { Context } from '../context.ts';
import type { SeasonRange } from '../db/repositories/season.ts';
import { addDays, daysBetween } from './local-time.ts';
import { recordsOf } from './season.ts';

const DAYS_OF_WEEK = 7;
const A_MONDAY = '1970-01-05';

/** The Monday of the week that a day is in. */
const mondayOf = (day: string): string => {
  const since = daysBetween(A_MONDAY, day) % DAYS_OF_WEEK;
  return addDays(day, -((since + DAYS_OF_WEEK) % DAYS_OF_WEEK));
};

export function readSeasonWeeks(call: Context, range: SeasonRange): { weeks: SeasonWeek[] } {
  const byMonday = new Map<string, SeasonRecord[]>();
  for (let monday = mondayOf(range.from); monday <= range.to; monday = addDays(monday, DAYS_OF_WEEK)) byMonday.set(monday, []);
  for (const record of recordsOf(call, range)) byMonday.get(mondayOf(record.localDate))?.push(record);
  return { weeks: [...byMonday].map(([from, records]) => weekOf(from, records)) };
}

function weekOf(from: string, records: readonly SeasonRecord[]): SeasonWeek {
  const { fedWeighedG, fedEstimatedG, beddingG, harvestedG, minutes, shifts } = seasonOf(records).total;
  return { from, fedG: fedWeighedG + fedEstimatedG, beddingG, harvestedG, minutes, shifts };
}
