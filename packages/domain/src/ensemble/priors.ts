import { parameter } from '../bin/parameter.ts';
import type { HowMeasured } from '../bin/scenario.ts';
import { type BinState, MEMBER_RATIOS, type MemberRatio } from '../bin/state.ts';
import { entryUniform, normalQuantile, quasiUniform } from './chance.ts';

/** Model.md 3; EQ14. Each is the standard deviation of the logarithm, printed as a factor. */
export const PRIOR_PARAMETERS = {
  labileRateFactor: parameter(1.6, 'x/÷', 'estimate', 'eq14 gives x/÷2 for one item; a mix of items varies less'),
  slowRateFactor: parameter(1.6, 'x/÷', 'estimate', 'eq14'),
  growthFactor: parameter(
    1.2,
    'x/÷',
    'derived',
    'experiments: SD over mean of replicate groups 0.11-0.27 on mass, and what the model misses between series',
  ),
  appetiteFactor: parameter(1.6, 'x/÷', 'estimate', 'eq14'),
  evaporationFactor: parameter(1.5, 'x/÷', 'estimate', 'none: lid, wind and heating differ'),
  densityFactor: parameter(1.1, 'x/÷', 'estimate', 'science 6d: 0.5-0.7 kg/L'),
  heatLossFactor: parameter(1.3, 'x/÷', 'estimate', 'none'),
  wormStockFactor: parameter(1.25, 'x/÷', 'estimate', 'none: stock is weighed with its bedding'),
  startWaterFactor: parameter(1.15, 'x/÷', 'estimate', 'none: nobody weighs the water of a standing bed'),
  weighedError: parameter(0.03, 'share', 'estimate', 'model 3'),
  containerError: parameter(0.25, 'share', 'estimate', 'model 3'),
  guessedFactor: parameter(1.6, 'x/÷', 'estimate', 'model 3'),
} as const;
const P = PRIOR_PARAMETERS;

export const RATIO_FACTORS: Readonly<Record<MemberRatio, number>> = {
  labileRateRatio: P.labileRateFactor.value,
  slowRateRatio: P.slowRateFactor.value,
  growthRatio: P.growthFactor.value,
  appetiteRatio: P.appetiteFactor.value,
  evaporationRatio: P.evaporationFactor.value,
  densityRatio: P.densityFactor.value,
  heatLossRatio: P.heatLossFactor.value,
};

/** Gives every member its own ratios; one member alone is the median. */
export function drawMembers(state: BinState, seed: number): void {
  const { members, bed } = state;
  bed.weight.fill(1 / members);
  MEMBER_RATIOS.forEach((name, dimension) => {
    const spread = Math.log(RATIO_FACTORS[name]);
    for (let m = 0; m < members; m++)
      bed[name][m] = members === 1 ? 1 : Math.exp(spread * normalQuantile(quasiUniform(seed, m, dimension)));
  });
}

const STOCK_DIMENSION = MEMBER_RATIOS.length;

/** What a member believes of the stock that was put in. Counted worms are certain. */
export function stockRatio(members: number, member: number, seed: number, counted: boolean): number {
  if (members === 1 || counted) return 1;
  return Math.exp(Math.log(P.wormStockFactor.value) * normalQuantile(quasiUniform(seed, member, STOCK_DIMENSION)));
}

const WATER_DIMENSION = STOCK_DIMENSION + 1;

/** What a member believes of the water a bed starts with. */
export function startWaterRatio(members: number, member: number, seed: number): number {
  if (members === 1) return 1;
  return Math.exp(Math.log(P.startWaterFactor.value) * normalQuantile(quasiUniform(seed, member, WATER_DIMENSION)));
}

/** What a member believes of one weight in the log, over the weight as written. */
export function weightRatio(members: number, member: number, seed: number, entry: number, item: number, how: HowMeasured): number {
  if (members === 1) return 1;
  const z = normalQuantile(entryUniform(seed, entry, item, member));
  switch (how) {
    case 'weighed':
      return Math.max(0.5, 1 + P.weighedError.value * z);
    case 'container':
      return Math.max(0.2, 1 + P.containerError.value * z);
    case 'guessed':
      return Math.exp(Math.log(P.guessedFactor.value) * z);
    default:
      return how satisfies never;
  }
}
