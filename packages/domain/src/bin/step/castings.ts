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
    let softKg = 0;
    // Rot and worms share the day, so appetite meets the food of its middle.
    for (let at = m; at < members * zones; at += members)
      softKg +=
        (1 - z.airlessFrac[at]!) *
        (z.labileKg[at]! * softened(s.zone.labileRate[at]!, days) + (z.slowKg[at]! + z.ashKg[at]!) * softened(s.zone.slowRate[at]!, days));
    const taken = -Math.expm1((-mostKg * days) / (softKg + P.ingestionHalfKgPerM2Day.value * geometry.areaM2 * days));
    for (let zone = 0; zone < zones; zone++) eatLayer(context, m, zone * members + m, taken);
    eatBedding(
      context,
      m,
      Math.max(0, mostKg * days - taken * softKg) * P.beddingAppetiteRatio.value,
      softened(s.beddingSlowRate[m]!, days),
    );
    b.bedWaterKg[m]! += s.releasedWaterKg[m]!;
    s.releasedWaterKg[m] = 0;
  }
}

/** Share of a pool that microbes make soft enough to swallow in a time, beside what they burn themselves. */
const softened = (ratePerDay: number, days: number): number => -Math.expm1(-P.softenedPerRotted.value * ratePerDay * days);

function addLabile({ state }: StepContext, m: number, kg: number, ratePerDay: number): void {
  const b = state.bed;
  const have = b.castingsLabileKg[m]!;
  if (have + kg <= 0) return;
  b.castingsLabileRatePerDay[m] = (have * b.castingsLabileRatePerDay[m]! + kg * ratePerDay) / (have + kg);
  b.castingsLabileKg[m] = have + kg;
}

function eatLayer(context: StepContext, m: number, at: number, taken: number): void {
  const { scratch: s, days } = context;
  const { bed: b, zone: z } = context.state;
  const organic = z.labileKg[at]! + z.slowKg[at]!;
  const here = taken * (1 - z.airlessFrac[at]!);
  if (here <= 0 || organic <= 0) return;
  const labileShare = here * softened(s.zone.labileRate[at]!, days);
  const slowShare = here * softened(s.zone.slowRate[at]!, days);
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

function eatBedding(context: StepContext, m: number, wishKg: number, softFrac: number): void {
  const { state, scratch: s } = context;
  const { bed: b, zone: z, members, zones } = state;
  const beddingKg = b.beddingLabileKg[m]! + b.beddingSlowKg[m]! + b.beddingAshKg[m]!;
  const share = beddingKg > 0 && wishKg > 0 ? softFrac * -Math.expm1(-wishKg / (beddingKg * softFrac)) : 0;
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
