import type { BodyOf } from '../api/calls.ts';
import { instantOf } from '../format/days.ts';
import { readTime } from '../format/typed-day.ts';
import { words } from '../messages/index.ts';
import type { FieldFault } from '../shared/ErrorSummary.svelte';

type TermBody = BodyOf<'addSignUpSeason'>;
type WishBody = BodyOf<'putWishes'>;
type Read<T> = { readonly ok: true; readonly body: T } | { readonly ok: false; readonly faults: FieldFault[] };
const MOST_CAP = 20;
const MOST_PLACES = 60;
const text = (form: FormData, name: string) => String(form.get(name) ?? '').trim();
const isDay = (typed: string) => /^\d{4}-\d\d-\d\d$/.test(typed);

/** A term of sign-up; it opens at a local time in the zone of its site. */
export function readTermForm(form: FormData, timeZone: string): Read<TermBody> {
  const faults: FieldFault[] = [];
  for (const field of ['from', 'to', 'opens']) if (!isDay(text(form, field))) faults.push({ field, text: words.log.needDay });
  const opensAt = readTime(text(form, 'opensAt'));
  if (opensAt === null) faults.push({ field: 'opensAt', text: words.log.needTime });
  if (text(form, 'name') === '') faults.push({ field: 'name', text: words.shifts.needName });
  const cap = Number(text(form, 'cap') || '2');
  if (!Number.isInteger(cap) || cap < 1 || cap > MOST_CAP) faults.push({ field: 'cap', text: words.term.needCap });
  if (faults.length > 0 || opensAt === null) return { ok: false, faults };
  const way = text(form, 'way') === 'draw' ? ('draw' as const) : ('first-come' as const);
  const base = {
    id: text(form, 'id'),
    siteId: text(form, 'siteId'),
    name: text(form, 'name'),
    from: text(form, 'from'),
    to: text(form, 'to'),
  };
  return { ok: true, body: { ...base, way, cap, opensAt: instantOf(text(form, 'opens'), opensAt, timeZone) } };
}

/** Wishes in their order: every number once, an empty field is no wish. */
export function readWishes(form: FormData, shiftIds: readonly string[]): Read<WishBody> {
  const typed = shiftIds.map((id) => ({ id, rank: text(form, `rank-${id}`) })).filter(({ rank }) => rank !== '');
  const faults: FieldFault[] = typed
    .filter(({ rank }) => !/^[1-9]\d{0,2}$/.test(rank) || typed.filter((other) => other.rank === rank).length > 1)
    .map(({ id }) => ({ field: `rank-${id}`, text: words.term.needRank }));
  const most = Number(text(form, 'most') || '1');
  if (!Number.isInteger(most) || most < 1 || most > MOST_PLACES) faults.push({ field: 'most', text: words.term.needMost });
  if (faults.length > 0) return { ok: false, faults };
  return { ok: true, body: { most, shiftIds: typed.sort((a, b) => Number(a.rank) - Number(b.rank)).map(({ id }) => id) } };
}
