import type { BodyOf } from '../api/calls.ts';
import { readAmount } from '../format/amount.ts';
import { type MassUnit, toKg } from '../format/units.ts';
import { words } from '../messages/index.ts';
import type { FieldFault } from '../shared/ErrorSummary.svelte';

type Body = BodyOf<'planIntake'>;
type Stream = Body['streams'][number];
export const OFFERS = 4;

const text = (form: FormData, name: string) => String(form.get(name) ?? '').trim();

/** The offers that were filled in; a line that is only begun is a fault of its own. */
export function readIntakeForm(form: FormData, unit: MassUnit): { ok: true; body: Body } | { ok: false; faults: FieldFault[] } {
  const w = words.intake;
  const faults: FieldFault[] = [];
  const streams: Stream[] = [];
  for (let n = 1; n <= OFFERS; n++) {
    const [source, materialId, typed] = ['from', 'what', 'mass'].map((name) => text(form, `${name}-${n}`)) as [string, string, string];
    if (source === '' && typed === '') continue;
    const amount = readAmount(typed);
    if (source === '') faults.push({ field: `from-${n}`, text: w.needFrom });
    if (materialId === '') faults.push({ field: `what-${n}`, text: w.needWhat });
    if (amount.status !== 'ok' || amount.value <= 0) faults.push({ field: `mass-${n}`, text: w.needMass });
    else streams.push({ source, materialId, massKg: toKg(amount.value, amount.unit ?? unit) });
  }
  if (streams.length === 0 && faults.length === 0) faults.push({ field: 'from-1', text: w.needOne });
  const on = text(form, 'on');
  if (!/^\d{4}-\d\d-\d\d$/.test(on)) faults.push({ field: 'on', text: words.log.needDay });
  return faults.length > 0
    ? { ok: false, faults }
    : { ok: true, body: { id: text(form, 'id'), siteId: text(form, 'siteId'), on, streams } };
}
