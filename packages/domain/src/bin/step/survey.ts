import { GRAMS_PER_KG } from '../../units/mass.ts';
import { phOf } from '../acid.ts';
import { cardinalRatio } from '../temperature.ts';
import { moistureGrowthRatio, WORM_PARAMETERS as P, phGrowthRatio } from '../worms.ts';
import type { StepContext } from './context.ts';

/** Takes stock of each member: what lies where, how wet and sour it is, how many mouths. */
export function survey({ state, scratch: s }: StepContext): void {
  const { members, zones, bed: b, zone: z } = state;
  for (let m = 0; m < members; m++) {
    let solids = 0;
    let water = 0;
    for (let at = m; at < members * zones; at += members) {
      const dry = z.labileKg[at]! + z.slowKg[at]! + z.ashKg[at]!;
      solids += dry;
      water += z.waterKg[at]!;
      const layer = dry + z.mixedBeddingKg[at]! + z.waterKg[at]!;
      s.zone.moistureFracWb[at] = layer > 0 ? z.waterKg[at]! / layer : 0;
    }
    const bedding = b.beddingLabileKg[m]! + b.beddingSlowKg[m]! + b.beddingAshKg[m]!;
    const castings = b.castingsLabileKg[m]! + b.castingsSlowKg[m]! + b.castingsAshKg[m]!;
    const dry = solids + bedding + castings;
    const wet = dry + water + b.bedWaterKg[m]!;
    s.beddingKg[m] = bedding;
    s.castingsKg[m] = castings;
    s.zoneSolidsKg[m] = solids;
    s.zoneWaterKg[m] = water;
    s.moistureFracWb[m] = wet > 0 ? (water + b.bedWaterKg[m]!) / wet : 0;
    s.ph[m] = phOf(b.acidPhKg[m]!, dry);
  }
}

/** Counts the worms and what their surroundings leave of their vigour. */
export function surveyWorms({ state, scratch: s }: StepContext): void {
  const { members, bed: b, stageCounts, stageKgs } = state;
  for (let m = 0; m < members; m++) {
    let kg = 0;
    let root = 0;
    for (let i = 0; i < stageCounts.length; i++) {
      const count = stageCounts[i]![m]!;
      if (count <= 0) continue;
      const stageKg = stageKgs[i]![m]!;
      kg += stageKg;
      const rootMass = Math.cbrt((stageKg * GRAMS_PER_KG) / count);
      root += count * rootMass * rootMass;
    }
    s.wormsKg[m] = kg;
    s.appetiteRoot[m] = root;
    const warm = cardinalRatio(b.bedTempC[m]!, P.growMinC.value, P.growOptimumC.value, P.growMaxC.value);
    s.growthEnvironment[m] = warm * moistureGrowthRatio(s.moistureFracWb[m]!) * phGrowthRatio(s.ph[m]!);
  }
}
