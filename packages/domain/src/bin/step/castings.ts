import { GRAMS_PER_KG } from '../../units/mass.ts';
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
    for (let at = m; at < members * zones; at += members)
      foodKg += (z.labileKg[at]! + z.slowKg[at]! + z.ashKg[at]!) * (1 - z.airlessFrac[at]!);
    const eatenKg = foodKg > 0 ? (mostKg * foodKg) / (foodKg + P.ingestionHalfKgPerM2.value * geometry.areaM2) : 0;
    const share = foodKg > 0 ? -Math.expm1((-eatenKg * days) / foodKg) : 0;
    for (let zone = 0; zone < zones; zone++) eatLayer(context, m, zone * members + m, share * (1 - z.airlessFrac[zone * members + m]!));
    eatBedding(context, m, (mostKg - eatenKg) * P.beddingAppetiteRatio.value * days);
    b.bedWaterKg[m]! += s.releasedWaterKg[m]!;
    s.releasedWaterKg[m] = 0;
  }
}

function addLabile({ state }: StepContext, m: number, kg: number, ratePerDay: number): void {
  const b = state.bed;
  const have = b.castingsLabileKg[m]!;
  if (have + kg <= 0) return;
  b.castingsLabileRatePerDay[m] = (have * b.castingsLabileRatePerDay[m]! + kg * ratePerDay) / (have + kg);
  b.castingsLabileKg[m] = have + kg;
}

function eatLayer(context: StepContext, m: number, at: number, share: number): void {
  if (share <= 0) return;
  const { bed: b, zone: z } = context.state;
  addLabile(context, m, z.labileKg[at]! * share, z.labileRatePerDay[at]!);
  b.castingsSlowKg[m]! += z.slowKg[at]! * share;
  b.castingsCarbonKg[m]! += z.carbonKg[at]! * share;
  b.castingsNitrogenKg[m]! += z.nitrogenKg[at]! * share;
  const left = 1 - share;
  z.labileKg[at]! *= left;
  z.slowKg[at]! *= left;
  z.carbonKg[at]! *= left;
  z.nitrogenKg[at]! *= left;
  shrinkLayer(context, m, at, share, share);
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
