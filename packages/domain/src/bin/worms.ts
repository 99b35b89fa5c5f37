import { parameter } from './parameter.ts';
import type { Species } from './scenario.ts';

/**
 * Model.md 1.4. The animals live on the microbes that rot the food, so what a day's rotting gives is what there is to
 * eat: worms share that flow, grow by the cube root of their mass, slow towards the mass the feed can carry, and shrink
 * no faster than they burn when it can not.
 */
export const WORM_PARAMETERS = {
  growthPerDay: parameter(
    0.065,
    'g^(1/3)/d',
    'derived',
    'edwards-1988, tripathi-2004, gunadi-2002: slope of cube-root mass of well-fed young at 25 C',
  ),
  flowPerAppetite: parameter(0.025, 'g/d per g^(2/3)', 'derived', 'dominguez-1997: single against sixteen worms on one batch'),
  starvingLossPerDay: parameter(0.006, '1/d', 'derived', 'eq13'),
  ingestionKgPerKgDay: parameter(0.0325, 'kg dry/kg/d', 'estimate', 'eq12: 0.25 kg of scraps at 87 % water'),
  youngAppetiteExponent: parameter(-1 / 3, '1', 'published', 'johnston-2014'),
  typicalMassG: parameter(0.3, 'g', 'estimate', 'science 2b: mixed ages'),
  beddingAppetiteRatio: parameter(0.3, 'ratio', 'estimate', 'none: bedding is eaten last'),
  softenedPerRotted: parameter(
    2,
    'ratio',
    'estimate',
    'none: worms swallow what microbes have softened; soft food is gone by the next visit, fibres stay for weeks (common practice)',
  ),
  ingestionHalfKgPerM2Day: parameter(0.02, 'kg dry/m2/d', 'estimate', 'none: a film of soft food is found as well as a layer'),
  feedMinC: parameter(3, 'C', 'estimate', 'science 3'),
  feedOptimumC: parameter(22, 'C', 'estimate', 'science 3'),
  feedMaxC: parameter(33, 'C', 'estimate', 'science 3'),
  growMinC: parameter(4, 'C', 'estimate', 'science 3'),
  growOptimumC: parameter(25, 'C', 'published', 'edwards-1988'),
  growMaxC: parameter(34, 'C', 'estimate', 'science 3'),
  layMinC: parameter(7, 'C', 'estimate', 'science 3'),
  layOptimumC: parameter(25, 'C', 'from memory', 'edwards-1988: most cocoons at 25 C'),
  layMaxC: parameter(33, 'C', 'estimate', 'teferedegn-2024: 0.52 a day at 27 C; reduced at 30 C'),
  dryZeroFracWb: parameter(0.545, 'share', 'derived', 'reinecke-venter-1985: no growth at 52 %, little at 61 %'),
  dryFullFracWb: parameter(0.7, 'share', 'derived', 'reinecke-venter-1985: best at 69.5 %'),
  wetFullFracWb: parameter(0.88, 'share', 'published', 'loehr-1985: 84-91 % best'),
  wetZeroFracWb: parameter(0.97, 'share', 'estimate', 'none: a slurry'),
  acidZeroPh: parameter(4.3, 'pH', 'estimate', 'kaplan-1980: lethal below 5 within a week'),
  acidFullPh: parameter(5.5, 'pH', 'estimate', 'science 5'),
  alkaliFullPh: parameter(8.3, 'pH', 'estimate', 'science 5'),
  alkaliZeroPh: parameter(9.3, 'pH', 'estimate', 'kaplan-1980: lethal above 9'),
  baseDeathPerDay: parameter(0.0005, '1/d', 'published', 'podolak-2020: 17 % a year'),
  heatDeathAt30PerDay: parameter(0.004, '1/d', 'estimate', 'loehr-1985: reduced at 30 C over 20 weeks, dead at 35 C'),
  heatDeathPerC: parameter(1, '1/C', 'estimate', 'eq11'),
  acidDeathPerDay: parameter(0.15, '1/d', 'published', 'kaplan-1980: all dead within a week'),
  droughtDeathPerDay: parameter(0.08, '1/d', 'derived', 'reinecke-venter-1985: dying at 52 %'),
  droughtFracWb: parameter(0.57, 'share', 'derived', 'reinecke-venter-1985'),
  airlessDeathPerDay: parameter(0.03, '1/d', 'estimate', 'none: worms leave an airless bed'),
  airlessRefugeFrac: parameter(0.5, 'share', 'estimate', 'none: while half the bed has air they sit there'),
  starvingDeathPerDay: parameter(0.002, '1/d', 'estimate', 'none: a few die, most shrink'),
  maturityG: parameter(0.25, 'g', 'published', 'johnston-2014'),
  stageStepPerDay: parameter(0.25, '1/d', 'estimate', 'none: a stage is left within days of reaching its mass'),
  cocoonsPerAdultDay: parameter(0.54, '1/d', 'published', 'science 2d: 3.8 a week at the most'),
  layingFromFoodRatio: parameter(0.3, 'ratio', 'estimate', 'none: no laying where adults only keep themselves'),
  layingFullFoodRatio: parameter(0.8, 'ratio', 'estimate', 'none: well fed'),
  crowdKgPerM2: parameter(6, 'kg/m2', 'estimate', 'reeh-1992: laying almost stops in a crowd'),
  hatchFrac: parameter(0.83, 'share', 'published', 'edwards-1988 as listed; teferedegn-2024 0.87'),
  carbonFracOfLive: parameter(0.08, 'share', 'estimate', 'none: 17 % dry, 47 % of it carbon'),
  nitrogenFracOfLive: parameter(0.0175, 'share', 'estimate', 'none: 10 % of dry'),
  tissueYield: parameter(0.5, 'share', 'estimate', 'none: half of what is built with is burnt'),
  restingCarbonPerDay: parameter(0.0016, 'kg C/kg/d', 'derived', 'meehan-2006: 0.16 mg O2/g/h at 25 C, active 1.2'),
} as const;

