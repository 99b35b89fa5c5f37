import { ShiftNew } from '@middenry/contract';
import { describe, expect, it } from 'vitest';
import { makeFormat } from '../format/format.ts';
import { uuid7 } from '../shared/uuid7.ts';
import { readShiftForm } from './read-shift-form.ts';

const f = makeFormat({ units: 'metric', locale: 'en-GB', timeZone: 'Europe/London', today: '2026-11-25' });
const site = '019ac000-0000-7000-8000-000000000500';
function form(fields: Record<string, string>): FormData {
  const data = new FormData();
  for (const [name, value] of Object.entries({
    id: uuid7(),
    siteId: site,
    title: 'Saturday feeding',
    date: '2026-12-05',
    start: '10',
    minutes: '90',
    places: '3',
    ...fields,
  }))
    data.set(name, value);
  return data;
}

describe('readShiftForm()', () => {
  it('reads a weekly row of shifts as the contract wants it', () => {
    const read = readShiftForm(form({ repeat: 'weekly', weeks: '12', bin: '019ac000-0000-7000-8000-000000000002', duty: 'feed' }), f);
    expect(read).toMatchObject({ ok: true, body: { localTime: '10:00', weeks: 12, duties: [{ kind: 'feed' }] } });
    expect(ShiftNew.safeParse(read.ok && read.body).success).toBe(true);
  });
  it('takes a typed day, also one that lies ahead', () => {
    expect(readShiftForm(form({ date: '27 3 2027' }), f)).toMatchObject({ ok: true, body: { localDate: '2027-03-27', weeks: 1 } });
  });
  it.each([
    ['date', 'soon'],
    ['start', '25:00'],
    ['title', ' '],
    ['minutes', '5'],
    ['places', '0'],
  ])('names %s when it is %j', (field, value) => {
    const read = readShiftForm(form({ [field]: value }), f);
    expect(read.ok ? [] : read.faults.map((x) => x.field)).toEqual([field]);
  });
});
