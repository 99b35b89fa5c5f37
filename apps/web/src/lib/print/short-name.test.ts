import { expect, it } from 'vitest';
import { shortName } from './short-name.ts';

it.each([
  ['Marlow Sedgwick', 'Marlow S.'],
  ['Sorrel A.', 'Sorrel A.'],
  ['Íñigo de la Éboli', 'Íñigo É.'],
  ['Wilf', 'Wilf'],
  ['', ''],
])('%j stands on a printed sheet as %j', (name, shown) => {
  expect(shortName(name)).toBe(shown);
});
