import { GRAMS_PER_KG } from '../../units/mass.ts';
import { OXYGEN_PARAMETERS } from '../oxygen.ts';
import type { Columns, MemberColumn } from '../state.ts';
import { cardinalRatio } from '../temperature.ts';
import { moistureGrowthRatio, WORM_PARAMETERS as P, phGrowthRatio } from '../worms.ts';
import type { StepContext } from './context.ts';
import { shrinkLayer } from './matter.ts';

const feedRatioAt20 = cardinalRatio(20, P.feedMinC.value, P.feedOptimumC.value, P.feedMaxC.value);

/** Worms pass food and then bedding through: what comes out is castings (model.md 1.4, 1.7; EQ12's capacity). */
export function passThrough(context: StepContext): void {
  const { state, scratch: s, geometry, days } = context;
  const { members, bed: b } = state;
  const rootOfTypical = Math.cbrt(P.typicalMassG.value);
  for (let m = 0; m < members; m++) {
    const warm = cardinalRatio(b.bedTempC[m]!, P.feedMinC.value, P.feedOptimumC.value, P.feedMaxC.value) / feedRatioAt20;
    const around = moistureGrowthRatio(s.moistureFracWb[m]!) * phGrowthRatio(s.ph[m]!);
    // Appetite goes with mass^(2/3), so small worms eat more for their weight.
    const massKg = (s.appetiteRoot[m]! * rootOfTypical) / GRAMS_PER_KG;
    const mostKg = P.ingestionKgPerKgDay.value * massKg * warm * around * b.appetiteRatio[m]!;
    b.appetiteKgDbPerDay[m] = mostKg;
    s.takenFrac[m] = 0;
    s.eatenLabileKg[m] = 0;
    s.eatenLabileKgPerDay[m] = 0;
    if (mostKg <= 0) continue;
    s.takenFrac[m] = 1 - Math.exp((-mostKg * days) / (s.softKg[m]! + P.ingestionHalfKgPerM2Day.value * geometry.areaM2 * days));
  }
  eatLayers(context);
  for (let m = 0; m < members; m++) {
    addLabile(b, m, s.eatenLabileKg[m]!, s.eatenLabileKgPerDay[m]!);
    const wishKg = b.appetiteKgDbPerDay[m]! * days - s.takenFrac[m]! * s.softKg[m]!;
    const softFrac = 1 - Math.exp(-P.softenedPerRotted.value * s.beddingSlowRate[m]! * days);
    const eaten = wishKg > 0 && softFrac > 0 ? eatBedding(b, m, wishKg * P.beddingAppetiteRatio.value, softFrac) : 0;
    s.beddingGoneFrac[m] = 1 - (1 - eaten) * (1 - s.beddingGoneFrac[m]!);
  }
  thinLayers(context);
}

/** Adds to the castings' labile part, given its mass and that mass times its rate. */
function addLabile(b: Columns<MemberColumn>, m: number, kg: number, kgPerDay: number): void {
  const have = b.castingsLabileKg[m]!;
  if (have + kg <= 0) return;
  b.castingsLabileRatePerDay[m] = (have * b.castingsLabileRatePerDay[m]! + kgPerDay) / (have + kg);
  b.castingsLabileKg[m] = have + kg;
}

/** Worms take the same share of what is soft everywhere that there is air. */
function eatLayers({ state, scratch: s }: StepContext): void {
  const { members, zones, bed: b, zone: z } = state;
  for (let zone = 0; zone < zones; zone++)
    for (let m = 0; m < members; m++) {
      const at = zone * members + m;
      const organic = z.labileKg[at]! + z.slowKg[at]!;
      const taken = s.takenFrac[m]!;
      if (taken <= 0 || organic <= 0) continue;
      const labileShare = taken * s.zone.labileSoftFrac[at]!;
      const labile = z.labileKg[at]! * labileShare;
      const slow = z.slowKg[at]! * taken * s.zone.slowSoftFrac[at]!;
      // Carbon, nitrogen, ash and water go with the organic solids that go.
      const gone = (labile + slow) / organic;
      s.eatenLabileKg[m]! += labile;
      s.eatenLabileKgPerDay[m]! += labile * z.labileRatePerDay[at]!;
      b.castingsSlowKg[m]! += slow;
      b.castingsCarbonKg[m]! += z.carbonKg[at]! * gone;
      b.castingsNitrogenKg[m]! += z.nitrogenKg[at]! * gone;
      z.labileKg[at]! -= labile;
      z.slowKg[at]! -= slow;
      z.carbonKg[at]! *= 1 - gone;
      z.nitrogenKg[at]! *= 1 - gone;
      shrinkLayer(b, z, s.releasedWaterKg, m, at, gone, labileShare);
    }
}

/** Returns the share of the bedding that goes. */
function eatBedding(b: Columns<MemberColumn>, m: number, wishKg: number, softFrac: number): number {
  const beddingKg = b.beddingLabileKg[m]! + b.beddingSlowKg[m]! + b.beddingAshKg[m]!;
  if (beddingKg <= 0) return 0;
  const share = softFrac * (1 - Math.exp(-wishKg / (beddingKg * softFrac)));
  const labile = b.beddingLabileKg[m]! * share;
  addLabile(b, m, labile, labile * b.beddingLabileRatePerDay[m]!);
  b.castingsSlowKg[m]! += b.beddingSlowKg[m]! * share;
  b.castingsAshKg[m]! += b.beddingAshKg[m]! * share;
  b.castingsCarbonKg[m]! += b.beddingCarbonKg[m]! * share;
  b.castingsNitrogenKg[m]! += b.beddingNitrogenKg[m]! * share;
  b.beddingLabileKg[m]! *= 1 - share;
  b.beddingSlowKg[m]! *= 1 - share;
  b.beddingAshKg[m]! *= 1 - share;
  b.beddingCarbonKg[m]! *= 1 - share;
  b.beddingNitrogenKg[m]! *= 1 - share;
  return share;
}

/** Bedding mixed into layers goes as all bedding goes; its room and its water go with it, the water to the bed. */
function thinLayers({ state, scratch: s }: StepContext): void {
  const { members, zones, bed: b, zone: z } = state;
  const beddingKgM3 = OXYGEN_PARAMETERS.beddingDryKgM3.value;
  for (let zone = 0; zone < zones; zone++)
    for (let m = 0; m < members; m++) {
      const at = zone * members + m;
      const goneKg = z.mixedBeddingKg[at]! * s.beddingGoneFrac[m]!;
      if (goneKg <= 0) continue;
      const volumeM3 = goneKg / (beddingKgM3 * b.densityRatio[m]!);
      const layerM3 = z.looseVolumeM3[at]!;
      const waterOut = layerM3 > 0 ? z.waterKg[at]! * Math.min(1, volumeM3 / layerM3) : 0;
      z.waterKg[at]! -= waterOut;
      s.releasedWaterKg[m]! += waterOut;
      z.looseVolumeM3[at] = Math.max(0, layerM3 - volumeM3);
      z.mixedBeddingKg[at]! -= goneKg;
    }
  for (let m = 0; m < members; m++) {
    b.bedWaterKg[m]! += s.releasedWaterKg[m]!;
    s.releasedWaterKg[m] = 0;
  }
}
