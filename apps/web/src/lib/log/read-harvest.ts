/** What was taken out: in one weight or several buckets, how wet it was, and where it goes. */
import type { Squeeze } from '@middenry/domain';
import type { BodyOf } from '../api/calls.ts';
import { readDay } from '../format/typed-day.ts';
import { toKg } from '../format/units.ts';
import { words } from '../messages/index.ts';
import { type Bucket, heldKg } from './buckets.ts';
import { type FormContext, fault, type Read, readWeight, readWhen, text, type Weight } from './read-form.ts';

export function readHarvest(form: FormData, ctx: FormContext): Read<BodyOf<'logHarvest'>> {
  const buckets = readBuckets(form, ctx);
  if (!buckets.ok) return buckets;
  const when = readWhen(form, ctx);
  if (!when.ok) return when;
  const more = readHarvestMore(form, ctx);
  if (!more.ok) return more;
  const { listed, last } = buckets.body;
  return {
    ok: true,
    body: {
      id: text(form, 'id'),
      binId: ctx.binId,
      happenedAt: when.body,
      deviceAt: ctx.now.toISOString(),
      note: text(form, 'note'),
      massKg: listed.length > 0 ? heldKg(listed) : (last?.massKg ?? 0),
      typed: listed.length > 1 ? null : (last?.typed ?? null),
      how: form.get('guessed') ? 'guessed' : 'weighed',
      destination: (text(form, 'destination') || 'stock') as BodyOf<'logHarvest'>['destination'],
      destinationNote: text(form, 'destinationNote'),
      ...(listed.length > 0 ? { buckets: [...listed] } : {}),
      ...more.body,
    },
  };
}

interface Buckets {
  /** Empty where one weight was typed and nothing stood under it. */
  readonly listed: readonly Bucket[];
  readonly last: Weight | null;
}

/** The buckets on the list and the one on the scale; with some on the list the scale may be empty. */
export function readBuckets(form: FormData, ctx: FormContext): Read<Buckets> {
  const earlier = form.getAll('bucket').map((bucket) => JSON.parse(String(bucket)) as Bucket);
  if (earlier.length > 0 && text(form, 'weight') === '') return { ok: true, body: { listed: earlier, last: null } };
  const weight = readWeight(form, ctx);
  if (!weight.ok) return weight;
  const { typed, tare } = weight.body;
  const onScale: Bucket = {
    grossKg: toKg(typed.value, typed.unit),
    tareKg: tare?.tareKg ?? 0,
    containerId: tare?.id ?? null,
    typed,
  };
  const isPlain = earlier.length === 0 && tare === null;
  return { ok: true, body: { listed: isPlain ? [] : [...earlier, onScale], last: weight.body } };
}

type HarvestMore = Pick<BodyOf<'logHarvest'>, 'moisture' | 'screened' | 'readyOn'>;

/** How wet, sieved or not, and when castings that cure are ready: all of it may be left out. */
function readHarvestMore(form: FormData, ctx: FormContext): Read<HarvestMore> {
  const typedDay = text(form, 'readyOn');
  const { today, locale } = ctx.format.settings;
  const isCuring = text(form, 'destination') === 'curing';
  const readyOn = typedDay === '' || !isCuring ? null : readDay(typedDay, today, locale === 'en-US');
  if (isCuring && typedDay !== '' && readyOn === null) return fault('readyOn', words.log.needDay);
  const moisture = readMoisture(form);
  if (!moisture.ok) return moisture;
  return {
    ok: true,
    body: {
      ...(moisture.body ? { moisture: moisture.body } : {}),
      ...(form.get('screened') ? { screened: true } : {}),
      ...(readyOn === null ? {} : { readyOn }),
    },
  };
}

/** What was weighed in the oven says more than a squeeze. */
function readMoisture(form: FormData): Read<NonNullable<HarvestMore['moisture']> | null> {
  const typed = (['dishG', 'wetG', 'dryG'] as const).map((name) => text(form, name));
  const squeeze = text(form, 'harvestSqueeze');
  if (typed.every((value) => value === ''))
    return { ok: true, body: squeeze === '' ? null : { how: 'squeeze', squeeze: squeeze as Squeeze } };
  const [dishG = 0, wetG = 0, dryG = 0] = typed.map((value) => Number(value.replace(',', '.')));
  const fits = dishG >= 0 && dishG < dryG && dryG <= wetG;
  return fits ? { ok: true, body: { how: 'oven', dishG, wetG, dryG } } : fault('wetG', words.harvest.needOven);
}
