import { GRAMS_PER_KG } from '../../units/mass.ts';
import { DECAY_PARAMETERS } from '../decay.ts';
import { OXYGEN_PARAMETERS } from '../oxygen.ts';
import { cardinalRatio } from '../temperature.ts';
import { moistureGrowthRatio, WORM_PARAMETERS as P, phGrowthRatio } from '../worms.ts';
import type { StepContext } from './context.ts';
import { shrinkLayer } from './matter.ts';

const feedRatioAt20 = cardinalRatio(20, P.feedMinC.value, P.feedOptimumC.value, P.feedMaxC.value);

/** Worms pass food and then bedding through: what comes out is castings (model.md 1.4, 1.7; EQ12's capacity). */
export function passThrough(context: StepContext): void {
  const { state, scratch: s, geometry, days } = context;
  const { members, zones, bed: b, zone: z } = state;
  const rootOfTypical = Math.cbrt(P.typicalMassG.value);
  for (let m = 0; m < members; m++) {
    const warm = cardinalRatio(b.bedTempC[m]!, P.feedMinC.value, P.feedOptimumC.value, P.feedMaxC.value) / feedRatioAt20;
    const around = moistureGrowthRatio(s.moistureFracWb[m]!) * phGrowthRatio(s.ph[m]!);
    // Appetite goes with mass^(2/3), so small worms eat more for their weight.
    const massKg = (s.appetiteRoot[m]! * rootOfTypical) / GRAMS_PER_KG;
    const mostKg = P.ingestionKgPerKgDay.value * massKg * warm * around * b.appetiteRatio[m]!;
    b.appetiteKgDbPerDay[m] = mostKg;
    if (mostKg <= 0) continue;
    let foodKg = 0;
    let midKg = 0;
    for (let at = m; at < members * zones; at += members) {
      const soft = softness(z.labileRatePerDay[at]!);
      const tough = z.slowKg[at]! + z.ashKg[at]!;
      foodKg += reachKg(z.labileKg[at]! * soft, tough, z.airlessFrac[at]!);
      // Rot and worms share the day, so appetite meets the food of its middle.
      midKg += reachKg((z.labileKg[at]! + s.zone.labileLostKg[at]! / 2) * soft, tough, z.airlessFrac[at]!);
    }
    const strength = eatingStrength(midKg, mostKg, P.ingestionHalfKgPerM2.value * geometry.areaM2, days);
    for (let zone = 0; zone < zones; zone++) eatLayer(context, m, zone * members + m, strength);
    const eatenKg = (-Math.expm1(-strength) * foodKg) / days;
    eatBedding(context, m, Math.max(0, mostKg - eatenKg) * P.beddingAppetiteRatio.value * days);
    b.bedWaterKg[m]! += s.releasedWaterKg[m]!;
    s.releasedWaterKg[m] = 0;
  }
}

/** How readily labile food is eaten before it has rotted: as fast as it softens. */
const softness = (labileRatePerDay: number): number =>
  Math.min(1, (labileRatePerDay * DECAY_PARAMETERS.labileWithWorms.value) / P.softRatePerDay.value);

/** Food within reach: what is soft, a part of what is tough, nothing where there is no air. */
const reachKg = (softKg: number, toughKg: number, airless: number): number =>
  (softKg + P.toughAppetiteRatio.value * toughKg) * (1 - airless);

const EATING_STEPS = 2;

/** Minus the logarithm of the share left of food in reach: appetite with a half-saturation, in two steps by their midpoints, so that a step's length hardly matters. */
function eatingStrength(foodKg: number, mostKgPerDay: number, halfKg: number, days: number): number {
  if (foodKg <= 0) return 0;
  let left = foodKg;
  const wishKg = (mostKgPerDay * days) / EATING_STEPS;
  for (let i = 0; i < EATING_STEPS; i++) {
    const midway = left * Math.exp(-wishKg / 2 / (left + halfKg));
    left *= Math.exp(-wishKg / (midway + halfKg));
  }
  return Math.log(foodKg / left);
}

