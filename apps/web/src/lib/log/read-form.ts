import type { BodyOf } from '../api/calls.ts';
import { readAmount } from '../format/amount.ts';
import { addDays, instantOf } from '../format/days.ts';
import type { Format } from '../format/format.ts';
import { readDay, readTime } from '../format/typed-day.ts';
import { type MassUnit, toCelsius, toKg, unitOf } from '../format/units.ts';
import { words } from '../messages/index.ts';
import type { FieldFault } from '../shared/ErrorSummary.svelte';
import { netKg, type Tared } from './weigh.ts';

export interface ContainerChoice extends Tared {
  readonly fullKg: number;
}
/** What a form is read against: the same on the phone and on the server. */
export interface FormContext {
  readonly binId: string;
  readonly zones: number;
  readonly containers: readonly ContainerChoice[];
  readonly format: Format;
  readonly now: Date;
}
/** A number that can be read two ways. */
export interface Unclear {
  readonly readings: readonly [number, number];
  readonly unit: MassUnit;
}
export type FormFaults = {
  readonly ok: false;
  readonly faults: FieldFault[];
  readonly unclear?: Unclear;
};
export type Read<T> = { readonly ok: true; readonly body: T } | FormFaults;

export const text = (form: FormData, name: string) => String(form.get(name) ?? '').trim();
export const fault = (field: string, says: string): FormFaults => ({ ok: false, faults: [{ field, text: says }] });
const instant = (now: Date) => now.toISOString();

/** When it happened, from `now | earlier | yesterday | other` with a typed day and time. */
export function readWhen(form: FormData, ctx: FormContext): Read<string> {
  const { today, timeZone, locale } = ctx.format.settings;
  const choice = text(form, 'when') || 'now';
  if (choice === 'now') return { ok: true, body: instant(ctx.now) };
  const time = text(form, 'time') === '' ? '12:00' : readTime(text(form, 'time'));
  if (time === null) return fault('time', words.log.needTime);
  if (choice === 'earlier') return { ok: true, body: early(instantOf(today, time, timeZone), ctx.now) };
  if (choice === 'yesterday') return { ok: true, body: instantOf(addDays(today, -1), time, timeZone) };
  const day = readDay(text(form, 'day'), today, locale === 'en-US');
  return day === null ? fault('day', words.log.needDay) : { ok: true, body: instantOf(day, time, timeZone) };
}

/** Noon stands in for a time nobody typed; before noon it would lie ahead. */
function early(wanted: string, now: Date): string {
  return wanted > instant(now) ? instant(now) : wanted;
}

export interface Weight {
  readonly massKg: number;
  /** The scale's own number: with a container on it, `massKg` is less by what that weighs empty. */
  readonly typed: { readonly value: number; readonly unit: MassUnit };
  readonly tare: ContainerChoice | null;
}

/** A weight in the chosen unit, or in the one typed behind it, without the container it was weighed in. */
export function readWeight(form: FormData, ctx: FormContext): Read<Weight> {
  const typed = text(form, 'weight');
  const amount = readAmount(typed);
  const unit = ('unit' in amount && amount.unit) || unitOf(text(form, 'unit')) || ctx.format.massUnit;
  if (amount.status === 'unclear') {
    const { readings } = amount;
    return { ok: false, faults: [{ field: 'weight', text: words.log.unclear(typed) }], unclear: { readings, unit } };
  }
  if (amount.status !== 'ok' || amount.value <= 0) return fault('weight', words.log.needWeight);
  const tare = ctx.containers.find((c) => c.id === text(form, 'tare')) ?? null;
  const massKg = netKg(toKg(amount.value, unit), tare?.tareKg ?? 0);
  if (tare !== null && massKg <= 0) return fault('weight', words.noting.noMoreThanTare(tare.name, ctx.format.massExact(tare.tareKg)));
  if (massKg <= 0) return fault('weight', words.log.needWeight);
  return { ok: true, body: { massKg, typed: { value: amount.value, unit }, tare } };
}

type FeedingItem = BodyOf<'logFeeding'>['items'][number];

