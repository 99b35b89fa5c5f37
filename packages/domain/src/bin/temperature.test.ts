import { describe, expect, it } from 'vitest';
import { SECONDS_PER_DAY } from '../units/time.ts';
import {
  cardinalRatio,
  localRiseC,
  lumpedTargetC,
  metabolicRatio,
  microbeRatioQ10,
  microbeRatioRothC,
  peakOverMeanC,
  steadySlabRiseC,
} from './temperature.ts';

describe('microbeRatioQ10()', () => {
  it.each([
    [5, 0.35],
    [10, 0.5],
    [15, 0.71],
    [20, 1],
    [25, 1.41],
    [30, 2],
    [35, 2.83],
    [45, 2.83],
    [-1, 0],
  ])('is as tabled at %f C (EQ2)', (tempC, expected) => {
    expect(microbeRatioQ10(tempC)).toBeCloseTo(expected, 2);
  });
});

describe('microbeRatioRothC()', () => {
  it.each([
    [5, 0.18],
    [10, 0.39],
    [25, 1.35],
  ])('is as printed relative to 20 C at %f C (EQ2, second-hand)', (tempC, expected) => {
    expect(microbeRatioRothC(tempC)).toBeCloseTo(expected, 1);
  });
  it('agrees with Q10 within 8 % from 15 to 25 C', () => {
    for (let tempC = 15; tempC <= 25; tempC++) expect(microbeRatioRothC(tempC) / microbeRatioQ10(tempC)).toBeCloseTo(1, 0.9);
  });
});

describe('cardinalRatio()', () => {
  /** Feeding 3/22/33, growth 4/25/34, cocoons 7/22/31: the response table of the science base, derived from EQ4. */
  it.each([
    [5, 0.04, 0.01, 0],
    [10, 0.34, 0.18, 0.13],
    [15, 0.73, 0.5, 0.6],
    [20, 0.97, 0.84, 0.96],
    [25, 0.94, 1, 0.9],
    [30, 0.49, 0.74, 0.22],
    [35, 0, 0, 0],
  ])('is as tabled at %f C (EQ4)', (tempC, feeding, growth, cocoons) => {
    expect(cardinalRatio(tempC, 3, 22, 33)).toBeCloseTo(feeding, 1.9);
    expect(cardinalRatio(tempC, 4, 25, 34)).toBeCloseTo(growth, 1.9);
    expect(cardinalRatio(tempC, 7, 22, 31)).toBeCloseTo(cocoons, 1.9);
  });
  it('is 1 at the optimum and 0.343 for feeding at 10 C', () => {
    expect(cardinalRatio(22, 3, 22, 33)).toBe(1);
    expect(cardinalRatio(10, 3, 22, 33)).toBeCloseTo(0.343, 3);
  });
});

describe('metabolicRatio()', () => {
  it.each([
    [10, 0.6],
    [20, 0.85],
    [25, 1],
    [30, 1.17],
  ])('is as printed at %f C (EQ5)', (tempC, expected) => {
    expect(metabolicRatio(tempC)).toBeCloseTo(expected, 2);
  });
});

/** EQ10 on an insulated base is an upper bound: for a 6 cm layer it says about 24 C where the lumped form gives about 5. */
describe('self-heating of a 6 cm layer', () => {
  const oxygenUseGPerM3S = (1.4 * 650 * 0.18 * 0.9 * 0.08 * 1000) / SECONDS_PER_DAY;
  const heatWPerM3 = oxygenUseGPerM3S * 14_000;

  it('is about 24 C on an insulated base (EQ10, upper bound)', () => {
    expect(steadySlabRiseC(heatWPerM3, 0.06)).toBeGreaterThan(21);
    expect(steadySlabRiseC(heatWPerM3, 0.06)).toBeLessThan(26);
  });

  it('is about 5 C by the lumped balance with its local rise', () => {
    const areaM2 = 0.1;
    const heatW = heatWPerM3 * 0.06 * areaM2;
    // The layer lies in a bin whose whole surface loses heat: top, base and 30 cm of walls.
    const surfaceM2 = 2 * areaM2 + 4 * Math.sqrt(areaM2) * 0.3;
    const lumped = lumpedTargetC({ airTempC: 0, swingC: 0, sunGainC: 0, heatW, lossWPerK: 4 * surfaceM2, capacityKjPerK: 50 });
    const rise = lumped + localRiseC(heatWPerM3, 0.06);
    expect(rise).toBeGreaterThan(4);
    expect(rise).toBeLessThan(8);
  });
});

describe('peakOverMeanC()', () => {
  const bin = { airTempC: 25, swingC: 12, sunGainC: 0, heatW: 0, lossWPerK: 4 };
  it('is half the swing in a bin without weight and less in a heavy one', () => {
    expect(peakOverMeanC({ ...bin, capacityKjPerK: 0.01 })).toBeCloseTo(6, 3);
    expect(peakOverMeanC({ ...bin, capacityKjPerK: 200 })).toBeLessThan(2);
  });
  it('rises with the sun', () => {
    expect(peakOverMeanC({ ...bin, capacityKjPerK: 50, sunGainC: 7 })).toBeGreaterThan(peakOverMeanC({ ...bin, capacityKjPerK: 50 }));
  });
});
