import { CheckNew, FeedingNew, HarvestNew } from '@middenry/contract';
import { describe, expect, it } from 'vitest';
import { makeFormat } from '../format/format.ts';
import { uuid7 } from '../shared/uuid7.ts';
import { type FormContext, readCheck, readFeeding, readWhen } from './read-form.ts';
import { readBuckets, readHarvest } from './read-harvest.ts';

const caddy = { id: '019ac000-0000-7000-8000-000000000601', name: 'Blue caddy', fullKg: 1.6, tareKg: 0.3 };
const ctx: FormContext = {
  binId: '019ac000-0000-7000-8000-000000000002',
  zones: 6,
  containers: [caddy],
  format: makeFormat({ units: 'metric', locale: 'en-GB', timeZone: 'Europe/London', today: '2026-11-25' }),
  now: new Date('2026-11-25T08:40:00Z'),
};
function form(fields: Record<string, string | string[]>): FormData {
  const data = new FormData();
  data.set('id', uuid7());
  for (const [name, value] of Object.entries(fields)) for (const one of [value].flat()) data.append(name, one);
  return data;
}

describe('readFeeding()', () => {
  it('reads a container as the contract wants it', () => {
    const read = readFeeding(form({ food: 'lettuce', amount: `container:${caddy.id}`, count: '2', zone: '5', bedding: '0.3' }), ctx);
    expect(read).toMatchObject({
      ok: true,
      body: { zone: 5, beddingKg: 0.3, items: [{ massKg: 3.2, how: 'container', containerCount: 2 }] },
    });
    expect(FeedingNew.safeParse(read.ok && read.body).success).toBe(true);
  });
  it('says what the bedding is, and nothing of it where none went in', () => {
    const fields = { food: 'lettuce', amount: 'weight', weight: '1', zone: '1', beddingMaterial: 'newsprint_shredded' };
    expect(readFeeding(form({ ...fields, bedding: '0.2' }), ctx)).toMatchObject({ body: { beddingMaterialId: 'newsprint_shredded' } });
    expect(readFeeding(form({ ...fields, bedding: '0' }), ctx)).toMatchObject({ body: { beddingMaterialId: null } });
  });
  it('keeps the unit as typed', () => {
    const read = readFeeding(form({ food: 'lettuce', amount: 'weight', weight: '2 lb', zone: '1' }), ctx);
    expect(read).toMatchObject({ ok: true, body: { items: [{ massKg: 0.907, typed: { value: 2, unit: 'lb' }, how: 'weighed' }] } });
  });
  it('takes the empty container off a scale reading, keeps what the scale said, and which container it was', () => {
    const onScale = (weight: string) =>
      readFeeding(form({ food: 'lettuce', amount: 'weight', weight, unit: 'g', tare: caddy.id, zone: '1' }), ctx);
    const read = onScale('1900');
    expect(read).toMatchObject({
      ok: true,
      body: { items: [{ massKg: 1.6, typed: { value: 1900, unit: 'g' }, how: 'weighed', containerId: caddy.id }] },
    });
    expect(FeedingNew.safeParse(read.ok && read.body).success).toBe(true);
    expect(onScale('300')).toMatchObject({ ok: false, faults: [{ field: 'weight', text: expect.stringContaining('0.3') }] });
    expect(readHarvest(form({ weight: '2.5', tare: caddy.id }), ctx)).toMatchObject({ ok: true, body: { massKg: 2.2 } });
  });
  it('B7: a number is read in the chosen unit, and in the one typed behind it before that', () => {
    const mass = (weight: string, unit: string) => {
      const read = readHarvest(form({ weight, unit }), ctx);
      return read.ok ? read.body.massKg : null;
    };
    expect([mass('2', 'lb'), mass('2 kg', 'lb'), mass('8', 'oz'), mass('750', 'g'), mass('2', 'stone')]).toEqual([
      0.907, 2, 0.227, 0.75, 2,
    ]);
  });
  it('asks back where a weight can be read two ways', () => {
    expect(readFeeding(form({ food: 'lettuce', amount: 'weight', weight: '1,500', zone: '1' }), ctx)).toMatchObject({
      ok: false,
      unclear: { readings: [1.5, 1500], unit: 'kg' },
    });
  });
  it.each([
    ['amount', { food: 'lettuce', zone: '1' }],
    ['food', { amount: 'weight', weight: '1', zone: '1' }],
    ['zone', { food: 'lettuce', amount: 'weight', weight: '1', zone: '7' }],
    ['weight', { food: 'lettuce', amount: 'weight', weight: '-1', zone: '1' }],
    ['weight', { food: 'lettuce', amount: 'weight', weight: '0', zone: '1' }],
    ['day', { food: 'lettuce', amount: 'weight', weight: '1', zone: '1', when: 'other', day: 'soon' }],
  ])('names the field %s when it is missing or wrong', (field, fields) => {
    const read = readFeeding(form(fields), ctx);
    expect(read.ok ? [] : read.faults.map((x) => x.field)).toEqual([field]);
  });
  it('adds foods that were put on the list before', () => {
    const item = JSON.stringify({ materialId: 'apple', massKg: 0.5, how: 'weighed' });
    expect(readFeeding(form({ item, zone: '2' }), ctx)).toMatchObject({ ok: true, body: { items: [{ materialId: 'apple' }] } });
    expect(readFeeding(form({ item, zone: '2', food: 'lettuce', amount: 'weight', weight: '1' }), ctx)).toMatchObject({
      ok: true,
      body: { items: [{ materialId: 'apple' }, { materialId: 'lettuce' }] },
    });
  });
});

