import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, daysBetween, instantOf } from './days.ts';
import { makeFormat } from './format.ts';
import { span } from './span.ts';
import { toKg } from './units.ts';

const metric = makeFormat({ units: 'metric', locale: 'en-GB', timeZone: 'Europe/London', today: '2026-11-25' });
const us = makeFormat({ units: 'us', locale: 'en-US', timeZone: 'America/New_York', today: '2026-11-25' });
const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('makeFormat()', () => {
  it('mass() keeps two digits at most and the unit', () => {
    expect([0.04, 0.3, 1.8, 1.84, 12.4, 996].map((kg) => plain(metric.mass(kg)))).toEqual([
      '40 g',
      '0.3 kg',
      '1.8 kg',
      '1.8 kg',
      '12 kg',
      '996 kg',
    ]);
    expect([0.1, 0.4, 1.8].map((kg) => plain(us.mass(kg)))).toEqual(['4 oz', '14 oz', '4 lb']);
    expect(plain(metric.mass(0))).toBe('0 kg');
  });

  it('chance() never says certain', () => {
    expect([0, 0.005, 0.22, 0.81, 1].map((p) => plain(metric.chance(p)))).toEqual(['under 1 %', 'under 1 %', '22 %', '81 %', 'over 99 %']);
  });

  it('near(), ago() and since() say days as people do', () => {
    expect(['2026-11-25', '2026-11-26', '2026-11-27', '2026-12-09'].map(metric.near)).toEqual(['today', 'tomorrow', 'Friday', '9 Dec']);
    expect(['2026-11-25', '2026-11-24', '2026-11-06'].map((d) => plain(metric.ago(d)))).toEqual(['today', 'yesterday', '19 days ago']);
    expect(['2026-11-23', '2026-11-01', '2025-11-01'].map(metric.since)).toEqual(['since Monday', 'since 1 Nov', 'since 1 Nov 2025']);
  });

  it('temp() and depth() follow the units', () => {
    expect(plain(metric.temp(21.4))).toBe('21 °C');
    expect(plain(us.temp(0))).toBe('32 °F');
    expect(plain(metric.depth(0.112))).toBe('11 cm');
    expect(plain(us.depth(0.0254))).toBe('1 in');
  });

  it('timeSpan() counts over the hour and over midnight', () => {
    expect(metric.timeSpan('10:00', 90)).toBe('10:00 to 11:30');
    expect(metric.timeSpan('23:30', 60)).toBe('23:30 to 00:30');
  });
});

describe('days', () => {
  it('addDays() keeps dates over clock changes and leap days', () => {
    expect(addDays('2027-03-27', 1)).toBe('2027-03-28');
    expect(addDays('2028-02-28', 1)).toBe('2028-02-29');
    fc.assert(fc.property(fc.integer({ min: -20000, max: 20000 }), (n) => daysBetween('2026-11-25', addDays('2026-11-25', n)) === n));
  });

  it('A13: span() never needs a third digit', () => {
    const said = [1, 99, 100, 364, 365, 420, 800].map((n) => span(n, metric).replaceAll('\u00a0', ' '));
    expect(said).toEqual(['1 day', '99 days', 'over 3 months', 'over 11 months', 'over a year', 'over a year', 'over 2 years']);
  });

  it('instantOf() keeps wall time over both clock changes', () => {
    expect(instantOf('2027-03-27', '09:00', 'Europe/London')).toBe('2027-03-27T09:00:00Z');
    expect(instantOf('2027-03-29', '09:00', 'Europe/London')).toBe('2027-03-29T08:00:00Z');
    expect(instantOf('2027-03-28', '01:30', 'Europe/London')).toBe('2027-03-28T01:30:00Z'); // skipped: moves to 02:30
    expect(instantOf('2026-10-25', '01:30', 'Europe/London')).toBe('2026-10-25T00:30:00Z'); // doubled: the first
    expect(instantOf('2026-11-25', '09:00', 'Asia/Kathmandu')).toBe('2026-11-25T03:15:00Z');
  });
});

describe('toKg()', () => {
  it('round trips within half a gram in every unit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 500, noNaN: true }),
        fc.constantFrom('kg' as const, 'g' as const, 'lb' as const, 'oz' as const),
        (value, unit) => {
          const per = { kg: 1, g: 0.001, lb: 0.45359237, oz: 0.028349523125 }[unit];
          return Math.abs(toKg(value, unit) - value * per) <= 0.0005 + 1e-9;
        },
      ),
      { numRuns: 10_000 },
    );
  });
});
