import { describe, expect, it } from 'vitest';
import { freedNitrogenFrac, nitrogenLossFrac } from './carbon-nitrogen.ts';
import { lossByAshFrac, yieldKgWb } from './castings.ts';
import { DECAY_PARAMETERS, decayedFrac, grazingRatio, maturityRatio, moistureRatio, preparationRatio } from './decay.ts';
import { larvaeRatePerDay } from './visitors.ts';
import { heatDeathPerDay, incubationDays, moistureGrowthRatio, nextRootMass, phGrowthRatio, SPECIES_FACTS } from './worms.ts';

describe('moistureRatio()', () => {
  it.each([
    [0.3, 0.147],
    [0.4, 0.503],
    [0.5, 0.856],
    [0.6, 0.972],
  ])('is as printed at %f (EQ3, from memory)', (moistureFracWb, expected) => {
    expect(moistureRatio(moistureFracWb)).toBeCloseTo(expected, 3);
  });
});

describe('rates with and without worms', () => {
  it('come out as table 7b at 5 kg/m2 for the slow pool, and lower without', () => {
    expect(grazingRatio(5) / DECAY_PARAMETERS.slowWithWorms.value).toBeCloseTo(1, 9);
    expect(grazingRatio(0)).toBe(1);
  });
  it('halve in the times printed beside table 7b', () => {
    // Two pools: share labile, its rate, the slow rate and the day on which half is gone.
    for (const [labile, fast, slow, day] of [
      [0.8, 0.1, 0.008, 9.5],
      [0.75, 0.05, 0.006, 20],
      [0.5, 0.012, 0.002, 126],
    ] as const) {
      const left = labile * (1 - decayedFrac(fast, day)) + (1 - labile) * (1 - decayedFrac(slow, day));
      expect(left).toBeCloseTo(0.5, 1.9);
    }
  });
  it('rise with preparation and with a settled bin', () => {
    expect(preparationRatio('whole')).toBeLessThan(preparationRatio('chopped'));
    expect(preparationRatio('chopped')).toBeLessThan(preparationRatio('pureed'));
    expect(maturityRatio(0)).toBeLessThan(maturityRatio(1));
    expect(maturityRatio(1)).toBe(1);
  });
});

describe('castings', () => {
  it('weigh 0.48 kg from 1 kg of food and 0.15 kg of paper (EQ8)', () => {
    const dryInKg = 1 * (1 - 0.85) + 0.15 * (1 - 0.08);
    expect(yieldKgWb(dryInKg, 0.5, 0.7)).toBeCloseTo(0.48, 2);
  });
  it('meet WD9 by the ash that stays', () => {
    expect(lossByAshFrac(0.12, 0.3)).toBeCloseTo(0.6818, 4);
  });
});

describe('nitrogen', () => {
  it('is kept while what rots is poor in it and lost the more the richer it is', () => {
    expect(freedNitrogenFrac(25)).toBe(0);
    expect(nitrogenLossFrac(10)).toBeGreaterThan(nitrogenLossFrac(15));
    expect(nitrogenLossFrac(40)).toBeLessThan(0.05);
  });
});

describe('worms', () => {
  it('take 100, 44, 29, 21 and 18 days from laying to hatching at 10 to 28 C', () => {
    for (const [tempC, days] of [
      [10, 100],
      [15, 44],
      [20, 29],
      [25, 21],
      [28, 18],
    ] as const)
      expect(Math.round(incubationDays(tempC, SPECIES_FACTS['eisenia-fetida']))).toBe(days);
    expect(incubationDays(5, SPECIES_FACTS['eisenia-fetida'])).toBe(Number.POSITIVE_INFINITY);
  });
  it('die of heat along a curve: little at 28 C, most within ten days at 35 C', () => {
    expect(heatDeathPerDay(25)).toBe(0);
    expect(Math.exp(-10 * heatDeathPerDay(28))).toBeGreaterThan(0.9);
    expect(Math.exp(-10 * heatDeathPerDay(35))).toBeLessThan(0.1);
    expect(heatDeathPerDay(33)).toBeGreaterThan(heatDeathPerDay(32));
  });
  it('grow best from 70 to 88 % water and hardly at 52 %', () => {
    expect(moistureGrowthRatio(0.75)).toBe(1);
    expect(moistureGrowthRatio(0.52)).toBe(0);
    expect(moistureGrowthRatio(0.61)).toBeLessThan(0.6);
  });
  it('thrive near neutral and not below 4.5 or above 9.3', () => {
    expect(phGrowthRatio(7)).toBe(1);
    expect(phGrowthRatio(4.2)).toBe(0);
    expect(phGrowthRatio(9.4)).toBe(0);
  });
  it('shrink slowly without food and never below nothing', () => {
    const after = nextRootMass(Math.cbrt(0.3), 0, 0.06, 1, 0.006, 30) ** 3;
    expect(after).toBeGreaterThan(0.3 * 0.8);
    expect(after).toBeLessThan(0.3);
  });
});

describe('soldier-fly larvae', () => {
  it('eat for some weeks after they were seen and never before', () => {
    expect(larvaeRatePerDay(5, -1)).toBe(0);
    expect(larvaeRatePerDay(5, 6)).toBe(0);
    expect(larvaeRatePerDay(6, 6)).toBeGreaterThan(0);
    expect(larvaeRatePerDay(60, 6)).toBe(0);
  });
});
