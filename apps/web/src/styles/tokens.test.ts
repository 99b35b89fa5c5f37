import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { en } from '../lib/messages/en.ts';
import { es } from '../lib/messages/es.ts';

const read = (file: string) => readFileSync(new URL(file, import.meta.url), 'utf8');
const BANDS = ['settled', 'watch', 'act', 'unknown'] as const;
/** More than this and an eye calls it a colour (criteria A1). */
const QUIET_CHROMA = 0.04;

interface Colour {
  readonly name: string;
  readonly chroma: number;
  readonly hueDeg: number;
}
/** Every colour that is declared, once for each paper. */
const colours: Colour[] = [...read('tokens.css').matchAll(/(--[\w-]+):([^;]*);/g)].flatMap(([, name = '', value = '']) =>
  [...value.matchAll(/oklch\(([\d.]+) ([\d.]+) ([\d.]+)/g)].map((found) => ({ name, chroma: Number(found[2]), hueDeg: Number(found[3]) })),
);
const loud = colours.filter(({ chroma }) => chroma > QUIET_CHROMA);

describe('A3: colours', () => {
  it('two pencils on the board and their washes: four names in the whole app, of two hues', () => {
    expect(colours.length).toBeGreaterThan(20);
    expect([...new Set(loud.map(({ name }) => name))]).toEqual(['--act', '--act-wash', '--act-wash2', '--watch']);
    const hues = new Set(
      loud.map(({ name, hueDeg }) => `${name.slice(0, 5)} ${hueDeg < 90 ? 'red' : hueDeg > 200 && hueDeg < 290 ? 'blue' : hueDeg}`),
    );
    expect([...hues]).toEqual(['--act red', '--wat blue']);
  });

  it('no other style brings a colour of its own', () => {
    const others = ['page', 'form', 'board', 'bin', 'log', 'shifts', 'season', 'waiting', 'wall-screen', 'print'].map((name) =>
      read(`${name}.css`),
    );
    const own = others.flatMap(
      (css) => css.replaceAll(/\/\*[\s\S]*?\*\//g, '').match(/(?<![\w-])(#[\da-f]{3,8}\b|rgba?\(|hsla?\(|oklch\()/gi) ?? [],
    );
    expect(own.filter((one) => !/^#(fff|000)$/i.test(one))).toEqual([]);
  });
});

describe('A3: each band has a mark and a word of its own', () => {
  it('in the sprite', () => {
    const sprite = read('../lib/shared/Sprite.svelte');
    const marks = BANDS.map((band) => new RegExp(`id="m-${band}"[^]*?d="([^"]+)"`).exec(sprite)?.[1]);
    expect(marks.filter(Boolean)).toHaveLength(BANDS.length);
    expect(new Set(marks).size).toBe(BANDS.length);
  });

  it.each([
    ['English', en],
    ['Spanish', es],
  ])('in %s', (_language, words) => {
    const said = BANDS.map((band) => words.bands[band]);
    expect(said.every((word) => word.length > 2)).toBe(true);
    expect(new Set(said).size).toBe(BANDS.length);
  });
});
