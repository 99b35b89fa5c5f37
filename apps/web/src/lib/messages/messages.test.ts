import { ERROR_CODES } from '@middenry/contract';
import {
  ADULT_STATES,
  BANDS,
  BIN_KINDS,
  CAUTION_IDS,
  DUTY_KINDS,
  DUTY_RESULTS,
  DUTY_URGENCIES,
  DUTY_WHYS,
  EXPOSURES,
  FEED_LIMITS,
  HOLD_REASONS,
  IF_MISSED,
  LEFTOVERS,
  LOOKS,
  REASON_CODES,
  REMEDY_IDS,
  SEEN_KINDS,
  SIGNAL_IDS,
  SMELLS,
  SQUEEZES,
  SURPRISE_CAUSES,
  UNPLACED_REASONS,
  VISITORS,
  WORM_SIGHTINGS,
} from '@middenry/domain';
import { describe, expect, it } from 'vitest';
import { makeFormat } from '../format/format.ts';
import { en } from './en.ts';
import { es } from './es.ts';
import { inLanguage } from './per-reader.server.ts';
import type { Messages } from './shape.ts';
import { readValues } from './values.ts';

const BROKEN = /undefined|null|NaN|\[object|\s[.,]|\s\s|\.\./;
const FULL = {
  zone: 4,
  massKg: 6.4,
  capKg: 2.1,
  dayOn: '2026-11-22',
  layerDepthM: 0.11,
  airDepthM: 0.05,
  days: 12,
  limitDays: 14,
  leftFrac: 0.6,
  moistureFracWb: 0.81,
  airFilledPorosity: 0.12,
  tempC: 31,
  smell: 'sour',
  squeeze: 'few-drops',
  ph: 5.2,
  cnRatio: 12,
  beddingFrac: 0.05,
  minFrac: 0.15,
  castingsKg: 14,
  levelM: 0.2,
  markM: 0.18,
  ageDays: 400,
  sinceHarvestDays: 120,
  intervalDays: 7,
};

const CATALOGUES: readonly (readonly ['en' | 'es', string, Messages])[] = [
  ['en', 'en-GB', en],
  ['es', 'es-ES', es],
];

describe.each(CATALOGUES)('words in %s', (language, locale, words) => {
  const f = makeFormat({ units: 'metric', locale, timeZone: 'Europe/London', today: '2026-11-25' });

  it('has a word for every value of every closed list', () => {
    const lists = {
      bands: BANDS,
      signals: SIGNAL_IDS,
      reasons: REASON_CODES,
      remedies: REMEDY_IDS,
      cautions: CAUTION_IDS,
      holds: HOLD_REASONS,
      limits: FEED_LIMITS,
      duties: DUTY_KINDS,
      looks: LOOKS,
      seen: SEEN_KINDS,
      surpriseCauses: SURPRISE_CAUSES,
      kinds: BIN_KINDS,
      exposures: EXPOSURES,
      leftovers: LEFTOVERS,
      squeezes: SQUEEZES,
      smells: SMELLS,
      worms: WORM_SIGHTINGS,
      visitors: VISITORS,
      errors: ERROR_CODES,
      dutyWhys: DUTY_WHYS,
      ifMissed: IF_MISSED,
      urgencies: DUTY_URGENCIES,
      dutyResults: DUTY_RESULTS,
      adultStates: ADULT_STATES,
      unplaced: UNPLACED_REASONS,
    } as const;
    for (const [name, list] of Object.entries(lists))
      expect(Object.keys(words[name as keyof typeof lists]).sort(), `words.${name} in messages/${language}`).toEqual([...list].sort());
  });

  it.each(REASON_CODES)('reason %s makes a whole sentence, with all its values and with none', (code) => {
    // A feeding of next week is no feeding of last week.
    for (const values of [FULL, { ...FULL, dayOn: '2026-11-29' }, {}]) {
      const said = inLanguage(language, () => words.reasons[code](readValues(values, f), f));
      expect(said).not.toMatch(BROKEN);
      expect(said).toMatch(/^[\p{Lu}0-9].*\.$/u);
    }
  });

  it.each(SIGNAL_IDS)('signal %s says now, soon and maybe, each in its own words and short enough for a tile', (id) => {
    const facts = [
      { zone: 4, holdsNow: true, by: null, act: true },
      { zone: 4, holdsNow: false, by: language === 'es' ? 'viernes' : 'Friday', act: true },
      { zone: null, holdsNow: false, by: null, act: false },
    ];
    for (const x of facts) {
      expect(words.signals[id].says(x)).toMatch(/^[A-Z].*\.$/);
      expect(words.signals[id].says(x)).not.toMatch(BROKEN);
      expect(words.signals[id].short(x).length).toBeLessThanOrEqual(20);
    }
  });

  it.each(REMEDY_IDS)('remedy %s tells what to do, at most eighty characters', (id) => {
    for (const x of [
      { zone: 4, massKg: 1.2 },
      { zone: null, massKg: null },
    ]) {
      const said = inLanguage(language, () => words.remedies[id](x, f));
      expect(said).not.toMatch(BROKEN);
      expect(said.length).toBeLessThanOrEqual(80);
    }
  });

  it('keeps sentences of cautions and errors short enough for an eleven-year-old', () => {
    const all = [...Object.values(words.cautions), ...Object.values(words.errors).flatMap((e) => [e.what, e.next])];
    for (const said of all)
      for (const sentence of said.split(/[.!?] /)) expect(sentence.split(/\s+/).length, sentence).toBeLessThanOrEqual(18);
  });

  it('H27: an error says what and what next, in at most 25 words', () => {
    for (const { what, next } of Object.values(words.errors)) {
      expect(what).toMatch(/^\p{Lu}.*\.$/u);
      expect(next).toMatch(/^\p{Lu}.*\.$/u);
      expect(`${what} ${next}`.split(/\s+/).length, what).toBeLessThanOrEqual(25);
    }
  });
});
