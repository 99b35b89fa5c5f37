import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeFormat } from '../format/format.ts';
import { KG_PER, type MassUnit, toKg } from '../format/units.ts';
import { netKg, typedKg, weighedWords } from './weigh.ts';

const metric = makeFormat({ units: 'metric', locale: 'en-GB', timeZone: 'Europe/London', today: '2026-11-25' });
const us = makeFormat({ units: 'us', locale: 'en-US', timeZone: 'America/New_York', today: '2026-11-25' });
const plain = (text: string) => text.replaceAll('\u00a0', ' ');
const says = (weight: string, unit: MassUnit, f = metric) => plain(weighedWords({ weight, unit, tare: null }, f));
const tub = { id: 't', name: 'white tub', tareKg: 0.3 };

describe('weighedWords()', () => {
  it('B7: another unit says what the number comes to, and never changes it', () => {
    expect(says('2', 'lb')).toBe('2 lb = 907 g');
    expect(says('2 lb', 'kg')).toBe('2 lb = 907 g');
    expect(says('900', 'g')).toBe('900 g = 0.9 kg');
    expect(says('3.5', 'lb')).toBe('3.5 lb = 1.588 kg');
    expect(says('1', 'kg', us)).toBe('1 kg = 2.20 lb');
    expect([says('1.5', 'kg'), says('', 'lb'), says('2 lb', 'lb', us)]).toEqual(['', '', '']);
  });
  it('takes the empty container off, and says so', () => {
    expect(plain(weighedWords({ weight: '1.9', unit: 'kg', tare: tub }, metric))).toBe(
      '1.9 kg less 0.3 kg for the empty white tub is 1.6 kg.',
    );
    expect(plain(weighedWords({ weight: '200', unit: 'g', tare: tub }, metric))).toContain('The empty white tub alone weighs 0.3 kg');
    expect([typedKg({ weight: '1.9', unit: 'kg', tare: tub }), typedKg({ weight: '0.2', unit: 'kg', tare: tub })]).toEqual([1.6, null]);
  });
  it('B7: of 10,000 random weights none is off by more than half a gram, there and back', () => {
    const units = fc.constantFrom<MassUnit>('kg', 'g', 'lb', 'oz');
    const holds = fc.property(fc.integer({ min: 1, max: 200_000 }), units, (grams, unit) => {
      const value = grams / 1000 / KG_PER[unit];
      const kg = typedKg({ weight: String(Number(value.toFixed(6))), unit, tare: null });
      expect(Math.abs((kg ?? 0) * 1000 - grams)).toBeLessThanOrEqual(0.5);
      expect(netKg(toKg(value, unit) + 0.3, 0.3)).toBeCloseTo(grams / 1000, 6);
    });
    fc.assert(holds, { numRuns: 10_000 });
  });
});
