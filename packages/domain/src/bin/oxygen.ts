import { kelvinFromC, ZERO_CELSIUS_K } from '../units/temperature.ts';
import { WATER_KG_PER_M3 } from '../units/water.ts';
import { parameter } from './parameter.ts';

/** Model.md 1.3; EQ6, EQ7. */
export const OXYGEN_PARAMETERS = {
  oxygenPerSolids: parameter(1.4, 'g/g', 'from memory', 'haug-1993'),
  diffusionAt0C: parameter(1.78e-5, 'm2/s', 'from memory', 'currie-1960'),
  diffusionExponent: parameter(1.75, '1', 'from memory', 'currie-1960'),
  airOxygenFrac: parameter(0.209, 'share', 'from memory', 'composition of air'),
  organicDensityKgM3: parameter(1600, 'kg/m3', 'from memory', 'van-ginkel-1999'),
  mineralDensityKgM3: parameter(2500, 'kg/m3', 'from memory', 'van-ginkel-1999'),
  settledExponent: parameter(3, '1', 'from memory', 'moldrup-1997'),
  loosenedExponent: parameter(6, '1', 'from memory', 'moldrup-1997'),
  loosenedDays: parameter(7, 'd', 'estimate', 'none: fluffed bedding is flat again within two visits'),
  settlingDays: parameter(5, 'd', 'estimate', 'none: soft food has slumped within a week'),
  settledVolumeRatio: parameter(0.8, 'ratio', 'estimate', 'none: settled bed over fresh bed'),
  mostLayerStrain: parameter(0.45, 'share', 'estimate', 'none: slumped wet scraps reach 0.9-1 kg/L (NRAES-54 packed wet produce 0.94)'),
  halfStrainKgPerM2: parameter(20, 'kg/m2', 'estimate', 'none: a layer of 3 cm presses itself flat by a fifth'),
  anaerobicRatio: parameter(0.3, 'ratio', 'estimate', 'none: ferments are slower than respiration'),
  leastAirFrac: parameter(0.03, 'share', 'estimate', 'none: entrapped air; a layer swells before it holds less'),
  coverPorosity: parameter(0.85, 'share', 'estimate', 'model 1.3 check figure'),
  coverAirFrac: parameter(0.45, 'share', 'estimate', 'model 1.3 check figure'),
  choppedLayerKgM3: parameter(650, 'kg/m3', 'estimate', 'science 6d: 0.5-0.7 kg/L chopped'),
  wholeLayerKgM3: parameter(500, 'kg/m3', 'estimate', 'science 6d: 0.3-0.4 kg/L loose, pressed down by its cover'),
  frozenLayerKgM3: parameter(750, 'kg/m3', 'estimate', 'none: collapses on thawing'),
  pureedLayerKgM3: parameter(900, 'kg/m3', 'estimate', 'none: a wet mash'),
  beddingDryKgM3: parameter(75, 'kg/m3', 'estimate', 'science 6d: wet shredded card 0.2-0.35 kg/L at 75 % water'),
  castingsDryKgM3: parameter(200, 'kg/m3', 'estimate', 'science 8: 0.65 kg/L at 70 % water'),
  bedOpenFrac: parameter(0.2, 'share', 'estimate', 'none: below this much air a bed passes none upward'),
} as const;
const P = OXYGEN_PARAMETERS;

const GAS_CONSTANT_J_PER_MOL_K = 8.314;
const PRESSURE_PA = 101_325;
const OXYGEN_G_PER_MOL = 32;

/** O2 in air, [g/m3]; 278 at 20 C (EQ7). */
export const airOxygenGPerM3 = (tempC: number): number =>
  (P.airOxygenFrac.value * PRESSURE_PA * OXYGEN_G_PER_MOL) / (GAS_CONSTANT_J_PER_MOL_K * kelvinFromC(tempC));

/** Diffusion of O2 in free air, [m2/s] @source currie-1960 */
export const freeDiffusionM2PerS = (tempC: number): number =>
  P.diffusionAt0C.value * Math.exp(P.diffusionExponent.value * Math.log(kelvinFromC(tempC) / ZERO_CELSIUS_K));

/**
 * How much faster a gas diffuses in a layer somewhat warmer than the bed, by the first terms of the power's series.
 *
 * @valid rises up to a tenth of the absolute temperature, to 1e-4
 */
export function warmerDiffusionRatio(riseC: number, bedTempC: number): number {
  const x = riseC / kelvinFromC(bedTempC);
  const n = P.diffusionExponent.value;
  return 1 + x * n * (1 + (x * (n - 1)) / 2);
}

