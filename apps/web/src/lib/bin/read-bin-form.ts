import { BIN_KINDS, EXPOSURES } from '@middenry/domain';
import type { BodyOf } from '../api/calls.ts';
import { readDay } from '../format/typed-day.ts';
import { words } from '../messages/index.ts';
import type { FieldFault } from '../shared/ErrorSummary.svelte';
import { startFor } from './kind-sizes.ts';

type NewBin = BodyOf<'addBin'>;
type ChangedBin = BodyOf<'changeBin'>;
type Result<T> = { readonly ok: true; readonly body: T } | { readonly ok: false; readonly faults: FieldFault[] };

const text = (form: FormData, name: string) => String(form.get(name) ?? '').trim();

function reader(form: FormData) {
  const faults: FieldFault[] = [];
  const number = (field: string): number => {
    const value = Number(text(form, field).replace(',', '.'));
    if (text(form, field) === '' || !Number.isFinite(value)) faults.push({ field, text: words.binForm.needNumber });
    return value;
  };
  /** Empty means: what is usual. */
  const orUsual = (field: string, usual: number): number => (text(form, field) === '' ? usual : number(field));
  return { faults, number, orUsual };
}

function shape(form: FormData, number: (field: string) => number) {
  return {
    siteId: text(form, 'siteId'),
    code: text(form, 'code').toUpperCase(),
    name: text(form, 'name') || text(form, 'code').toUpperCase(),
    kind: BIN_KINDS.find((k) => k === text(form, 'kind')) ?? 'tote',
    areaM2: number('areaM2'),
    depthM: number('depthM'),
    zones: number('zones'),
    openBase: form.has('openBase'),
    exposure: EXPOSURES.find((x) => x === text(form, 'exposure')) ?? 'shade',
    checkIntervalDays: number('checkIntervalDays'),
    placeOrder: number('placeOrder'),
    note: text(form, 'note'),
  };
}

export function readNewBin(form: FormData, today: string): Result<NewBin> {
  const { faults, number, orUsual } = reader(form);
  const body = shape(form, number);
  const usual = startFor(Number.isFinite(body.areaM2) ? body.areaM2 : 0);
  const startedOn = readDay(text(form, 'startedOn'), today);
  if (startedOn === null) faults.push({ field: 'startedOn', text: words.log.needDay });
  const cardKg = orUsual('card', usual.bed[0]?.massKg ?? 0);
  const start = { startedOn: startedOn ?? today, wormsKg: orUsual('worms', usual.wormsKg), bedWaterKg: orUsual('water', usual.bedWaterKg) };
  const bed = cardKg > 0 ? [{ materialId: usual.bed[0]?.materialId ?? '', massKg: cardKg }] : [];
  return faults.length > 0 ? { ok: false, faults } : { ok: true, body: { id: text(form, 'id'), ...body, ...start, bed } };
}

export function readChangedBin(form: FormData): Result<ChangedBin> {
  const { faults, number } = reader(form);
  const body = shape(form, number);
  return faults.length > 0 ? { ok: false, faults } : { ok: true, body };
}
