import type { BodyOf } from '../api/calls.ts';
import type { Format } from '../format/format.ts';
import { readDay, readTime } from '../format/typed-day.ts';
import { words } from '../messages/index.ts';
import type { FieldFault } from '../shared/ErrorSummary.svelte';

type Body = BodyOf<'addShifts'>;
type DutyKind = NonNullable<Body['duties']>[number]['kind'];
const text = (form: FormData, name: string) => String(form.get(name) ?? '').trim();
const MOST_WEEKS = 53;

/** Reads the form of a new shift; every duty ticked holds for every bin ticked. */
export function readShiftForm(form: FormData, f: Format): { ok: true; body: Body } | { ok: false; faults: FieldFault[] } {
  const w = words.shifts;
  const faults: FieldFault[] = [];
  const localDate = /^\d{4}-\d\d-\d\d$/.test(text(form, 'date'))
    ? text(form, 'date')
    : readDay(text(form, 'date'), '9999-12-31', f.settings.locale === 'en-US');
  const localTime = readTime(text(form, 'start'));
  const minutes = Number(text(form, 'minutes'));
  const places = Number(text(form, 'places'));
  const weeks = form.get('repeat') === 'weekly' ? Number(text(form, 'weeks')) : 1;
  if (localDate === null) faults.push({ field: 'date', text: words.log.needDay });
  if (localTime === null) faults.push({ field: 'start', text: words.log.needTime });
  if (text(form, 'title') === '') faults.push({ field: 'title', text: w.needName });
  if (!Number.isInteger(minutes) || minutes < 10) faults.push({ field: 'minutes', text: w.needLength });
  if (!Number.isInteger(places) || places < 1) faults.push({ field: 'places', text: w.needPlaces });
  if (!Number.isInteger(weeks) || weeks < 1 || weeks > MOST_WEEKS) faults.push({ field: 'weeks', text: w.needWeeks });
  if (localDate === null || localTime === null || faults.length > 0) return { ok: false, faults };
  const binIds = form.getAll('bin').map(String);
  const kinds = form.getAll('duty').map(String) as DutyKind[];
  return {
    ok: true,
    body: {
      id: text(form, 'id'),
      siteId: text(form, 'siteId'),
      title: text(form, 'title'),
      localDate,
      localTime,
      minutes,
      places,
      weeks,
      note: text(form, 'note'),
      binIds,
      duties: binIds.flatMap((binId) => kinds.map((kind) => ({ binId, kind }))),
    },
  };
}

const MOST_PUPILS = 60;
const LEAST_REASON = 10;

/** Places for pupils and how many adults must come: fewer than two only with a written reason. */
export function readAdults(
  form: FormData,
):
  | { ok: true; body: Pick<BodyOf<'changeShift'>, 'pupilPlaces' | 'leastAdults' | 'leastAdultsReason'> }
  | { ok: false; faults: FieldFault[] } {
  if (!form.has('pupilPlaces')) return { ok: true, body: {} };
  const pupilPlaces = Number(text(form, 'pupilPlaces'));
  if (!Number.isInteger(pupilPlaces) || pupilPlaces < 0 || pupilPlaces > MOST_PUPILS)
    return { ok: false, faults: [{ field: 'pupilPlaces', text: words.pupils.needPlaces }] };
  if (!form.has('leastAdults')) return { ok: true, body: { pupilPlaces } };
  if (text(form, 'leastAdults') !== '1') return { ok: true, body: { pupilPlaces, leastAdults: 2 } };
  const leastAdultsReason = text(form, 'leastAdultsReason');
  if (leastAdultsReason.length < LEAST_REASON) return { ok: false, faults: [{ field: 'leastAdultsReason', text: words.pupils.needWhy }] };
  return { ok: true, body: { pupilPlaces, leastAdults: 1, leastAdultsReason } };
}
