import { describe, expect, it } from 'vitest';
import { secretIn } from './secret-in.ts';

const SECRET = 'k3J9_-QwErTyUiOpAsDfGhJkLzXcVbNm0123456789_';

describe('secretIn()', () => {
  it.each([
    ['the secret alone', SECRET],
    ['what stands after the #', `#${SECRET}`],
    ['a whole link', `https://bins.example.org/join#${SECRET}`],
    ['a link of the older form', `https://bins.example.org/join/${SECRET}`],
    ['an older wall', `https://bins.example.org/look/${SECRET}/wall?inch=43&m=3&show=fit`],
    ['a sentence with marks', `Open <http://localhost:4860/reply#${SECRET}>.`],
    ['a link to which a program added something', `https://bins.example.org/join#${SECRET}&from=mail`],
    ['a line with spaces round it', `  ${SECRET}\n`],
  ])('finds it in %s', (_, text) => {
    expect(secretIn(text)).toBe(SECRET);
  });

  it.each([
    '',
    '#',
    '#list',
    'https://bins.example.org/join',
    `#${SECRET.slice(1)}`,
    `#${SECRET}x`,
    '#0192f000-0000-7000-8000-00000000abcd',
  ])('finds none in %j', (text) => {
    expect(secretIn(text)).toBeNull();
  });
});
