import { describe, expect, it } from 'vitest';
import { makeFormat } from '../format/format.ts';
import { en } from './en.ts';
import { es } from './es.ts';
import { words } from './index.ts';
import { languageFor } from './languages.ts';
import { inLanguage } from './per-reader.server.ts';
import type { Messages } from './shape.ts';

const pause = () => new Promise((done) => setTimeout(done, 1));

describe('inLanguage()', () => {
  it('gives each of many readers served at once their own words, before and after a wait', async () => {
    const serve = (language: 'en' | 'es') =>
      inLanguage(language, async () => {
        const before = words.nav.board;
        await pause();
        const part = words.log;
        await pause();
        return [before, part.save, words.figures.today];
      });
    const readers = Array.from({ length: 40 }, (_, i) => (i % 3 === 0 ? ('es' as const) : ('en' as const)));
    const heard = await Promise.all(readers.map(serve));
    for (const [i, said] of heard.entries())
      expect(said).toEqual(readers[i] === 'es' ? ['Tablero', 'Guardar', 'hoy'] : ['Board', 'Save', 'today']);
  });

  it('writes numbers and days as the reader does', () => {
    const f = makeFormat({ units: 'metric', locale: es.figures.locale('en-GB'), timeZone: 'Europe/London', today: '2026-11-25' });
    const said = inLanguage('es', () => [
      f.mass(1.84),
      f.near('2026-11-27'),
      f.on('2026-12-09'),
      f.ago('2026-11-06'),
      f.days(1),
      f.since('2026-11-24'),
    ]);
    expect(said.map((text) => text.replaceAll('\u00a0', ' '))).toEqual([
      '1,8 kg',
      'viernes',
      'el 9 dic',
      'hace 19 días',
      '1 día',
      'desde ayer',
    ]);
  });
});

it.each([
  ['en-GB', 'en-GB', 'es-ES'],
  ['en-US', 'en-US', 'es-US'],
  ['es-MX', 'en-GB', 'es-MX'],
] as const)('of a programme in %s, English is written as in %s and Spanish as in %s', (ofProgramme, english, spanish) => {
  expect([en.figures.locale(ofProgramme), es.figures.locale(ofProgramme)]).toEqual([english, spanish]);
});

describe('languageFor()', () => {
  it.each([
    ['es', 'en', 'es'],
    [undefined, 'es-MX,es;q=0.9,en;q=0.5', 'es'],
    [undefined, 'en;q=0.4, es;q=0.8', 'es'],
    [undefined, 'fr, en-GB;q=0.3', 'en'],
    [undefined, 'es;q=0, fr', 'en'],
    [undefined, null, 'en'],
    ['xx', 'es', 'es'],
    ['toString', null, 'en'],
  ] as const)('chosen %j and accepted %j give %s', (chosen, accepted, language) => {
    expect(languageFor(chosen, accepted)).toBe(language);
  });
});

/** Every place of a catalogue: where it stands and what kind of thing stands there. */
function places(part: unknown, path = ''): string[] {
  if (typeof part !== 'object' || part === null) return [`${path}: ${typeof part}`];
  return Object.entries(part).flatMap(([key, value]) => places(value, `${path}.${key}`));
}

describe('a catalogue', () => {
  it('in Spanish fills every place of the English one, and no other', () => {
    const hint = 'a word with + stands only in es, one with - only in en: add it to the file of the same name in the other folder';
    expect(places(es).sort(), hint).toEqual(places(en).sort());
  });

  it('of a language made up here needs nothing but its own words', () => {
    const shouted: Messages = { ...es, nav: { ...es.nav, board: 'TABLERO' } };
    expect(places(shouted).sort()).toEqual(places(en).sort());
    // @ts-expect-error a word that is missing is a fault before anything runs
    const lacking: Messages = { ...es, nav: { label: 'x' } };
    expect(places(lacking).length).toBeLessThan(places(en).length);
  });

  it('has left no sentence of the screens in English', () => {
    const same = new Set(
      places(es)
        .map((p) => p.split(':')[0])
        .filter((path) => read(en, path) === read(es, path)),
    );
    const sentences = [...same].filter((path) => typeof read(en, path) === 'string' && String(read(en, path)).split(' ').length > 2);
    expect(sentences).toEqual([]);
  });
});

function read(part: unknown, path = ''): unknown {
  return path
    .split('.')
    .slice(1)
    .reduce<unknown>((at, key) => (at as Record<string, unknown>)[key], part);
}