/** What the three species do differently. */
export interface SpeciesFacts {
  readonly fullMassG: number;
  readonly growthRatio: number;
  readonly birthMassG: number;
  readonly cocoonMassG: number;
  readonly maturityG: number;
  readonly youngPerCocoon: number;
  readonly cocoonsRatio: number;
  /** Days to hatching are degreeDays / (T - baseC). */
  readonly incubationDegreeDays: number;
  readonly incubationBaseC: number;
}

const EISENIA: SpeciesFacts = {
  fullMassG: 1.2,
  growthRatio: 1,
  birthMassG: 0.005,
  cocoonMassG: 0.0145,
  maturityG: WORM_PARAMETERS.maturityG.value,
  youngPerCocoon: 3,
  cocoonsRatio: 1,
  incubationDegreeDays: 400,
  incubationBaseC: 6,
};

/** Sources: podolak-2020 (cocoon mass), teferedegn-2024, viljoen-1992 (D. veneta: mass, cocoons, incubation, young). */
export const SPECIES_FACTS: Readonly<Record<Species, SpeciesFacts>> = {
  'eisenia-fetida': EISENIA,
  'eisenia-andrei': EISENIA,
  'dendrobaena-veneta': {
    fullMassG: 2.4,
    growthRatio: 1,
    birthMassG: 0.024,
    cocoonMassG: 0.032,
    maturityG: 0.6,
    youngPerCocoon: 1.1,
    cocoonsRatio: 0.6,
    incubationDegreeDays: 1034,
    incubationBaseC: 0.4,
  },
};

/** Piecewise straight response: 0 below `zero`, 1 from `full` on (or the mirror when zero > full). */
export function ramp(value: number, zero: number, full: number): number {
  const share = (value - zero) / (full - zero);
  return Math.min(1, Math.max(0, share));
}

const P = WORM_PARAMETERS;

/** Moisture's hold on growth; 1 from 70 to 88 % @source reinecke-venter-1985, loehr-1985 */
export const moistureGrowthRatio = (moistureFracWb: number): number =>
  Math.min(
    ramp(moistureFracWb, P.dryZeroFracWb.value, P.dryFullFracWb.value),
    ramp(moistureFracWb, P.wetZeroFracWb.value, P.wetFullFracWb.value),
  );

/** Acidity's hold on growth and appetite @source kaplan-1980 */
export const phGrowthRatio = (ph: number): number =>
  Math.min(ramp(ph, P.acidZeroPh.value, P.acidFullPh.value), ramp(ph, P.alkaliZeroPh.value, P.alkaliFullPh.value));

/** Deaths (and leavings) a day from heat; a curve, never one exact temperature @source loehr-1985, eq11 */
export const heatDeathPerDay = (tempC: number): number =>
  tempC <= 26 ? 0 : Math.min(5, P.heatDeathAt30PerDay.value * Math.exp(P.heatDeathPerC.value * (tempC - 30)));

/** Days from laying to hatching; Infinity where it is too cold. E. fetida 400/(T-6) @source science 2d, viljoen-1992 */
export const incubationDays = (tempC: number, facts: Pick<SpeciesFacts, 'incubationDegreeDays' | 'incubationBaseC'>): number =>
  tempC <= facts.incubationBaseC ? Number.POSITIVE_INFINITY : facts.incubationDegreeDays / (tempC - facts.incubationBaseC);

/**
 * Mass after a time of growing or shrinking, in cube-root grams.
 *
 * growing: c' = c + (a/3)(phi - c^2/M^2); shrinking: m' = m exp(-s (1 - phi M^2/c^2))
 *
 * @shape scalar -> scalar
 * @returns Cube root of mass, [g^(1/3)]
 * @source edwards-1988, tripathi-2004, gunadi-2002, eq13 (see WORM_PARAMETERS.growthPerDay, starvingLossPerDay)
 */
export function nextRootMass(
  rootG: number,
  foodRatio: number,
  growthPerDay: number,
  fullRootG: number,
  shrinkPerDay: number,
  days: number,
): number {
  const need = (rootG * rootG) / (fullRootG * fullRootG);
  if (foodRatio >= need) return rootG + (growthPerDay / 3) * (foodRatio - need) * days;
  return rootG * Math.exp((-shrinkPerDay / 3) * (1 - foodRatio / need) * days);
}