function addLabile({ state }: StepContext, m: number, kg: number, ratePerDay: number): void {
  const b = state.bed;
  const have = b.castingsLabileKg[m]!;
  if (have + kg <= 0) return;
  b.castingsLabileRatePerDay[m] = (have * b.castingsLabileRatePerDay[m]! + kg * ratePerDay) / (have + kg);
  b.castingsLabileKg[m] = have + kg;
}

function eatLayer(context: StepContext, m: number, at: number, strength: number): void {
  const { bed: b, zone: z } = context.state;
  const organic = z.labileKg[at]! + z.slowKg[at]!;
  if (strength <= 0 || organic <= 0) return;
  const here = strength * (1 - z.airlessFrac[at]!);
  const labileShare = -Math.expm1(-here * softness(z.labileRatePerDay[at]!));
  const slowShare = -Math.expm1(-here * P.toughAppetiteRatio.value);
  // Carbon, nitrogen, ash and water go with the organic solids that go.
  const gone = (z.labileKg[at]! * labileShare + z.slowKg[at]! * slowShare) / organic;
  addLabile(context, m, z.labileKg[at]! * labileShare, z.labileRatePerDay[at]!);
  b.castingsSlowKg[m]! += z.slowKg[at]! * slowShare;
  b.castingsCarbonKg[m]! += z.carbonKg[at]! * gone;
  b.castingsNitrogenKg[m]! += z.nitrogenKg[at]! * gone;
  z.labileKg[at]! *= 1 - labileShare;
  z.slowKg[at]! *= 1 - slowShare;
  z.carbonKg[at]! *= 1 - gone;
  z.nitrogenKg[at]! *= 1 - gone;
  shrinkLayer(context, m, at, gone, labileShare);
}

function eatBedding(context: StepContext, m: number, wishKg: number): void {
  const { state, scratch: s } = context;
  const { bed: b, zone: z, members, zones } = state;
  const beddingKg = b.beddingLabileKg[m]! + b.beddingSlowKg[m]! + b.beddingAshKg[m]!;
  const share = beddingKg > 0 && wishKg > 0 ? -Math.expm1(-wishKg / beddingKg) : 0;
  if (share > 0) {
    addLabile(context, m, b.beddingLabileKg[m]! * share, b.beddingLabileRatePerDay[m]!);
    b.castingsSlowKg[m]! += b.beddingSlowKg[m]! * share;
    b.castingsAshKg[m]! += b.beddingAshKg[m]! * share;
    b.castingsCarbonKg[m]! += b.beddingCarbonKg[m]! * share;
    b.castingsNitrogenKg[m]! += b.beddingNitrogenKg[m]! * share;
    b.beddingLabileKg[m]! *= 1 - share;
    b.beddingSlowKg[m]! *= 1 - share;
    b.beddingAshKg[m]! *= 1 - share;
    b.beddingCarbonKg[m]! *= 1 - share;
    b.beddingNitrogenKg[m]! *= 1 - share;
  }
  const left = (1 - share) * (1 - s.beddingGoneFrac[m]!);
  for (let at = m; at < members * zones; at += members) {
    const goneKg = z.mixedBeddingKg[at]! * (1 - left);
    if (goneKg <= 0) continue;
    const volume = goneKg / (OXYGEN_PARAMETERS.beddingDryKgM3.value * b.densityRatio[m]!);
    const waterOut = z.looseVolumeM3[at]! > 0 ? z.waterKg[at]! * Math.min(1, volume / z.looseVolumeM3[at]!) : 0;
    z.waterKg[at]! -= waterOut;
    s.releasedWaterKg[m]! += waterOut;
    z.looseVolumeM3[at] = Math.max(0, z.looseVolumeM3[at]! - volume);
    z.mixedBeddingKg[at]! -= goneKg;
  }
}
