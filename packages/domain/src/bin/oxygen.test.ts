import { describe, expect, it } from 'vitest';
import { SECONDS_PER_DAY } from '../units/time.ts';
import {
  airDepthM,
  airFilledPorosity,
  airlessFrac,
  airOxygenGPerM3,
  baseOxygenFrac,
  coverResistanceSPerM,
  diffusionRatio,
  freeDiffusionM2PerS,
  slumpedRatio,
} from './oxygen.ts';
import { microbeRatioQ10 } from './temperature.ts';

/** EQ6 and its check values, derived (science base). */
describe('airFilledPorosity()', () => {
  it.each([
    [500, 0.75, 0.8, 0.55],
    [700, 0.75, 0.8, 0.37],
    [800, 0.75, 0.8, 0.28],
    [900, 0.75, 0.8, 0.19],
  ])('meets EQ6 at %f kg/m3', (densityKgM3, moistureFracWb, organicFracDb, expected) => {
    expect(airFilledPorosity({ densityKgM3, moistureFracWb, organicFracDb })).toBeCloseTo(expected, 2);
  });

  it.each([
    [450, 0.6, 0.8, 0.6256],
    [600, 0.65, 0.5, 0.5024],
    [800, 0.75, 0.7, 0.2885],
  ])('meets WD10 at %f kg/m3', (densityKgM3, moistureFracWb, organicFracDb, expected) => {
    expect(airFilledPorosity({ densityKgM3, moistureFracWb, organicFracDb })).toBeCloseTo(expected, 4);
  });
});

describe('diffusion of oxygen', () => {
  it('in free air meets Currie 1960', () => {
    expect(freeDiffusionM2PerS(10)).toBeCloseTo(1.9e-5, 7);
    expect(freeDiffusionM2PerS(20)).toBeCloseTo(2.01e-5, 7);
    expect(freeDiffusionM2PerS(30)).toBeCloseTo(2.14e-5, 7);
  });

  it('starts from 278 g/m3 at 20 C', () => {
    expect(airOxygenGPerM3(20)).toBeCloseTo(278, 0);
  });

  /** Table 6c at total porosity 0.80: Millington-Quirk 1961, Moldrup m = 3 and 6. */
  it.each([
    [0.1, 0.0007, 0.001, 0.0083],
    [0.15, 0.0028, 0.0035, 0.019],
    [0.2, 0.0073, 0.0083, 0.033],
    [0.3, 0.028, 0.028, 0.074],
    [0.4, 0.074, 0.066, 0.132],
  ])('meets the table of three laws at an air share of %f', (air, quirk, settled, loose) => {
    expect(diffusionRatio(air, 0.8, 3, 'millington-quirk') / quirk).toBeCloseTo(1, 1);
    expect(diffusionRatio(air, 0.8, 3, 'moldrup') / settled).toBeCloseTo(1, 1);
    expect(diffusionRatio(air, 0.8, 6, 'moldrup') / loose).toBeCloseTo(1, 1);
  });
});

/** A fresh layer: 650 kg/m3, 82 % water, organic 0.9 of solids, rate 0.08 a day, settled, under open air from one face. */
function share(massKg: number, tempC: number, coverM = 0): number {
  const densityKgM3 = 650;
  const packing = { densityKgM3, moistureFracWb: 0.82, organicFracDb: 0.9 };
  const air = airFilledPorosity(packing);
  const porosity = air + (densityKgM3 * 0.82) / 1000;
  const organicKgPerM3 = densityKgM3 * 0.18 * 0.9;
  const use = (1.4 * organicKgPerM3 * 0.08 * microbeRatioQ10(tempC) * 1000) / SECONDS_PER_DAY;
  const diffusion = freeDiffusionM2PerS(tempC) * diffusionRatio(air, porosity, 3, 'moldrup');
  const cover = coverResistanceSPerM(coverM, tempC, 'moldrup');
  return airlessFrac(airDepthM(diffusion, use, airOxygenGPerM3(tempC), cover), massKg / densityKgM3 / 0.1);
}

/** The check figures of model.md 1.3, derived. */
describe('airless share of a fresh layer on 0.1 m2', () => {
  it('is nil for 2 kg', () => {
    expect(share(2, 20)).toBe(0);
  });
  it('is 0.49 for 8 kg', () => {
    expect(share(8, 20)).toBeCloseTo(0.49, 2);
  });
  it('is 0.22 for 4 kg at 28 C', () => {
    expect(share(4, 28)).toBeCloseTo(0.22, 2);
  });
  it('is 0.35 for 4 kg under 5 cm of cover', () => {
    expect(share(4, 20, 0.05)).toBeCloseTo(0.35, 2);
  });
});

describe('slumpedRatio()', () => {
  it('leaves a fresh layer as it was put', () => {
    expect(slumpedRatio(0, 80)).toBe(1);
  });
  it('presses a heavy layer flatter than a light one, wet scraps of 650 kg/m3 to no more than packed wet produce, 940', () => {
    expect(slumpedRatio(1, 80)).toBeLessThan(slumpedRatio(1, 20));
    expect(650 / slumpedRatio(1, 20)).toBeGreaterThan(800);
    expect(650 / slumpedRatio(1, 40)).toBeLessThan(940);
  });
});

describe('baseOxygenFrac()', () => {
  it('is that of air where nothing breathes, and nil where air does not reach', () => {
    expect(baseOxygenFrac(1e-6, 0, 278, 0.3)).toBeCloseTo(0.209, 6);
    expect(baseOxygenFrac(1e-6, 0.1, 278, 0.3)).toBe(0);
  });
  it('reaches nil just where the air depth ends', () => {
    const depth = airDepthM(1e-6, 0.01, 278, 0);
    expect(baseOxygenFrac(1e-6, 0.01, 278, depth)).toBeCloseTo(0, 9);
    expect(baseOxygenFrac(1e-6, 0.01, 278, depth * 0.9)).toBeGreaterThan(0);
  });
});
