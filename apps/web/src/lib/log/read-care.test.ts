import { CareNew, NoteNew, WormsNew } from '@middenry/contract';
import { describe, expect, it } from 'vitest';
import { makeFormat } from '../format/format.ts';
import { uuid7 } from '../shared/uuid7.ts';
import { CARE_ACTIONS, CARE_ASKS, readCare, readNote, readWorms, STATE_ACTIONS } from './read-care.ts';
import type { FormContext } from './read-form.ts';

const ctx: FormContext = {
  binId: '019ac000-0000-7000-8000-000000000002',
  zones: 4,
  containers: [],
  format: makeFormat({ units: 'metric', locale: 'en-GB', timeZone: 'Europe/London', today: '2026-11-25' }),
  now: new Date('2026-11-25T08:40:00Z'),
};
const FULL = { weight: '1.5', zone: '3', exposure: 'shade', share: '0.5', material: 'newsprint', note: 'Seen' };
function form(fields: Record<string, string>): FormData {
  const data = new FormData();
  for (const [name, value] of Object.entries({ id: uuid7(), ...fields })) data.set(name, value);
  return data;
}

describe('readCare()', () => {
  it.each([...CARE_ACTIONS, ...STATE_ACTIONS])('gives a %s that the contract takes', (action) => {
    const read = readCare(form({ ...FULL, action }), ctx);
    expect(CareNew.safeParse(read.ok && read.body).error?.issues).toBeUndefined();
  });
  it.each([...CARE_ACTIONS])('asks for what a %s cannot do without', (action) => {
    const needs = CARE_ASKS[action]
      .filter((ask) => ask.endsWith('!'))
      .map((ask) => ({ 'mass!': 'weight', 'exposure!': 'exposure', 'share!': 'share' })[ask as 'mass!']);
    const read = readCare(form({ action }), ctx);
    expect(read.ok ? [] : read.faults.map((x) => x.field)).toEqual(needs);
  });
  it('takes a zone the bin does not have as the whole bin, and no action as a fault', () => {
    expect(readCare(form({ action: 'loosened', zone: '9' }), ctx)).toMatchObject({ ok: true, body: { zone: null } });
    expect(readCare(form({}), ctx).ok).toBe(false);
  });
});

describe('readNote() and readWorms()', () => {
  it('give what the contract takes', () => {
    const note = readNote(form({ note: 'The lid is cracked.' }), ctx);
    expect(NoteNew.safeParse(note.ok && note.body).success).toBe(true);
    for (const direction of ['added', 'given-away', 'split-off']) {
      const worms = readWorms(form({ ...FULL, direction }), ctx);
      expect(WormsNew.safeParse(worms.ok && worms.body).error?.issues).toBeUndefined();
    }
  });
  it('refuse an empty note and worms without an amount', () => {
    expect(readNote(form({}), ctx).ok).toBe(false);
    expect(readWorms(form({ direction: 'added' }), ctx).ok).toBe(false);
    expect(readWorms(form({ direction: 'given-away' }), ctx).ok).toBe(false);
  });
});
