import { evaporationRatio, WATER_PARAMETERS as P, soilGivesKgPerM2Day } from '../water.ts';
import { capacityKg } from '../water-balance.ts';
import type { StepContext } from './context.ts';

/** Seeping from layers, evaporation, drainage; or the moisture a laboratory holds (model.md 1.5, EQ9). */
export function stepWater(context: StepContext): void {
  const { state, scratch: s, geometry, exposureRatio, scenario, days } = context;
  const { members, zones, bed: b, zone: z } = state;
  const held = scenario.climate.moistureFracWb;
  const seep = -Math.expm1(-P.seepPerDay.value * days);
  const drain = -Math.expm1(-P.drainPerDay.value * days);
  for (let m = 0; m < members; m++) {
    if (held !== undefined) {
      holdMoisture(context, m, held);
      continue;
    }
    for (let at = m; at < members * zones; at += members) {
      const solids = z.labileKg[at]! + z.slowKg[at]! + z.ashKg[at]! + z.mixedBeddingKg[at]!;
      const excess = z.waterKg[at]! - P.foodHoldKgPerKg.value * solids;
      if (excess <= 0) continue;
      z.waterKg[at]! -= excess * seep;
      b.bedWaterKg[m]! += excess * seep;
    }
    const wish =
      geometry.evaporationKgPerM2Day *
      exposureRatio *
      geometry.areaM2 *
      b.evaporationRatio[m]! *
      evaporationRatio(b.bedTempC[m]!, s.moistureFracWb[m]!) *
      days;
    const gone = evaporate(context, m, wish);
    b.evaporationKgPerDay[m] = gone / days;
    b.waterGasKg[m]! += gone;
    if (geometry.openBase) {
      const lifted = soilGivesKgPerM2Day(s.moistureFracWb[m]!) * geometry.areaM2 * days;
      b.bedWaterKg[m]! += lifted;
      b.waterInKg[m]! += lifted;
    }
    if (!geometry.drains) continue;
    const surplus = (b.bedWaterKg[m]! - capacityKg(state, m)) * drain;
    if (surplus <= 0) continue;
    b.bedWaterKg[m]! -= surplus;
    b.waterDrainedKg[m]! += surplus;
  }
}

/** Takes from bed and layers in proportion to what they hold, never more than half of it in a step. */
function evaporate({ state }: StepContext, m: number, wishKg: number): number {
  const { members, zones, bed: b, zone: z } = state;
  let all = b.bedWaterKg[m]!;
  for (let at = m; at < members * zones; at += members) all += z.waterKg[at]!;
  if (all <= 0 || wishKg <= 0) return 0;
  const share = Math.min(0.5, wishKg / all);
  b.bedWaterKg[m]! *= 1 - share;
  for (let at = m; at < members * zones; at += members) z.waterKg[at]! *= 1 - share;
  return all * share;
}

/** Somebody sprays or dries the dish to one moisture: the difference comes in or leaves as vapour. */
function holdMoisture({ state, scratch: s }: StepContext, m: number, moistureFracWb: number): void {
  const { members, zones, bed: b, zone: z } = state;
  const perSolids = moistureFracWb / (1 - moistureFracWb);
  let change = 0;
  const bedSolids =
    b.beddingLabileKg[m]! + b.beddingSlowKg[m]! + b.beddingAshKg[m]! + b.castingsLabileKg[m]! + b.castingsSlowKg[m]! + b.castingsAshKg[m]!;
  change += bedSolids * perSolids - b.bedWaterKg[m]!;
  b.bedWaterKg[m] = bedSolids * perSolids;
  for (let at = m; at < members * zones; at += members) {
    const want = (z.labileKg[at]! + z.slowKg[at]! + z.ashKg[at]!) * perSolids;
    change += want - z.waterKg[at]!;
    z.waterKg[at] = want;
  }
  s.moistureFracWb[m] = moistureFracWb;
  b.evaporationKgPerDay[m] = 0;
  if (change > 0) b.waterInKg[m]! += change;
  else b.waterGasKg[m]! -= change;
}