export interface Packing {
  readonly densityKgM3: number;
  readonly moistureFracWb: number;
  readonly organicFracDb: number;
}

/**
 * Air-filled porosity, EQ6.
 *
 * AFP = 1 - rho (w/1000 + (1-w) OM/1600 + (1-w)(1-OM)/2500)
 *
 * @shape scalar -> scalar
 * @returns Share of the volume that is air; may be below 0 for a packing that can not exist
 * @source van-ginkel-1999
 */
export function airFilledPorosity(packing: Packing): number {
  const { densityKgM3, moistureFracWb: w, organicFracDb: om } = packing;
  const solids = om / P.organicDensityKgM3.value + (1 - om) / P.mineralDensityKgM3.value;
  return 1 - densityKgM3 * (w / WATER_KG_PER_M3 + (1 - w) * solids);
}

export type DiffusionLaw = 'moldrup' | 'millington-quirk';

/**
 * Diffusion of O2 in a packed layer over that in free air.
 *
 * Moldrup: 0.66 Phi (AFP/Phi)^((12-m)/3); Millington-Quirk 1961: AFP^(10/3)/Phi^2
 *
 * @source moldrup-1997, millington-quirk-1961
 */
export function diffusionRatio(airFrac: number, porosity: number, exponentM: number, law: DiffusionLaw): number {
  if (law === 'millington-quirk') return airFrac ** (10 / 3) / (porosity * porosity);
  // By exp and log, which cost half of a power.
  return 0.66 * porosity * Math.exp(((12 - exponentM) / 3) * Math.log(airFrac / porosity));
}

/** Moldrup's law where nothing is loose (m = 3): the least that it gives. */
export function packedDiffusionRatio(airFrac: number, porosity: number): number {
  const filled = airFrac / porosity;
  return 0.66 * porosity * filled * filled * filled;
}

/**
 * How deep air reaches into a layer that uses Q, under an inert cover.
 *
 * L = D (-b/Db + sqrt((b/Db)^2 + 2 C0/(D Q))); with no cover sqrt(2 D C0/Q)
 *
 * @shape scalar -> scalar
 * @returns Depth, [m]; Infinity where nothing uses oxygen
 * @source lamotta-1976, eq7
 */
export function airDepthM(diffusionM2PerS: number, useGPerM3S: number, airGPerM3: number, coverResistanceSPerM: number): number {
  if (useGPerM3S <= 0) return Number.POSITIVE_INFINITY;
  const b = coverResistanceSPerM;
  return diffusionM2PerS * (Math.sqrt(b * b + (2 * airGPerM3) / (diffusionM2PerS * useGPerM3S)) - b);
}

/** Share of a layer that air does not reach. */
export const airlessFrac = (reachM: number, depthM: number): number => (depthM <= reachM || depthM <= 0 ? 0 : 1 - reachM / depthM);

/** Resistance of the cover to O2, b/Db [s/m]. */
export function coverResistanceSPerM(depthM: number, tempC: number, law: DiffusionLaw): number {
  if (depthM <= 0) return 0;
  const ratio = diffusionRatio(P.coverAirFrac.value, P.coverPorosity.value, P.settledExponent.value, law);
  return depthM / (freeDiffusionM2PerS(tempC) * ratio);
}

/** Concentration left at the base of a slab fed from the top, as a share of the gas; 0 where air does not reach it (EQ7). */
export function baseOxygenFrac(diffusionM2PerS: number, useGPerM3S: number, airGPerM3: number, depthM: number): number {
  const left = airGPerM3 - (useGPerM3S * depthM * depthM) / (2 * diffusionM2PerS);
  return (P.airOxygenFrac.value * Math.max(0, left)) / airGPerM3;
}

/** Moldrup's exponent between settled and just loosened. */
export const packingExponent = (looseFrac: number): number =>
  P.settledExponent.value + (P.loosenedExponent.value - P.settledExponent.value) * looseFrac;

/** Room of a layer that has slumped under its own wet mass over its fresh room: the heavier it lies, the flatter. */
export function slumpedRatio(settledFrac: number, loadKgPerM2: number): number {
  return 1 - (P.mostLayerStrain.value * settledFrac * loadKgPerM2) / (loadKgPerM2 + P.halfStrainKgPerM2.value);
}

/** Room of a settled bed over its fresh room. */
export const settledRatio = (settledFrac: number): number => 1 - (1 - P.settledVolumeRatio.value) * settledFrac;
