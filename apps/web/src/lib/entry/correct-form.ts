import { EXPOSURES, type Leftover, type Smell, type Squeeze, VISITORS, type WormSighting } from '@middenry/domain';
import type { BodyOf } from '../api/calls.ts';
import type { Entry } from '../bin/types.ts';
import { readAmount } from '../format/amount.ts';
import { instantOf } from '../format/days.ts';
import type { Format } from '../format/format.ts';
import { readDay, readTime } from '../format/typed-day.ts';
import { fromCelsius, toCelsius, toKg } from '../format/units.ts';
import { words } from '../messages/index.ts';
import type { FieldFault } from '../shared/ErrorSummary.svelte';

type Correction = BodyOf<'correctEntry'>;
type Result = { readonly ok: true; readonly body: Correction } | { readonly ok: false; readonly faults: FieldFault[] };

const text = (form: FormData, name: string) => String(form.get(name) ?? '').trim();
const plain = (value: number) => String(Math.round(value * 1000) / 1000);

/** The fields of an entry as they stand in the form that corrects it. */
export function correctionFields(entry: Entry, f: Format): Record<string, string> {
  const fields: Record<string, string> = { day: entry.localDate, time: f.time(entry.happenedAt), note: entry.note };
  if (entry.kind === 'feeding') {
    fields.zone = String(entry.zone);
    fields.bedding = plain(f.massRaw(entry.beddingKg));
    fields.water = plain(entry.waterKg);
    for (const [i, item] of entry.items.entries()) {
      fields[`mass-${i}`] = plain(f.massRaw(item.massKg));
      fields[`food-${i}`] = item.materialId;
    }
  } else if (entry.kind === 'check') {
    Object.assign(fields, { squeeze: entry.squeeze ?? '', smell: entry.smell ?? '', worms: entry.worms ?? '' });
    fields.temp = entry.bedTempC === null ? '' : plain(fromCelsius(entry.bedTempC, f.tempUnit));
    fields.ph = entry.ph === null ? '' : plain(entry.ph);
    for (const { zone, left } of entry.leftover) fields[`left-${zone}`] = left;
  } else if ('massKg' in entry && entry.massKg !== null) fields.mass = plain(f.massRaw(entry.massKg));
  if (entry.kind === 'care' || entry.kind === 'worms') fields.share = entry.share === null ? '' : String(entry.share);
  if (entry.kind === 'care')
    Object.assign(fields, { exposure: entry.exposure ?? '', place: entry.zone === null ? '' : String(entry.zone) });
  if (entry.kind === 'worms') fields.otherBinId = entry.otherBinId ?? '';
  if (entry.kind === 'harvest') Object.assign(fields, { destination: entry.destination, destinationNote: entry.destinationNote });
  return fields;
}

/** The entry with what was typed put in; what the form does not show stays as it was. */
export function readCorrection(entry: Entry, form: FormData, f: Format): Result {
  const faults: FieldFault[] = [];
  const mass = (field: string, otherwise: number, least: number): number => {
    const amount = readAmount(text(form, field));
    if (amount.status === 'empty' && least === 0) return 0;
    const kg = amount.status === 'ok' ? toKg(amount.value, amount.unit ?? f.massUnit) : Number.NaN;
    if (kg >= least) return kg;
    faults.push({ field, text: words.log.needWeight });
    return otherwise;
  };
  const day = readDay(text(form, 'day'), f.settings.today, f.settings.locale === 'en-US');
  const time = readTime(text(form, 'time'));
  if (day === null) faults.push({ field: 'day', text: words.log.needDay });
  if (time === null) faults.push({ field: 'time', text: words.log.needTime });
  const sameMinute = day === entry.localDate && time === f.time(entry.happenedAt);
  const happenedAt = sameMinute || day === null || time === null ? entry.happenedAt : instantOf(day, time, f.settings.timeZone);
  const base = { binId: entry.binId, happenedAt, shiftId: entry.shiftId, note: text(form, 'note') };
  const body = bodyOf(entry, form, f, base, mass);
  return faults.length > 0 ? { ok: false, faults } : { ok: true, body };
}

type Base = { binId: string; happenedAt: string; shiftId: string | null; note: string };
type Mass = (field: string, otherwise: number, least: number) => number;
const LEAST_KG = 0.001;

