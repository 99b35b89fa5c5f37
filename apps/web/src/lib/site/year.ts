/** The 52 weeks up to this one, as a strip draws them and a table tells them. */
import { kgFromGrams } from '@middenry/domain';
import type { Answer } from '../api/calls.ts';
import { addDays } from '../format/days.ts';
import type { Format } from '../format/format.ts';
import type { CountRow } from '../season/types.ts';

export type Week = Answer<'readSeasonWeeks'>['weeks'][number];

const WEEKS = 52;
const DAYS_PER_WEEK = 7;

/** A year of whole weeks; its first day need not begin a week. */
export const lastYear = (today: string): { from: string; to: string } => ({
  from: addDays(today, -(WEEKS - 1) * DAYS_PER_WEEK),
  to: today,
});

export interface Column {
  readonly from: string;
  /** 0 to 1 of the longest column of both kinds, so that what went in and what came out can be compared. */
  readonly up: number;
  readonly down: number;
}

export function columnsOf(weeks: readonly Week[]): Column[] {
  const most = Math.max(1, ...weeks.flatMap(({ fedG, harvestedG }) => [fedG, harvestedG]));
  return weeks.map(({ from, fedG, harvestedG }) => ({ from, up: fedG / most, down: harvestedG / most }));
}

/** The week with the longest column; null when nothing went in or out. */
export function longestOf(weeks: readonly Week[]): { from: string; grams: number } | null {
  const all = weeks.map(({ from, fedG, harvestedG }) => ({ from, grams: Math.max(fedG, harvestedG) }));
  const longest = all.reduce((a, b) => (b.grams > a.grams ? b : a), { from: '', grams: 0 });
  return longest.grams === 0 ? null : longest;
}

export const sumOf = (weeks: readonly Week[], of: 'fedG' | 'beddingG' | 'harvestedG' | 'minutes' | 'shifts'): number =>
  weeks.reduce((sum, week) => sum + week[of], 0);

/** The latest week first. */
export function weekRows(weeks: readonly Week[], f: Format): CountRow[] {
  const mass = (grams: number) => ({ text: `${f.massValue(kgFromGrams(grams), 1)}\u00a0${f.massUnit}`, value: grams });
  return [...weeks].reverse().map(({ from, fedG, beddingG, harvestedG, minutes }) => ({
    id: from,
    label: f.date(from),
    cells: [mass(fedG), mass(beddingG), mass(harvestedG), { text: `${f.hoursShown(minutes)}\u00a0h`, value: minutes }],
  }));
}
