import { parameter } from './parameter.ts';
import type { Preparation } from './scenario.ts';

/** Model.md 1.2; EQ1, EQ3 and table 7b. */
export const DECAY_PARAMETERS = {
  moistureSlope: parameter(17.684, '1', 'from memory', 'haug-1993'),
  moistureOffset: parameter(7.0622, '1', 'from memory', 'haug-1993'),
  labileWithWorms: parameter(1.2, 'ratio', 'estimate', 'aira-2006'),
  slowWithWorms: parameter(1.6, 'ratio', 'estimate', 'aira-2006'),
  wormsOfTableKgPerM2: parameter(5, 'kg/m2', 'estimate', 'model 1.2'),
  softFromPerDay: parameter(0.02, '1/d', 'estimate', 'none: between the slowest food and the fastest card of table 7b'),
  humifiedFrac: parameter(
    0.15,
    'share',
    'estimate',
    'none: what microbes leave behind, set by 50 +/- 10 % of solids lost (authorea-420648)',
  ),
  castingsLabileRatePerDay: parameter(0.05, '1/d', 'estimate', 'none: middle of the soft foods of table 7b once through a gut'),
  castingsSlowRatePerDay: parameter(0.0025, '1/d', 'derived', 'yadav-2010'),
  newBinRatio: parameter(0.6, 'ratio', 'estimate', 'none: a bin never given finished compost is slower (common practice)'),
  maturingPerDay: parameter(0.03, '1/d', 'estimate', 'none: about a month to find its microbes'),
  inoculationGain: parameter(0.6, 'share', 'estimate', 'none: one good dose closes most of the gap'),
  maturityLossPerDay: parameter(0.002, '1/d', 'estimate', 'none: variety fades without a dose for many months'),
  wholeRatio: parameter(0.6, 'ratio', 'estimate', 'none: less surface'),
  frozenRatio: parameter(1.2, 'ratio', 'estimate', 'none: burst cells'),
  pureedRatio: parameter(1.3, 'ratio', 'estimate', 'none: more surface'),
} as const;
const P = DECAY_PARAMETERS;

/** Haug's moisture factor; never falls when wet, since wetness acts through air alone (EQ3) @source haug-1993 */
export const moistureRatio = (moistureFracWb: number): number =>
  1 / (1 + Math.exp(-P.moistureSlope.value * moistureFracWb + P.moistureOffset.value));

/** Share of a first-order pool that goes in a time, exact for any step. */
export const decayedFrac = (ratePerDay: number, days: number): number => 1 - Math.exp(-ratePerDay * days);

export function preparationRatio(preparation: Preparation): number {
  switch (preparation) {
    case 'whole':
      return P.wholeRatio.value;
    case 'chopped':
      return 1;
    case 'frozen':
      return P.frozenRatio.value;
    case 'pureed':
      return P.pureedRatio.value;
    default:
      return preparation satisfies never;
  }
}

/** Speed of a bin by how well its microbes are settled in. */
export const maturityRatio = (maturityFrac: number): number => P.newBinRatio.value + (1 - P.newBinRatio.value) * maturityFrac;

/** The worms' part of the slow pool's rate: at 5 kg/m2 of active worms the with-worm rate of table 7b comes out. */
export const grazingRatio = (activeWormsKgPerM2: number): number =>
  1 + (P.slowWithWorms.value - 1) * Math.min(activeWormsKgPerM2 / P.wormsOfTableKgPerM2.value, 2);
