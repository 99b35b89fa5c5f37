import { expect, test } from 'vitest';
import { columnField, containerField, nameField, readAnswers } from './read-answers.ts';

function formOf(fields: Readonly<Record<string, string>>): FormData {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.set(name, value);
  return form;
}

test('readAnswers() reads columns, names with points in them, and containers in the unit of the reader', () => {
  const form = formOf({
    [columnField('date')]: '0',
    [columnField('note')]: 'none',
    [columnField('time')]: '',
    [nameField('person', 'otis b. barrow')]: 'id-1',
    [nameField('bin', '')]: 'id-2',
    [containerField('big bucket')]: '8,5',
    [containerField('bag')]: '',
    dateOrder: 'day-first',
    shortYears: 'yes',
    unit: '',
  });
  expect(readAnswers(form, 1000)).toEqual({
    columns: { date: 0, note: null },
    names: { person: { 'otis b. barrow': 'id-1' }, bin: { '': 'id-2' } },
    containers: { 'big bucket': 8500 },
    dateOrder: 'day-first',
    shortYears: true,
    mark: null,
    unit: null,
    tempUnit: null,
  });
});
