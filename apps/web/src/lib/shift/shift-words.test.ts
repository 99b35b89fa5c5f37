import { describe, expect, it } from 'vitest';
import { makeFormat } from '../format/format.ts';
import { codesOf, dutiesInWords, jobsOf, openPlaces } from './shift-words.ts';
import type { Shift } from './types.ts';

const f = makeFormat({ units: 'metric', locale: 'en-GB', timeZone: 'Europe/London', today: '2026-11-25' });
const codes = codesOf([
  { id: 'a', code: 'R02' },
  { id: 'b', code: 'R05' },
  { id: 'c', code: 'R12' },
]);
const shift = {
  duties: [
    { binId: 'a', kind: 'feed' },
    { binId: 'c', kind: 'check' },
    { binId: 'b', kind: 'feed' },
  ],
  binIds: ['a', 'gone'],
  places: 3,
  taken: 1,
  cancelled: false,
  over: false,
} as unknown as Shift;

describe('shift words', () => {
  it('dutiesInWords() groups by what is to do', () => {
    expect(dutiesInWords(shift, codes, f)).toBe('Feed R02 and R05, check R12');
  });
  it('jobsOf() has one line per known bin', () => {
    expect(jobsOf(shift, codes).map((j) => `${j.code}: ${j.what}`)).toEqual(['R02: Feed', 'R12: Check', 'R05: Feed']);
  });
  it('openPlaces() never counts below none, nor on shifts that are over', () => {
    expect([
      openPlaces(shift),
      openPlaces({ ...shift, taken: 5 }),
      openPlaces({ ...shift, over: true }),
      openPlaces({ ...shift, cancelled: true }),
    ]).toEqual([2, 0, 0, 0]);
  });
});