function bodyOf(entry: Entry, form: FormData, f: Format, base: Base, mass: Mass): Correction {
  switch (entry.kind) {
    case 'feeding':
      return {
        ...base,
        kind: 'feeding',
        zone: Number(text(form, 'zone')) || entry.zone,
        items: entry.items.map((item, i) => {
          const massKg = mass(`mass-${i}`, item.massKg, LEAST_KG);
          const same = Math.abs(massKg - item.massKg) < LEAST_KG;
          const rest = { materialId: text(form, `food-${i}`) || item.materialId, massKg, preparation: item.preparation };
          // A weight typed over a container is a weight, and no longer so many buckets.
          return same
            ? {
                ...{ ...rest, how: item.how, containerId: item.containerId, containerCount: item.containerCount },
                ...{ typed: item.typed, tareKg: item.tareKg },
              }
            : { ...rest, how: 'weighed' as const };
        }),
        beddingKg: mass('bedding', entry.beddingKg, 0),
        beddingMaterialId: entry.beddingMaterialId,
        waterKg: mass('water', entry.waterKg, 0),
      };
    case 'check':
      return { ...base, kind: 'check', ...checkFields(form, f) };
    case 'harvest':
      return { ...base, kind: 'harvest', ...harvestFields(entry, form, mass('mass', entry.massKg, LEAST_KG)) };
    case 'care': {
      const massKg = entry.massKg === null ? null : mass('mass', entry.massKg, LEAST_KG);
      return {
        ...base,
        kind: 'care',
        action: entry.action,
        zone: form.has('place') ? Number(text(form, 'place')) || null : entry.zone,
        massKg,
        materialId: entry.materialId,
        exposure: entry.exposure === null ? null : (EXPOSURES.find((x) => x === text(form, 'exposure')) ?? entry.exposure),
        share: shareOf(entry.share, form),
      };
    }
    case 'note':
      return { ...base, kind: 'note' };
    case 'worms': {
      const massKg = entry.massKg === null ? null : mass('mass', entry.massKg, LEAST_KG);
      return {
        ...base,
        kind: 'worms',
        direction: entry.direction,
        massKg,
        how: entry.how,
        share: shareOf(entry.share, form),
        otherBinId: form.has('otherBinId') ? text(form, 'otherBinId') || null : entry.otherBinId,
      };
    }
    default:
      return entry satisfies never;
  }
}

type Harvest = Extract<Entry, { kind: 'harvest' }>;
type SentMoisture = NonNullable<Extract<Correction, { kind: 'harvest' }>['moisture']>;

/** A weight typed over several buckets is a weight, and no longer so many buckets. */
function harvestFields(entry: Harvest, form: FormData, massKg: number) {
  const same = Math.abs(massKg - entry.massKg) < LEAST_KG;
  const destination = text(form, 'destination') as Harvest['destination'];
  const isCuring = destination === 'curing' && entry.destination === 'curing';
  return {
    massKg: same ? entry.massKg : massKg,
    how: entry.how,
    typed: same ? entry.typed : null,
    buckets: same ? entry.buckets.map(({ massKg: _, ...bucket }) => bucket) : [],
    moisture: moistureAgain(entry),
    ...(entry.screened === null ? {} : { screened: entry.screened }),
    volumeL: entry.volumeL,
    readyOn: isCuring ? entry.readyOn : null,
    destination,
    destinationNote: text(form, 'destinationNote'),
  };
}

function moistureAgain({ moisture }: Harvest): SentMoisture | null {
  if (moisture === null) return null;
  const { squeeze, dishG, wetG, dryG } = moisture;
  if (squeeze !== null) return { how: 'squeeze', squeeze };
  return dishG === null || wetG === null || dryG === null ? null : { how: 'oven', dishG, wetG, dryG };
}

/** An entry that says no share keeps none; one that does keeps its own where nothing else was chosen. */
function shareOf(was: number | null, form: FormData): number | null {
  const typed = Number(text(form, 'share'));
  return was === null ? null : typed > 0 && typed <= 1 ? typed : was;
}

function checkFields(form: FormData, f: Format) {
  const number = (name: string) => {
    const typed = text(form, name).replace(',', '.');
    return typed === '' || !Number.isFinite(Number(typed)) ? null : Number(typed);
  };
  const temp = number('temp');
  return {
    squeeze: (text(form, 'squeeze') || null) as Squeeze | null,
    smell: (text(form, 'smell') || null) as Smell | null,
    worms: (text(form, 'worms') || null) as WormSighting | null,
    bedTempC: temp === null ? null : Math.round(toCelsius(temp, f.tempUnit) * 10) / 10,
    ph: number('ph'),
    leftover: leftoversIn(form),
    visitors: VISITORS.filter((v) => form.getAll('visitor').includes(v)),
  };
}

/** Of every zone that has a word in the form; a zone set back to nothing noted is gone from the check. */
function leftoversIn(form: FormData): { zone: number; left: Leftover }[] {
  return [...form.keys()]
    .flatMap((name) => (name.startsWith('left-') ? [Number(name.slice('left-'.length))] : []))
    .sort((a, b) => a - b)
    .flatMap((zone) => {
      const left = text(form, `left-${zone}`);
      return left === '' ? [] : [{ zone, left: left as Leftover }];
    });
}