describe('readCheck()', () => {
  it('reads what was seen and leaves the rest open', () => {
    const read = readCheck(form({ squeeze: 'few-drops', 'left-4': 'most', temp: '21,5', visitor: ['mites', 'ants'] }), ctx);
    expect(read).toMatchObject({
      ok: true,
      body: { squeeze: 'few-drops', smell: null, leftover: [{ zone: 4, left: 'most' }], bedTempC: 21.5, visitors: ['mites', 'ants'] },
    });
    expect(CheckNew.safeParse(read.ok && read.body).success).toBe(true);
  });
  it('refuses a check in which nothing was seen', () => {
    expect(readCheck(form({ note: 'was here' }), ctx).ok).toBe(false);
  });
});

describe('readHarvest()', () => {
  it('reads weight and destination', () => {
    const read = readHarvest(form({ weight: '6.25', destination: 'beds' }), ctx);
    expect(HarvestNew.safeParse(read.ok && read.body).success).toBe(true);
    expect(read).toMatchObject({ ok: true, body: { massKg: 6.25, destination: 'beds', how: 'weighed' } });
  });
});

describe('readWhen()', () => {
  it('never lies ahead when a time was left out', () => {
    expect(readWhen(form({ when: 'earlier' }), ctx)).toEqual({ ok: true, body: '2026-11-25T08:40:00.000Z' });
    expect(readWhen(form({ when: 'yesterday', time: '17:15' }), ctx)).toEqual({ ok: true, body: '2026-11-24T17:15:00Z' });
    expect(readWhen(form({ when: 'other', day: '3 6 2026', time: '9' }), ctx)).toEqual({ ok: true, body: '2026-06-03T08:00:00Z' });
  });
});

describe('a harvest in buckets', () => {
  const weighed = (grossKg: number, tareKg: number) =>
    JSON.stringify({ grossKg, tareKg, containerId: null, typed: { value: grossKg, unit: 'kg' } });

  it('adds up what each bucket held, the one on the scale too', () => {
    // 6.5 - 0.4 = 6.1; 2.25; 1.9 - 0.3 = 1.6 on the scale: 9.95 kg.
    const read = readHarvest(form({ bucket: [weighed(6.5, 0.4), weighed(2.25, 0)], weight: '1,9', tare: caddy.id, unit: 'kg' }), ctx);
    expect(read).toMatchObject({ ok: true, body: { massKg: 9.95, typed: null, how: 'weighed', destination: 'stock' } });
    expect(read.ok && read.body.buckets?.map(({ grossKg, tareKg, containerId }) => [grossKg, tareKg, containerId])).toEqual([
      [6.5, 0.4, null],
      [2.25, 0, null],
      [1.9, 0.3, caddy.id],
    ]);
    expect(HarvestNew.safeParse(read.ok && read.body).error?.issues).toBeUndefined();
  });

  it('needs nothing on the scale when buckets are on the list, and something when none are', () => {
    expect(readHarvest(form({ bucket: weighed(6.5, 0.4), weight: '' }), ctx)).toMatchObject({ ok: true, body: { massKg: 6.1 } });
    expect(readBuckets(form({ weight: '' }), ctx).ok).toBe(false);
    expect(readBuckets(form({ bucket: weighed(6.5, 0.4), weight: '1,500' }), ctx).ok).toBe(false);
  });

  it('one weight with nothing under it is no bucket', () => {
    const read = readHarvest(form({ weight: '2.5' }), ctx);
    expect(read).toMatchObject({ ok: true, body: { massKg: 2.5, typed: { value: 2.5, unit: 'kg' } } });
    expect(read.ok && 'buckets' in read.body).toBe(false);
  });

  it('says how wet it was: by the oven where it was dried, else by the squeeze, else not at all', () => {
    const moisture = (fields: Record<string, string>) => {
      const read = readHarvest(form({ weight: '2.5', ...fields }), ctx);
      return read.ok ? read.body.moisture : read.faults.map(({ field }) => field);
    };
    const oven = { dishG: '4', wetG: '54', dryG: '18,5' };
    expect(moisture({ harvestSqueeze: 'damp', ...oven })).toEqual({ how: 'oven', dishG: 4, wetG: 54, dryG: 18.5 });
    expect(moisture({ harvestSqueeze: 'damp' })).toEqual({ how: 'squeeze', squeeze: 'damp' });
    expect(moisture({ harvestSqueeze: '' })).toBeUndefined();
    for (const wrong of [{ dryG: '3' }, { dryG: '55' }, { wetG: 'much' }, { dishG: '', dryG: '' }])
      expect(moisture({ ...oven, ...wrong })).toEqual(['wetG']);
  });

  it('is ready when it was said, where it cures, and only there', () => {
    const ready = (fields: Record<string, string>) => {
      const read = readHarvest(form({ weight: '2.5', ...fields }), ctx);
      return read.ok ? read.body.readyOn : read.faults.map(({ field }) => field);
    };
    expect(ready({ destination: 'curing', readyOn: '24 12 2026' })).toBe('2026-12-24');
    expect(ready({ destination: 'curing', readyOn: '' })).toBeUndefined();
    expect(ready({ destination: 'beds', readyOn: '24 12 2026' })).toBeUndefined();
    expect(ready({ destination: 'curing', readyOn: 'soon' })).toEqual(['readyOn']);
  });
});
