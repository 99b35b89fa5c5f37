import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { oklchToHex, plainCss, readPapers } from '../../gen/plain-papers.ts';

const read = (file: string) => readFileSync(new URL(file, import.meta.url), 'utf8');

describe('plain.gen.css', () => {
  it('is what tokens.css gives', () => {
    expect(read('plain.gen.css')).toBe(plainCss(read('tokens.css')));
  });

  it('knows every colour that tokens.css has for two papers', () => {
    const declared = read('tokens.css').match(/--[\w-]+:\s*light-dark\(/g) ?? [];
    expect(declared.length).toBeGreaterThan(10);
    expect(readPapers(read('tokens.css')).length).toBe(declared.length);
  });
});

describe('oklchToHex()', () => {
  // CSS Color 4 examples: white, black and the sRGB primaries.
  it.each([
    [1, 0, 0, '#ffffff'],
    [0, 0, 0, '#000000'],
    [0.62796, 0.25768, 29.2339, '#ff0000'],
    [0.86644, 0.29483, 142.4953, '#00ff00'],
    [0.45201, 0.31321, 264.052, '#0000ff'],
  ])('turns %d %d %d into %s', (l, c, h, hex) => {
    expect(oklchToHex(l, c, h)).toBe(hex);
  });
});
