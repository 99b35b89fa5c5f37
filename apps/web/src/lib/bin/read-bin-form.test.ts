import { BinChange, BinNew } from '@middenry/contract';
import { describe, expect, it } from 'vitest';
import { uuid7 } from '../shared/uuid7.ts';
import { readChangedBin, readNewBin } from './read-bin-form.ts';

function form(changes: Record<string, string> = {}): FormData {
  const data = new FormData();
  const usual = {
    id: uuid7(),
    siteId: uuid7(),
    code: 'r07',
    name: '',
    kind: 'flow-through',
    areaM2: '1,2',
    depthM: '0.5',
    zones: '6',
    exposure: 'shade',
    checkIntervalDays: '7',
    placeOrder: '3',
    note: '',
    startedOn: '2026-11-20',
  };
  for (const [name, value] of Object.entries({ ...usual, ...changes })) data.set(name, value);
  return data;
}

describe('readNewBin()', () => {
  it('fills in what is usual for the size and takes what was typed', () => {
    const read = readNewBin(form({ worms: '0.8' }), '2026-11-25');
    expect(read).toMatchObject({
      ok: true,
      body: { code: 'R07', name: 'R07', areaM2: 1.2, wormsKg: 0.8, bedWaterKg: 24, bed: [{ massKg: 12 }] },
    });
    expect(BinNew.safeParse(read.ok && read.body).error?.issues).toBeUndefined();
  });
  it.each(['areaM2', 'depthM', 'zones', 'checkIntervalDays', 'placeOrder', 'startedOn'])('names %s when it does not fit', (field) => {
    const read = readNewBin(form({ [field]: 'x' }), '2026-11-25');
    expect(read.ok ? [] : read.faults.map((x) => x.field)).toEqual([field]);
  });
});

describe('readChangedBin()', () => {
  it('gives what the contract takes', () => {
    const read = readChangedBin(form({ openBase: 'on' }));
    expect(BinChange.safeParse(read.ok && read.body).error?.issues).toBeUndefined();
    expect(read).toMatchObject({ ok: true, body: { openBase: true } });
  });
});
