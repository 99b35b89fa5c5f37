import { expect, it } from 'vitest';
import { typedCode } from './typed-code.ts';

it.each([
  ['T1', 'T1'],
  [' t1 ', 'T1'],
  ['t-1', 'T1'],
  ['f 12', 'F12'],
  ['https://bins.example.org/b/T1', 'T1'],
  ['bins.example.org/b/t1/', 'T1'],
  ['', ''],
  ['?!', ''],
])('%j is read as %j', (typed, code) => {
  expect(typedCode(typed)).toBe(code);
});
