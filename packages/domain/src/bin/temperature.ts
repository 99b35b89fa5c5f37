import { kelvinFromC } from '../units/temperature.ts';
import { SECONDS_PER_DAY } from '../units/time.ts';
import { parameter } from './parameter.ts';

/** Model.md 1.1; EQ2, EQ4, EQ10. */
export const TEMPERATURE_PARAMETERS = {
  microbeQ10: parameter(2, 'ratio per 10 C', 'published', 'crohn-2006'),
  microbeHoldC: parameter(35, 'C', 'estimate', 'none: compost microbes of a cool bed gain nothing above it'),
  metabolicActivationEv: parameter(0.25, 'eV', 'published', 'meehan-2006'),
  heatPerOxygenKjPerG: parameter(14, 'kJ/g', 'from memory', 'haug-1993'),
  evaporationHeatKjPerKg: parameter(2450, 'kJ/kg', 'from memory', 'latent heat of water at 20 C'),
  waterHeatKjPerKgK: parameter(4.18, 'kJ/kg/K', 'from memory', 'heat capacity of water'),
  solidsHeatKjPerKgK: parameter(1.4, 'kJ/kg/K', 'derived', 'thesis-heat: 2.78 at 54 % moisture less its water'),
  conductivityWPerMK: parameter(0.4, 'W/m/K', 'published', 'ahn-2009'),
  filmWPerM2K: parameter(8, 'W/m2/K', 'from memory', 'eq10'),
  binLossWPerM2K: parameter(4, 'W/m2/K', 'estimate', 'none: still air outside a plastic or wooden wall'),
  vesselLossWPerM2K: parameter(10, 'W/m2/K', 'estimate', 'none: small dish in moving incubator air'),
  localRiseMaxC: parameter(35, 'C', 'estimate', 'none: guards the lumped form beyond its range'),
  dailySwingIndoorsC: parameter(4, 'C', 'estimate', 'none: max minus min where only a mean is given'),
  sunGainPartC: parameter(3, 'C', 'estimate', 'none: dark lid in part sun'),
  sunGainFullC: parameter(7, 'C', 'estimate', 'none: dark lid in full sun'),
} as const;
const P = TEMPERATURE_PARAMETERS;

const LOG_OF_Q10_PER_C = Math.log(P.microbeQ10.value) / 10;
const BOLTZMANN_EV_PER_K = 8.62e-5;
const REFERENCE_K = 298.15;

/**
 * Speed of microbes against 20 C.
 *
 * EQ2: f = 2^((T-20)/10), 0 below 0 C, held above 35 C
 *
 * @shape scalar -> scalar
 * @returns Ratio; 1 at 20 C
 * @source crohn-2006
 */
export function microbeRatioQ10(tempC: number): number {
  if (tempC < 0) return 0;
  return Math.exp(LOG_OF_Q10_PER_C * (Math.min(tempC, P.microbeHoldC.value) - 20));
}

/** RothC's temperature factor relative to 20 C: the named alternative to EQ2 @source coleman-jenkinson */
export function microbeRatioRothC(tempC: number): number {
  if (tempC <= -18) return 0;
  const rate = (c: number): number => 47.91 / (1 + Math.exp(106.06 / (c + 18.27)));
  return rate(Math.min(tempC, P.microbeHoldC.value)) / rate(20);
}

/**
 * Cardinal temperature with inflection.
 *
 * EQ4: f = (T-Tx)(T-Tn)^2 / ((To-Tn)((To-Tn)(T-To) - (To-Tx)(To+Tn-2T)))
 *
 * @shape scalar -> scalar
 * @returns Ratio, 1 at the optimum, 0 outside the limits
 * @valid optimum above the middle of the limits
 * @source rosso-1993
 */
export function cardinalRatio(tempC: number, minC: number, optimumC: number, maxC: number): number {
  if (tempC <= minC || tempC >= maxC) return 0;
  const above = tempC - minC;
  const span = optimumC - minC;
  return ((tempC - maxC) * above * above) / (span * (span * (tempC - optimumC) - (optimumC - maxC) * (optimumC + minC - 2 * tempC)));
}

/** Worms' metabolism against 25 C, EQ5 @source meehan-2006 */
export const metabolicRatio = (tempC: number): number =>
  Math.exp((-P.metabolicActivationEv.value / BOLTZMANN_EV_PER_K) * (1 / kelvinFromC(tempC) - 1 / REFERENCE_K));

/**
 * Steady rise of a slab on an insulated base under a film of air: EQ10, an upper bound (no evaporation, no lack of oxygen).
 *
 * dT = q H^2/(2k) + q H/h
 *
 * @shape scalar -> scalar
 * @returns Rise at the base, [C]
 * @source eq10
 */
export function steadySlabRiseC(heatWPerM3: number, depthM: number): number {
  return (heatWPerM3 * depthM * depthM) / (2 * P.conductivityWPerMK.value) + (heatWPerM3 * depthM) / P.filmWPerM2K.value;
}

/** Rise in the middle of a layer cooled on both sides, q H^2/(8k); what the model uses beside the lumped balance @source model 1.1 */
export function localRiseC(heatWPerM3: number, depthM: number): number {
  return Math.min((heatWPerM3 * depthM * depthM) / (8 * P.conductivityWPerMK.value), P.localRiseMaxC.value);
}

export interface LumpedBalance {
  readonly airTempC: number;
  readonly swingC: number;
  readonly sunGainC: number;
  readonly heatW: number;
  readonly lossWPerK: number;
  readonly capacityKjPerK: number;
}

/** Time constant of the bed [s]. */
export const timeConstantS = (balance: Pick<LumpedBalance, 'capacityKjPerK' | 'lossWPerK'>): number =>
  (balance.capacityKjPerK * 1000) / balance.lossWPerK;

/** Mean the bed tends to, and the height of its day's peak over the mean: half the swing, damped by the bed's own slowness. */
export const lumpedTargetC = (balance: LumpedBalance): number => balance.airTempC + balance.heatW / balance.lossWPerK;

const DAY_ANGULAR_PER_S = (2 * Math.PI) / SECONDS_PER_DAY;

export function peakOverMeanC(balance: LumpedBalance): number {
  const lag = DAY_ANGULAR_PER_S * timeConstantS(balance);
  const damping = 1 / Math.sqrt(1 + lag * lag);
  return (balance.swingC / 2 + balance.sunGainC) * damping;
}
