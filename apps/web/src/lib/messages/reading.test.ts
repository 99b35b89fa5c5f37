import { REASON_CODES } from '@middenry/domain';
import { describe, expect, it } from 'vitest';
import { makeFormat } from '../format/format.ts';
import { en } from './en.ts';
import { es } from './es.ts';
import { englishSyllables, kincaidGrade, measure, sentencesOf, spanishSyllables, szigrisztEase, wordsOf } from './reading.ts';
import type { Messages } from './shape.ts';
import type { Reading } from './values.ts';

/** What pupils come across: their sign-in, the board, a bin and why it is so, what to take care of, shifts, what went wrong. */
const PUPIL_AREAS = ['pupil', 'code', 'signIn', 'board', 'bin', 'signals', 'cautions', 'holds', 'shifts', 'errors', 'errorPage'] as const;
const PUPIL_GRADE = 5;
const GENERAL_GRADE = 7;
const PUPIL_SENTENCE_WORDS = 15;
const GENERAL_SENTENCE_WORDS = 18;
/** "Bastante fácil" begins at 65 on the INFLESZ scale; plain prose for the young stands above 80, "muy fácil". */
const PUPIL_EASE = 80;
const GENERAL_EASE = 65;

const shown: Reading = {
  zone: '4',
  day: '2026-11-22',
  mass: () => '2 kg',
  depth: () => '11 cm',
  temp: () => '31 °C',
  percent: () => '60 %',
  days: () => '12 days',
  foodDays: () => '12 days',
  number: () => '12',
  text: () => null,
};

/** The whole sentences of a part of a catalogue; labels of one or two words would make any text look easy. */
function sentencesIn(part: unknown): string[] {
  if (typeof part === 'string') return /[.?!]$/.test(part) ? [part] : [];
  return typeof part === 'object' && part !== null ? Object.values(part).flatMap(sentencesIn) : [];
}

const said = (words: Messages, locale: string) => {
  const f = makeFormat({ units: 'metric', locale, timeZone: 'UTC', today: '2026-11-25' });
  return REASON_CODES.map((code) => words.reasons[code](shown, f));
};
const forPupils = (words: Messages, locale: string) => [...PUPIL_AREAS.flatMap((area) => sentencesIn(words[area])), ...said(words, locale)];
const tooLong = (texts: readonly string[], most: number) => texts.flatMap(sentencesOf).filter((s) => wordsOf(s).length > most);

describe.each([
  ['English', en, 'en-GB'],
  ['Spanish', es, 'es-ES'],
] as const)('B28: sentences in %s', (_language, words, locale) => {
  it('for pupils have fifteen words at most', () => {
    const texts = forPupils(words, locale);
    expect(texts.length).toBeGreaterThan(150);
    expect(tooLong(texts, PUPIL_SENTENCE_WORDS)).toEqual([]);
  });

  it('for everybody have eighteen words at most', () => {
    expect(tooLong(sentencesIn(words), GENERAL_SENTENCE_WORDS)).toEqual([]);
  });
});

describe('B28: reading grade', () => {
  it('of English is 5 at most for pupils and 7 at most on each screen', () => {
    expect(kincaidGrade(measure(forPupils(en, 'en-GB'), englishSyllables))).toBeLessThanOrEqual(PUPIL_GRADE);
    expect(hardScreens(en, (texts) => kincaidGrade(measure(texts, englishSyllables)) > GENERAL_GRADE)).toEqual([]);
  });

  it('of Spanish is very easy for pupils and rather easy in all', () => {
    expect(szigrisztEase(measure(forPupils(es, 'es-ES'), spanishSyllables))).toBeGreaterThanOrEqual(PUPIL_EASE);
    expect(szigrisztEase(measure(sentencesIn(es), spanishSyllables))).toBeGreaterThanOrEqual(GENERAL_EASE);
  });

  it('can tell a hard text from an easy one', () => {
    const hard = [
      'Insufficient oxygenation of accumulated putrescible material precipitates anaerobic decomposition, necessitating remediation.',
    ];
    const dificil = [
      'La insuficiente oxigenación del material putrescible acumulado precipita una descomposición anaeróbica considerable.',
    ];
    expect(kincaidGrade(measure(hard, englishSyllables))).toBeGreaterThan(GENERAL_GRADE);
    expect(szigrisztEase(measure(dificil, spanishSyllables))).toBeLessThan(GENERAL_EASE);
  });
});

function hardScreens(words: Messages, isHard: (texts: string[]) => boolean): string[] {
  return Object.entries(words)
    .filter(([, part]) => sentencesIn(part).length > 2 && isHard(sentencesIn(part)))
    .map(([name]) => name);
}

describe('syllables', () => {
  it('are counted as they are spoken', () => {
    expect(['worms', 'bedding', 'compost', 'time', 'noted', 'places', 'people', 'coordinator'].map(englishSyllables)).toEqual([
      1, 2, 2, 1, 2, 1, 2, 5,
    ]);
    expect(['lombriz', 'día', 'agua', 'país', 'quien', 'guantes', 'cuidado', 'también', 'muy', 'todavía'].map(spanishSyllables)).toEqual([
      2, 2, 2, 2, 1, 2, 3, 2, 1, 4,
    ]);
  });
});
