import { BIN_KINDS, SIGNAL_IDS, SIGNALS, type SignalId } from '@middenry/domain';
import { describe, expect, it } from 'vitest';
import { makeFormat } from '../format/format.ts';
import { flagWords as en } from '../messages/en/flags.ts';
import { flagWords as es } from '../messages/es/flags.ts';
import { englishSyllables, kincaidGrade, measure, sentencesOf, spanishSyllables, szigrisztEase, wordsOf } from '../messages/reading.ts';
import { readValues } from '../messages/values.ts';
import { limitsOf } from './limits.ts';

const LONGEST_ACTION = 80;
const f = makeFormat({ units: 'metric', locale: 'en-GB', timeZone: 'UTC', today: '2026-11-26' });
const languages = { en, es };

/** Which values a sentence asks for, by name. */
function asked(say: (v: ReturnType<typeof readValues>) => unknown, names: readonly string[]): string[] {
  const seen: string[] = [];
  const values = new Proxy(Object.fromEntries(names.map((name) => [name, 1])), {
    get: (all, name) => {
      if (typeof name === 'string' && name in all) seen.push(name);
      return all[String(name)];
    },
  });
  say(readValues(values, f));
  return [...new Set(seen)].sort();
}

describe.each(['en', 'es'] as const)('A14: what the page of flags says in %s', (language) => {
  const flags = languages[language];

  it.each(SIGNAL_IDS)('of %s leaves nothing blank, and the action fits in eighty characters', (id: SignalId) => {
    expect(flags.each[id], `${id} has no words in messages/${language}/flags.ts`).toBeDefined();
    const { cause, consequence, action } = flags.each[id];
    for (const text of [cause, consequence, action]) expect(text).toMatch(/^\p{Lu}.{9,}\.$/u);
    expect(action.length).toBeLessThanOrEqual(LONGEST_ACTION);
    expect(flags.owners[SIGNALS[id].owner]).toMatch(/\S{3,}/);
  });

  it.each(SIGNAL_IDS)('of %s names each of its limits and where it is over', (id: SignalId) => {
    const { from, until } = flags.each[id];
    const limits = Object.keys(SIGNALS[id].thresholds).sort();
    // `readValues` itself looks through all for a day; what is said is asked for after that, by name.
    const said = (say: typeof from | typeof until) => asked(say, ['zone', ...limits, 'back']).filter((name) => name !== 'zone');
    expect(said(from).filter((name) => name !== 'back')).toEqual(limits);
    for (const sentence of [...from(readValues({ ...Object.fromEntries(limits.map((name) => [name, 1])), back: 1 }, f))])
      expect(sentence).not.toMatch(/null|undefined|NaN/);
    expect(until(readValues({ back: 1 }, f))).not.toMatch(/null|undefined|^$/);
  });
});

describe('A14: limits', () => {
  it('are told once for every kind of bin, and not at all where a kind has none', () => {
    for (const id of SIGNAL_IDS) {
      const all = limitsOf(id, en, f);
      expect(all.length, id).toBeGreaterThan(0);
      if (all.length > 1) expect(all.flatMap(({ kinds }) => kinds).sort()).toEqual([...BIN_KINDS].sort());
      else expect(all[0]?.from.length, id).toBeGreaterThan(0);
    }
    expect(limitsOf('harvest-due', en, f).find(({ kinds }) => kinds.includes('vessel'))?.from).toEqual([]);
  });

  it('are over only a dead band away', () => {
    const until = (id: SignalId) => limitsOf(id, en, f)[0]?.until;
    expect(until('hot')).toBe('Over at 28\u00a0°C.');
    expect(until('cold')).toBe('Over at 6\u00a0°C.');
    expect(until('sour')).toBe('Over at pH 5.7.');
    expect(until('overfed')).toBe('Over at food for 12\u00a0days.');
    expect(until('harvest-due')).toBe('Over at 55\u00a0% of the depth.');
  });
});

describe('B28: the page of flags', () => {
  const all = (words: typeof en | typeof es) =>
    SIGNAL_IDS.flatMap((id) => {
      const { cause, consequence, action } = words.each[id];
      return [cause, consequence, action, ...limitsOf(id, words, f).flatMap(({ from, until }) => [...from, until])];
    });

  it('has eighteen words at most in a sentence', () => {
    const long = [...all(en), ...all(es)].flatMap(sentencesOf).filter((sentence) => wordsOf(sentence).length > 18);
    expect(long).toEqual([]);
  });

  it('reads easily in both languages', () => {
    expect(kincaidGrade(measure(all(en), englishSyllables))).toBeLessThanOrEqual(7);
    expect(szigrisztEase(measure(all(es), spanishSyllables))).toBeGreaterThanOrEqual(65);
  });
});
