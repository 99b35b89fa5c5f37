import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dryFromWetBasis, fracFromPercent, percentFromFrac, wetFromDryBasis } from './fraction.ts';
import { gramsFrom, kgFromLb, kgFromShortTons, lbFromKg, MASS_UNITS, massIn } from './mass.ts';
import { celsiusFromF, fahrenheitFromC, kelvinFromC } from './temperature.ts';
import { SECONDS_PER_DAY } from './time.ts';
import { kgPerM3FromLbPerUsGallon, kgPerM3FromLbPerYd3, litresFrom, volumeIn } from './volume.ts';

describe('units', () => {
  it('gives the factors of the published tables', () => {
    expect(gramsFrom(1, 'lb')).toBe(454);
    expect(kgFromLb(1)).toBe(0.45359237);
    expect(kgPerM3FromLbPerYd3(1)).toBeCloseTo(0.593276, 6);
    expect(kgPerM3FromLbPerUsGallon(1)).toBeCloseTo(119.826, 3);
    expect(litresFrom(1, 'us-gal')).toBe(3.785411784);
    expect(litresFrom(1, 'yd3')).toBeCloseTo(764.554858, 6);
    expect(kgFromShortTons(1)).toBeCloseTo(907.18474, 8);
    expect(SECONDS_PER_DAY).toBe(86400);
  });

  it('gives EPA 2016 volume to weight factors in kg/m3 as the handbook prints them', () => {
    expect(kgPerM3FromLbPerYd3(396)).toBeCloseTo(234.9, 1);
    expect(kgPerM3FromLbPerUsGallon(3.8)).toBeCloseTo(455.3, 1);
    expect(kgPerM3FromLbPerYd3(106)).toBeCloseTo(62.9, 1);
    expect(kgPerM3FromLbPerUsGallon(7.5)).toBeCloseTo(898.7, 1);
  });

  it('changes temperature scales', () => {
    expect(celsiusFromF(212)).toBe(100);
    expect(fahrenheitFromC(-40)).toBe(-40);
    expect(kelvinFromC(0)).toBe(273.15);
  });

  it('changes the moisture basis: 80 per cent wet is 400 per cent dry', () => {
    expect(percentFromFrac(dryFromWetBasis(fracFromPercent(80)))).toBeCloseTo(400, 9);
    expect(wetFromDryBasis(0.5)).toBeCloseTo(1 / 3, 12);
    expect(wetFromDryBasis(Number.POSITIVE_INFINITY)).toBe(1);
    expect(() => dryFromWetBasis(1)).toThrow(RangeError);
    expect(() => wetFromDryBasis(-0.1)).toThrow(RangeError);
  });

  it('gramsFrom() is off by at most half a gram in 10,000 round trips', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), fc.constantFrom(...MASS_UNITS), (value, unit) => {
        const grams = gramsFrom(value, unit);
        return Number.isInteger(grams) && Math.abs(grams - value / massIn(1, unit)) <= 0.5 + 1e-6;
      }),
      { numRuns: 10_000, seed: 1 },
    );
  });

  it('undoes itself', () => {
    expect(kgFromLb(lbFromKg(3.7))).toBeCloseTo(3.7, 12);
    expect(volumeIn(litresFrom(5, 'us-gal'), 'us-gal')).toBeCloseTo(5, 12);
  });

  it('refuses negative and endless weights', () => {
    for (const value of [-1, Number.NaN, Number.POSITIVE_INFINITY]) expect(() => gramsFrom(value, 'kg')).toThrow(RangeError);
  });
});
