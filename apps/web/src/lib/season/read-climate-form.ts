import type { BodyOf } from '../api/calls.ts';
import { text } from '../errors/act.ts';
import { readAmount } from '../format/amount.ts';
import { words } from '../messages/index.ts';
import type { FieldFault } from '../shared/ErrorSummary.svelte';

type Factors = BodyOf<'confirmClimateFactors'>;
type Range = Factors['landfill'];
type Read = { readonly ok: true; readonly body: Factors } | { readonly ok: false; readonly faults: FieldFault[] };

export const TEXTS = ['name', 'edition', 'region', 'basis', 'source'] as const;
const MOST_KG_PER_TONNE = 10_000;
const WHOLE_PERCENT = 100;

/** The factors of climate gases as typed; nothing is taken before somebody ticked that they looked them up. */
export function readClimateForm(form: FormData): Read {
  const w = words.climate;
  const texts = Object.fromEntries(TEXTS.map((field) => [field, text(form, field)])) as Record<(typeof TEXTS)[number], string>;
  const faults: FieldFault[] = TEXTS.filter((field) => texts[field] === '').map((field) => ({ field, text: w.needText }));
  const [landfill, process] = [readRange(form, 'landfill'), readRange(form, 'process')];
  if (landfill === null) faults.push({ field: 'landfill-low', text: w.needRange });
  if (process === null) faults.push({ field: 'process-low', text: w.needRange });
  const landfillPercent = Number(text(form, 'landfillPercent').replace(/\s*%$/, '') || Number.NaN);
  if (!Number.isInteger(landfillPercent) || landfillPercent < 1 || landfillPercent > WHOLE_PERCENT)
    faults.push({ field: 'landfillPercent', text: w.needPercent });
  if (!form.has('confirmed')) faults.push({ field: 'confirmed', text: w.needConfirm });
  if (landfill === null || process === null || faults.length > 0) return { ok: false, faults };
  return { ok: true, body: { ...texts, landfill, process, landfillPercent, confirmed: true } };
}

function readRange(form: FormData, name: 'landfill' | 'process'): Range | null {
  const amounts = ['low', 'mid', 'high'].map((at) => readAmount(text(form, `${name}-${at}`)));
  const [low, mid, high] = amounts.map((amount) => (amount.status === 'ok' && amount.unit === null ? amount.value : Number.NaN));
  if (low === undefined || mid === undefined || high === undefined) return null;
  return low <= mid && mid <= high && high <= MOST_KG_PER_TONNE ? { low, mid, high } : null;
}
