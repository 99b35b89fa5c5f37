import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { REMEDIES } from '../signals/remedy-registry.ts';
import { CAUTION_IDS } from '../signals/types.ts';
import { CAUTION_PLACES, CAUTION_SOURCES, CAUTION_VOICES, CAUTIONS_AT, cautionsAt } from './caution-places.ts';
import { DUTY_FACTS } from './duty-facts.ts';

const headings = readFileSync(new URL('../../../../shared/sources.md', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => line.startsWith('### '))
  .map((line) => line.slice('### '.length));

describe('cautions', () => {
  it('each rest on a source that is written down', () => {
    const cited = CAUTION_IDS.flatMap((id) => CAUTION_SOURCES[id].sources.map((source) => ({ id, source })));
    expect(cited.length).toBeGreaterThanOrEqual(CAUTION_IDS.length);
    expect(cited.filter(({ source }) => !headings.includes(source))).toEqual([]);
  });

  it('each have a place: where people stand, beside a remedy or a duty, or where pupils come', () => {
    const placed = new Set([
      ...CAUTION_PLACES.flatMap((place) => CAUTIONS_AT[place]),
      ...Object.values(REMEDIES).flatMap(({ cautions }) => cautions),
      ...Object.values(DUTY_FACTS).flatMap(({ cautions }) => cautions),
      'pupils' as const,
    ]);
    expect(CAUTION_IDS.filter((id) => !placed.has(id))).toEqual([]);
  });

  it('wherever hands go into a bin there are gloves, and what could do harm is said where it is done', () => {
    expect(CAUTION_PLACES.filter((place) => !CAUTIONS_AT[place].includes('gloves'))).toEqual([]);
    expect(CAUTIONS_AT.harvest).toEqual(expect.arrayContaining(['lifting', 'damp-not-dusty', 'castings-on-food', 'leachate']));
    expect(CAUTIONS_AT.care).toEqual(expect.arrayContaining(['flooding', 'damp-not-dusty', 'leachate']));
    expect(CAUTIONS_AT.feeding).toContain('food-from-outside');
    expect(CAUTIONS_AT.check).toContain('no-poison');
  });

  it('are told once each, with every voice behind them once', () => {
    const { cautions, voices } = cautionsAt('bin', ['lime', 'gloves', 'lime', 'pupils']);
    expect(cautions).toEqual(['gloves', 'lime', 'pupils']);
    expect(voices).toEqual(['health', 'school', 'keepers']);
    expect(CAUTION_VOICES.filter((voice) => !Object.values(CAUTION_SOURCES).some((each) => each.voice === voice))).toEqual([]);
  });
});
