import { expect, test } from 'vitest';
import { REFUSAL_WORDS, type RefusalWords } from './refusal-words.ts';

const KEYS = Object.keys(REFUSAL_WORDS.en) as (keyof RefusalWords)[];
const said = (language: 'en' | 'es', key: keyof RefusalWords) => REFUSAL_WORDS[language][key]('first-thing', 'second-thing');

test('G11: why a file is not taken in is said in each language, with the same names in it', () => {
  expect(KEYS.length).toBeGreaterThan(25);
  expect(KEYS.filter((key) => said('en', key) === said('es', key))).toEqual([]);
  for (const name of ['first-thing', 'second-thing'])
    expect(KEYS.filter((key) => said('en', key).includes(name) !== said('es', key).includes(name))).toEqual([]);
});
