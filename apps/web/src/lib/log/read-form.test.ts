import { CheckNew, FeedingNew, HarvestNew } from '@middenry/contract';
import { describe, expect, it } from 'vitest';
import { makeFormat } from '../format/format.ts';
import { uuid7 } from '../shared/uuid7.ts';
import { type FormContext, readCheck, readFeeding, readHarvest, readWhen } from './read-form.ts';

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
