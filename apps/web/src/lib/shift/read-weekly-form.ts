import { WEEKDAYS } from '@middenry/domain';
import type { BodyOf } from '../api/calls.ts';
import { addDays, dayNumber } from '../format/days.ts';
import { readTime } from '../format/typed-day.ts';
import { words } from '../messages/index.ts';
import type { FieldFault } from '../shared/ErrorSummary.svelte';

type Body = BodyOf<'addShifts'>;
type DutyKind = NonNullable<Body['duties']>[number]['kind'];
const DAYS_PER_WEEK = 7;
/** 1 January 1970 was a Thursday; Monday is 1. */
const THURSDAY = 3;
const MOST_WEEKS = 53;
const LEAST_MINUTES = 10;

const text = (form: FormData, name: string) => String(form.get(name) ?? '').trim();

/** Monday is 1. */
export function weekdayOf(day: string): number {
  return ((((dayNumber(day) + THURSDAY) % DAYS_PER_WEEK) + DAYS_PER_WEEK) % DAYS_PER_WEEK) + 1;
}

/** The first such weekday on or after a day. */
export function firstOn(weekday: number, from: string): string {
  return addDays(from, (weekday - weekdayOf(from) + DAYS_PER_WEEK) % DAYS_PER_WEEK);
}

/** One weekly row of shifts for each day that was ticked. */
export function readWeeklyForm(
  form: FormData,
  allBinIds: readonly string[],
): { ok: true; rows: Body[] } | { ok: false; faults: FieldFault[] } {
  const w = words.shifts;
  const faults: FieldFault[] = [];
  const from = text(form, 'from');
  const [minutes, places, weeks] = ['minutes', 'places', 'weeks'].map((name) => Number(text(form, name))) as [number, number, number];
  const days = WEEKDAYS.filter((d) => form.getAll('day').includes(String(d)));
  if (days.length === 0) faults.push({ field: 'days', text: words.weekly.needDays });
  if (!/^\d{4}-\d\d-\d\d$/.test(from)) faults.push({ field: 'from', text: words.log.needDay });
  if (text(form, 'title') === '') faults.push({ field: 'title', text: w.needName });
  if (!Number.isInteger(minutes) || minutes < LEAST_MINUTES) faults.push({ field: 'minutes', text: w.needLength });
  if (!Number.isInteger(places) || places < 1) faults.push({ field: 'places', text: w.needPlaces });
  if (!Number.isInteger(weeks) || weeks < 1 || weeks > MOST_WEEKS) faults.push({ field: 'weeks', text: w.needWeeks });
  const starts = days.map((d) => ({ weekday: d, localTime: readTime(text(form, `start-${d}`)) }));
  for (const { weekday, localTime } of starts) if (localTime === null) faults.push({ field: `start-${weekday}`, text: words.log.needTime });
  if (faults.length > 0) return { ok: false, faults };
  const ticked = form.getAll('bin').map(String);
  const binIds = ticked.length > 0 ? ticked : [...allBinIds];
  const kinds = form.getAll('duty').map(String) as DutyKind[];
  const duties = binIds.flatMap((binId) => kinds.map((kind) => ({ binId, kind })));
  const shared = { siteId: text(form, 'siteId'), title: text(form, 'title'), minutes, places, weeks, binIds, duties, skipClosed: true };
  const rows = starts.map(({ weekday, localTime }) => ({
    ...shared,
    id: text(form, `id-${weekday}`),
    localDate: firstOn(weekday, from),
    localTime: localTime!,
  }));
  return { ok: true, rows };
}
