import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { SIGNAL_OWNERS } from './definition.ts';
import { SIGNALS } from './registry.ts';
import { REMEDIES, REMEDY_PARAMETERS } from './remedy-registry.ts';
import { atWell, told } from './signals-cast.ts';
import { CAUTION_IDS, REASON_CODES, REMEDY_IDS, SIGNAL_IDS, type SignalId } from './types.ts';

const MOST_SIGNALS = 12;
const headings = new Set(
  readFileSync(new URL('../../../../shared/sources.md', import.meta.url), 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('### '))
    .map((line) => line.slice('### '.length)),
);

describe('signals registry (A14)', () => {
  it('has at most twelve signals, one for each id', () => {
    const full = 'A14 allows twelve signals, so that people can know them all: a new one takes the place of another';
    expect(SIGNAL_IDS.length, full).toBeLessThanOrEqual(MOST_SIGNALS);
    expect(Object.keys(SIGNALS).sort(), 'SIGNAL_IDS in types.ts and SIGNALS in registry.ts hold the same ids').toEqual(
      [...SIGNAL_IDS].sort(),
    );
    for (const id of SIGNAL_IDS) expect(SIGNALS[id].id).toBe(id);
  });

  it.each(SIGNAL_IDS)('%s has time to respond, threshold, dead band, delay, priority and owner', (id: SignalId) => {
    const signal = SIGNALS[id];
    expect(signal.respondWithinDays).toBeGreaterThanOrEqual(1);
    expect(Object.keys(signal.thresholds).length).toBeGreaterThan(0);
    expect(signal.deadBand.value).toBeGreaterThanOrEqual(0);
    expect(signal.delayDays).toBeGreaterThanOrEqual(1);
    expect(signal.priority).toBeGreaterThanOrEqual(1);
    expect(SIGNAL_OWNERS).toContain(signal.owner);
    expect(signal.cautions.every((caution) => CAUTION_IDS.includes(caution))).toBe(true);
  });

  it.each(SIGNAL_IDS)('%s names candidate remedies that exist', (id: SignalId) => {
    expect(SIGNALS[id].remedies.length).toBeGreaterThan(0);
    for (const remedy of SIGNALS[id].remedies) expect(REMEDY_IDS).toContain(remedy);
  });

  it('every threshold, dead band and remedy figure names a source that stands in shared/sources.md', () => {
    const figures = [
      ...SIGNAL_IDS.flatMap((id) => [...Object.values(SIGNALS[id].thresholds), SIGNALS[id].deadBand]),
      ...REMEDY_IDS.map((id) => REMEDIES[id].effortMinutes),
      ...Object.values(REMEDY_PARAMETERS),
    ];
    expect(figures.filter(({ source }) => !headings.has(source)).map(({ source }) => source)).toEqual([]);
  });

  it.each(SIGNAL_IDS)('%s is quiet in a bin that is well, and its reasons are known codes', (id: SignalId) => {
    const check = { day: 28, type: 'check' as const, smell: 'earthy' as const };
    const at = atWell(30, {}, [check]);
    expect(SIGNALS[id].condition(at, false)).toBe(false);
    expect(SIGNALS[id].condition(at, true)).toBe(false);
    expect(SIGNALS[id].seen(at)).toEqual([]);
    for (const { code } of SIGNALS[id].reasons(told(at)))
      expect(REASON_CODES, 'its code belongs in REASON_CODES in types.ts').toContain(code);
  });

  it('remedies stand each under their own id, with cautions beside those that could do harm', () => {
    for (const id of REMEDY_IDS) expect(REMEDIES[id].id).toBe(id);
    expect(REMEDIES['add-water'].cautions).toContain('flooding');
    expect(REMEDIES.insulate.cautions).toContain('heating');
    expect(REMEDIES['ground-eggshell'].cautions).toContain('lime');
    expect(REMEDIES.drain.cautions).toContain('leachate');
    expect(REMEDIES.harvest.cautions).toEqual(expect.arrayContaining(['lifting', 'castings-on-food']));
  });
});
