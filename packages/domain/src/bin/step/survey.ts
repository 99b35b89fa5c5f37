import { GRAMS_PER_KG } from '../../units/mass.ts';
import { phOf } from '../acid.ts';
import { cardinalRatio } from '../temperature.ts';
import { moistureGrowthRatio, WORM_PARAMETERS as P, phGrowthRatio } from '../worms.ts';
import type { StepContext } from './context.ts';

/** Takes stock of each member: what lies where, how wet and sour it is, how many mouths. */
export function survey(context: StepContext): void {
  surveyLayers(context);
  const { bed: b, members } = context.state;
  const s = context.scratch;
  for (let m = 0; m < members; m++) {
    const bedding = b.beddingLabileKg[m]! + b.beddingSlowKg[m]! + b.beddingAshKg[m]!;
    const castings = b.castingsLabileKg[m]! + b.castingsSlowKg[m]! + b.castingsAshKg[m]!;
    const dry = s.zoneSolidsKg[m]! + bedding + castings;
    const water = s.zoneWaterKg[m]! + b.bedWaterKg[m]!;
    s.beddingKg[m] = bedding;
    s.castingsKg[m] = castings;
    s.moistureFracWb[m] = dry + water > 0 ? water / (dry + water) : 0;
    s.ph[m] = phOf(b.acidPhKg[m]!, dry);
  }
}

function surveyLayers({ state, scratch: s }: StepContext): void {
  const { members, zones, zone: z } = state;
  const { zoneSolidsKg, zoneWaterKg } = s;
  zoneSolidsKg.fill(0);
  zoneWaterKg.fill(0);
  for (let zone = 0; zone < zones; zone++)
    for (let m = 0; m < members; m++) {
      const at = zone * members + m;
      const dry = z.labileKg[at]! + z.slowKg[at]! + z.ashKg[at]!;
      const water = z.waterKg[at]!;
      zoneSolidsKg[m]! += dry;
      zoneWaterKg[m]! += water;
      const layer = dry + z.mixedBeddingKg[at]! + water;
      s.zone.moistureFracWb[at] = layer > 0 ? water / layer : 0;
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
      const stageKg = count > 0 ? stageKgs[i]![m]! : 0;
      const rootMass = count > 0 ? Math.cbrt((stageKg * GRAMS_PER_KG) / count) : 0;
      s.stageRoots[i]![m] = rootMass;
      kg += stageKg;
      root += count * rootMass * rootMass;
    }
    s.wormsKg[m] = kg;
    s.appetiteRoot[m] = root;
    const warm = cardinalRatio(b.bedTempC[m]!, P.growMinC.value, P.growOptimumC.value, P.growMaxC.value);
    s.growthEnvironment[m] = warm * moistureGrowthRatio(s.moistureFracWb[m]!) * phGrowthRatio(s.ph[m]!);
  }
}
