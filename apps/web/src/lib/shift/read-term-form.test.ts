import { describe, expect, it } from 'vitest';
import { readTermForm, readWishes } from './read-term-form.ts';

const formOf = (fields: Record<string, string>) => {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.set(name, value);
  return form;
};
const TERM = {
  id: 'i',
  siteId: 's',
  name: 'Spring',
  from: '2027-03-01',
  to: '2027-05-31',
  opens: '2027-03-29',
  opensAt: '9',
  way: 'draw',
  cap: '',
};

describe('a term of sign-up', () => {
  it('readTermForm() opens at the local time, summer time too', () => {
    expect(readTermForm(formOf(TERM), 'Europe/London')).toMatchObject({ body: { opensAt: '2027-03-29T08:00:00Z', way: 'draw', cap: 2 } });
  });
  it('readTermForm() points at every field that is missing', () => {
    const read = readTermForm(formOf({ cap: '0' }), 'Europe/London');
    expect(!read.ok && read.faults.map((x) => x.field)).toEqual(['from', 'to', 'opens', 'opensAt', 'name', 'cap']);
  });
  it('readWishes() orders by number and leaves out what is empty', () => {
    expect(readWishes(formOf({ most: '3', 'rank-a': '10', 'rank-b': '', 'rank-c': '2' }), ['a', 'b', 'c'])).toEqual({
      ok: true,
      body: { most: 3, shiftIds: ['c', 'a'] },
    });
  });
  it('readWishes() refuses a number twice and what is no number', () => {
    const read = readWishes(formOf({ 'rank-a': '1', 'rank-b': '1', 'rank-c': 'x' }), ['a', 'b', 'c']);
    expect(!read.ok && read.faults.map((x) => x.field)).toEqual(['rank-a', 'rank-b', 'rank-c']);
  });
});
