import { CastingsMoveNew } from '@middenry/contract';
import { describe, expect, it } from 'vitest';
import { makeFormat } from '../format/format.ts';
import { readMove } from './read-move.ts';

const metric = makeFormat({ units: 'metric', locale: 'en-GB', timeZone: 'Europe/London', today: '2026-11-25' });
const us = makeFormat({ units: 'us', locale: 'en-US', timeZone: 'America/New_York', today: '2026-11-25' });
const ID = '019ac000-0000-7000-8000-000000000002';
function form(fields: Record<string, string>): FormData {
  const data = new FormData();
  for (const [name, value] of Object.entries({ id: ID, siteId: ID, kind: 'given-out', destination: 'class', ...fields }))
    data.set(name, value);
  return data;
}

describe('readMove()', () => {
  it('reads what was given out, to whom and when, and keeps the number as it was typed', () => {
    const read = readMove(form({ mass: '2,5', destinationNote: 'Year 5', receiver: 'Nell A.', day: '24 11 2026' }), metric);
    expect(read).toMatchObject({
      ok: true,
      body: { massKg: 2.5, typed: { value: 2.5, unit: 'kg' }, destination: 'class', receiver: 'Nell A.', on: '2026-11-24' },
    });
    expect(CastingsMoveNew.safeParse(read.ok && read.body).error?.issues).toBeUndefined();
  });

  it('reads pounds, and today where no day was typed', () => {
    const read = readMove(form({ mass: '2' }), us);
    expect(read.ok && [Math.round(read.body.massKg * 1000), read.body.typed, read.body.on]).toEqual([
      907,
      { value: 2, unit: 'lb' },
      undefined,
    ]);
  });

  it('what was brought in was given to nobody, whatever stands in the form', () => {
    const read = readMove(form({ mass: '3', kind: 'brought-in', receiver: 'Nell A.' }), metric);
    expect(read).toMatchObject({ ok: true, body: { destination: null, receiver: null } });
    expect(CastingsMoveNew.safeParse(read.ok && read.body).error?.issues).toBeUndefined();
  });

  it('names what does not fit', () => {
    const read = readMove(form({ mass: '1,500', day: 'soon' }), metric);
    expect(read.ok ? [] : read.faults.map((x) => x.field)).toEqual(['mass', 'day']);
    expect(readMove(form({ mass: '' }), metric).ok).toBe(false);
  });
});