function readItem(form: FormData, ctx: FormContext): Read<FeedingItem> {
  const materialId = text(form, 'otherFood') || text(form, 'food');
  if (materialId === '') return fault('food', words.log.needFood);
  const amount = text(form, 'amount');
  const container = ctx.containers.find((c) => amount === `container:${c.id}`);
  if (container) {
    const count = Number(text(form, 'count') || '1');
    return {
      ok: true,
      body: {
        materialId,
        massKg: toKg(container.fullKg * count, 'kg'),
        how: 'container',
        containerId: container.id,
        containerCount: count,
        typed: { value: count, unit: 'container' },
      },
    };
  }
  // A typed weight says enough, even where nobody pressed "by weight".
  if (amount !== 'weight' && text(form, 'weight') === '') return fault('amount', words.log.needAmount);
  const weight = readWeight(form, ctx);
  if (!weight.ok) return weight;
  const { tare, ...body } = weight.body;
  const scale = tare ? { containerId: tare.id, tareKg: tare.tareKg } : { containerId: null };
  return { ok: true, body: { materialId, ...body, how: form.get('guessed') ? 'guessed' : 'weighed', ...scale } };
}

export function readFeeding(form: FormData, ctx: FormContext): Read<BodyOf<'logFeeding'>> {
  const earlier = form.getAll('item').map((item) => JSON.parse(String(item)) as FeedingItem);
  const untouched = earlier.length > 0 && text(form, 'amount') === '' && text(form, 'weight') === '';
  const item = untouched ? null : readItem(form, ctx);
  if (item !== null && !item.ok) return item;
  const zone = Number(text(form, 'zone') || (ctx.zones === 1 ? '1' : ''));
  if (!Number.isInteger(zone) || zone < 1 || zone > ctx.zones) return fault('zone', words.log.needZone);
  const when = readWhen(form, ctx);
  if (!when.ok) return when;
  const beddingKg = Number(text(form, 'bedding') || '0');
  return {
    ok: true,
    body: {
      id: text(form, 'id'),
      binId: ctx.binId,
      happenedAt: when.body,
      deviceAt: instant(ctx.now),
      note: text(form, 'note'),
      zone,
      items: item === null ? earlier : [...earlier, item.body],
      beddingKg,
      beddingMaterialId: beddingKg > 0 ? text(form, 'beddingMaterial') || null : null,
      waterKg: Number(text(form, 'water') || '0'),
    },
  };
}

export function readCheck(form: FormData, ctx: FormContext): Read<BodyOf<'logCheck'>> {
  type Check = BodyOf<'logCheck'>;
  const pick = <T>(name: string) => (text(form, name) || null) as T | null;
  const leftover = Array.from({ length: ctx.zones }, (_, i) => i + 1).flatMap((zone) => {
    const left = text(form, `left-${zone}`);
    return left === '' ? [] : [{ zone, left: left as NonNullable<Check['leftover']>[number]['left'] }];
  });
  const tempTyped = text(form, 'temp');
  const temp = tempTyped === '' ? null : Number(tempTyped.replace(',', '.').replace(/\s*°?\s*[cf]$/i, ''));
  if (temp !== null && !Number.isFinite(temp)) return fault('temp', words.log.needTemp);
  const phTyped = text(form, 'ph');
  const ph = phTyped === '' ? null : Number(phTyped.replace(',', '.'));
  if (ph !== null && !(ph >= 0 && ph <= 14)) return fault('ph', words.log.needPh);
  const when = readWhen(form, ctx);
  if (!when.ok) return when;
  const body: Check = {
    id: text(form, 'id'),
    binId: ctx.binId,
    happenedAt: when.body,
    deviceAt: instant(ctx.now),
    note: text(form, 'note'),
    leftover,
    squeeze: pick<NonNullable<Check['squeeze']>>('squeeze'),
    smell: pick<NonNullable<Check['smell']>>('smell'),
    worms: pick<NonNullable<Check['worms']>>('worms'),
    bedTempC: temp === null ? null : Math.round(toCelsius(temp, ctx.format.tempUnit) * 10) / 10,
    ph,
    visitors: form.getAll('visitor').map(String) as NonNullable<Check['visitors']>,
  };
  const empty =
    leftover.length === 0 && !body.squeeze && !body.smell && !body.worms && temp === null && ph === null && body.visitors?.length === 0;
  return empty ? fault('squeeze', words.log.needSomething) : { ok: true, body };
}
