import { describe, expect, it } from 'vitest';
import { readIntakeForm } from './read-intake-form.ts';

const formOf = (fields: Record<string, string>) => {
  const form = new FormData();
  for (const [name, value] of Object.entries({ id: 'i', siteId: 's', on: '2026-12-01', ...fields })) form.set(name, value);
  return form;
};

describe('readIntakeForm()', () => {
  it('takes the lines that are filled in, in the unit that is shown or typed', () => {
    const read = readIntakeForm(
      formOf({
        'from-1': 'Cafe by the mill',
        'what-1': 'coffee_grounds',
        'mass-1': '2,5',
        'from-3': 'Kitchen',
        'what-3': 'apple',
        'mass-3': '900 g',
      }),
      'kg',
    );
    expect(read.ok && read.body.streams).toEqual([
      { source: 'Cafe by the mill', materialId: 'coffee_grounds', massKg: 2.5 },
      { source: 'Kitchen', materialId: 'apple', massKg: 0.9 },
    ]);
  });

  it('names each field of a line that is only begun, and asks for one at least', () => {
    const faultsOf = (fields: Record<string, string>) => {
      const read = readIntakeForm(formOf(fields), 'kg');
      return read.ok ? [] : read.faults.map(({ field }) => field);
    };
    expect(faultsOf({ 'from-2': 'Kitchen', 'mass-2': '1,500' })).toEqual(['what-2', 'mass-2']);
    expect(faultsOf({})).toEqual(['from-1']);
    expect(faultsOf({ 'from-1': 'Kitchen', 'what-1': 'apple', 'mass-1': '1', on: '' })).toEqual(['on']);
  });
});
