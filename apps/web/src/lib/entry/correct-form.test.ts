import { EntryCorrection } from '@middenry/contract';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../bin/types.ts';
import { makeFormat } from '../format/format.ts';
import { correctionFields, readCorrection } from './correct-form.ts';

const f = makeFormat({ units: 'metric', locale: 'en-GB', timeZone: 'Europe/London', today: '2026-11-25' });
const ID = '019ac000-0000-7000-8000-000000000002';
const tail = {
  id: ID,
  binId: ID,
  binCode: 'R02',
  happenedAt: '2026-11-24T10:12:33Z',
  localDate: '2026-11-24',
  receivedAt: '2026-11-24T10:12:34Z',
  by: null,
  mine: true,
  shiftId: null,
  note: 'Dry on top.',
  revision: 1,
  undoneAt: null,
  clockSkewed: false,
};
const item = {
  materialId: 'lettuce',
  materialName: 'Lettuce',
  massKg: 1.6,
  how: 'container',
  preparation: 'chopped',
  containerId: ID,
  containerCount: 1,
  tareKg: 0,
  typed: { value: 1, unit: 'container' },
};
const ENTRIES = [
  { ...tail, kind: 'feeding', zone: 4, items: [item], massKg: 1.6, beddingKg: 0.3, beddingMaterialId: null, waterKg: 0 },
  {
    ...tail,
    kind: 'check',
    leftover: [{ zone: 4, left: 'most' }],
    squeeze: 'damp',
    smell: null,
    bedTempC: 21.5,
    worms: 'many',
    ph: null,
    visitors: ['mites'],
  },
  {
    ...{ ...tail, kind: 'harvest', massKg: 6.25, how: 'weighed', typed: null, destination: 'curing', destinationNote: '' },
    buckets: [
      { grossKg: 4.4, tareKg: 0.4, massKg: 4, containerId: ID, typed: { value: 4.4, unit: 'kg' } },
      { grossKg: 2.25, tareKg: 0, massKg: 2.25, containerId: null, typed: null },
    ],
    moisture: { how: 'oven', squeeze: null, dishG: 4, wetG: 54, dryG: 18, moistureFracWb: 0.72, lowFracWb: 0.72, highFracWb: 0.72 },
    ...{ screened: true, volumeL: 10, readyOn: '2026-12-15', correctedKg: 5 },
  },
  { ...tail, kind: 'care', action: 'watered', zone: 2, massKg: 1, materialId: null, materialName: null, exposure: null, share: null },
  { ...tail, kind: 'note' },
  { ...tail, kind: 'worms', direction: 'added', massKg: 0.5, how: 'guessed', share: null, otherBinId: null, otherBinCode: null },
] as unknown as Entry[];

function form(entry: Entry, changes: Record<string, string> = {}): FormData {
  const data = new FormData();
  for (const [name, value] of Object.entries({ ...correctionFields(entry, f), ...changes })) data.set(name, value);
  if (entry.kind === 'check') for (const v of entry.visitors) data.append('visitor', v);
  return data;
}

describe('readCorrection()', () => {
  it.each(ENTRIES.map((e) => [e.kind, e] as const))('gives back a %s as it was when nothing was changed', (_kind, entry) => {
    const read = readCorrection(entry, form(entry), f);
    expect(read.ok).toBe(true);
    expect(EntryCorrection.safeParse(read.ok && read.body).error?.issues).toBeUndefined();
    const body = read.ok ? (read.body as Record<string, unknown>) : {};
    const was = entry as unknown as Record<string, unknown>;
    for (const name of [
      'happenedAt',
      'note',
      'zone',
      'massKg',
      'beddingKg',
      'squeeze',
      'bedTempC',
      'leftover',
      'visitors',
      'destination',
      'readyOn',
      'screened',
      'volumeL',
      'action',
    ]) {
      if (name in body) expect(body[name]).toEqual(was[name]);
    }
  });

  it('turns a container into a weight when the weight is typed over', () => {
    const read = readCorrection(ENTRIES[0] as Entry, form(ENTRIES[0] as Entry, { 'mass-0': '2,5', zone: '3', day: '23 11 2026' }), f);
    expect(read).toMatchObject({
      ok: true,
      body: { zone: 3, happenedAt: '2026-11-23T10:12:00Z', items: [{ massKg: 2.5, how: 'weighed' }] },
    });
  });

  it('a harvest keeps its buckets and its moisture while its weight is the same', () => {
    const harvest = ENTRIES[2] as Entry;
    const kept = readCorrection(harvest, form(harvest, { note: 'sieved' }), f);
    expect(kept).toMatchObject({
      ok: true,
      body: {
        buckets: [
          { grossKg: 4.4, tareKg: 0.4, containerId: ID },
          { grossKg: 2.25, tareKg: 0 },
        ],
        moisture: { how: 'oven', dishG: 4, wetG: 54, dryG: 18 },
      },
    });
    const typedOver = readCorrection(harvest, form(harvest, { mass: '6', destination: 'beds' }), f);
    expect(typedOver).toMatchObject({ ok: true, body: { massKg: 6, buckets: [], readyOn: null, screened: true } });
  });

  it('takes what was left in a zone that the check had not looked into, and takes a zone out again', () => {
    const check = ENTRIES[1] as Entry;
    const added = readCorrection(check, form(check, { 'left-2': 'none', 'left-3': '' }), f);
    expect(added).toMatchObject({
      ok: true,
      body: {
        leftover: [
          { zone: 2, left: 'none' },
          { zone: 4, left: 'most' },
        ],
      },
    });
    expect(readCorrection(check, form(check, { 'left-4': '' }), f)).toMatchObject({ ok: true, body: { leftover: [] } });
  });

  it('names what does not fit', () => {
    const read = readCorrection(ENTRIES[2] as Entry, form(ENTRIES[2] as Entry, { mass: '1,500', day: 'soon' }), f);
    expect(read.ok ? [] : read.faults.map((x) => x.field)).toEqual(['day', 'mass']);
  });
});
