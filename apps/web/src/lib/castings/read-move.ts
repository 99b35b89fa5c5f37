import type { BodyOf } from '../api/calls.ts';
import { text } from '../errors/act.ts';
import { readAmount } from '../format/amount.ts';
import type { Format } from '../format/format.ts';
import { readDay } from '../format/typed-day.ts';
import { toKg } from '../format/units.ts';
import { words } from '../messages/index.ts';
import type { FieldFault } from '../shared/ErrorSummary.svelte';

type Move = BodyOf<'moveCastings'>;
type Read = { readonly ok: true; readonly body: Move } | { readonly ok: false; readonly faults: FieldFault[] };

/** What was given out, brought in or written off, as the form of the store says it; an empty day is today. */
export function readMove(form: FormData, f: Format): Read {
  const faults: FieldFault[] = [];
  const amount = readAmount(text(form, 'mass'));
  if (amount.status !== 'ok' || amount.value <= 0) faults.push({ field: 'mass', text: words.castings.needMass });
  const typedDay = text(form, 'day');
  const on = typedDay === '' ? null : readDay(typedDay, f.settings.today, f.settings.locale === 'en-US');
  if (typedDay !== '' && on === null) faults.push({ field: 'day', text: words.log.needDay });
  if (amount.status !== 'ok' || faults.length > 0) return { ok: false, faults };
  const unit = amount.unit ?? f.massUnit;
  const kind = text(form, 'kind') as Move['kind'];
  const given =
    kind === 'given-out'
      ? { destination: text(form, 'destination') as NonNullable<Move['destination']>, receiver: text(form, 'receiver') || null }
      : { destination: null, receiver: null };
  const body = {
    ...{ id: text(form, 'id'), siteId: text(form, 'siteId'), kind, ...given },
    ...{ massKg: toKg(amount.value, unit), typed: { value: amount.value, unit }, destinationNote: text(form, 'destinationNote') },
  };
  return { ok: true, body: on === null ? body : { ...body, on } };
}
