import { evaporationRatio, WATER_PARAMETERS as P, soilGivesKgPerM2Day } from '../water.ts';
import { capacityKg } from '../water-balance.ts';
import type { StepContext } from './context.ts';

/** Seeping from layers, evaporation, drainage; or the moisture a laboratory holds (model.md 1.5, EQ9). */
export function stepWater(context: StepContext): void {
  const { state, scratch: s, geometry, exposureRatio, scenario, days } = context;
  const { members, bed: b } = state;
  const held = scenario.climate.moistureFracWb;
  if (held !== undefined) {
    for (let m = 0; m < members; m++) holdMoisture(context, m, held);
    return;
  }
  seep(context);
  const drain = -Math.expm1(-P.drainPerDay.value * days);
  const perRatio = geometry.evaporationKgPerM2Day * exposureRatio * geometry.areaM2 * days;
  for (let m = 0; m < members; m++) {
    const all = s.layerWaterKg[m]! + b.bedWaterKg[m]!;
    const wish = perRatio * b.evaporationRatio[m]! * evaporationRatio(b.bedTempC[m]!, s.moistureFracWb[m]!);
    // From bed and layers in proportion to what they hold, never more than half of it in a step.
    const share = all > 0 && wish > 0 ? Math.min(0.5, wish / all) : 0;
    s.waterLeftFrac[m] = 1 - share;
    b.bedWaterKg[m]! *= 1 - share;
    b.evaporationKgPerDay[m] = (all * share) / days;
    b.waterGasKg[m]! += all * share;
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
  dryLayers(context);
}

/** What a layer can not hold sinks into the bed. */
function seep({ state, scratch: s, days }: StepContext): void {
  const { members, zones, bed: b, zone: z } = state;
  const seeping = -Math.expm1(-P.seepPerDay.value * days);
  const hold = P.foodHoldKgPerKg.value;
  s.layerWaterKg.fill(0);
  for (let zone = 0; zone < zones; zone++)
    for (let m = 0; m < members; m++) {
      const at = zone * members + m;
      const solids = z.labileKg[at]! + z.slowKg[at]! + z.ashKg[at]! + z.mixedBeddingKg[at]!;
      const out = Math.max(0, z.waterKg[at]! - hold * solids) * seeping;
      z.waterKg[at]! -= out;
      b.bedWaterKg[m]! += out;
      s.layerWaterKg[m]! += z.waterKg[at]!;
    }
}

function dryLayers({ state, scratch: s }: StepContext): void {
  const { members, zones, zone: z } = state;
  for (let zone = 0; zone < zones; zone++) for (let m = 0; m < members; m++) z.waterKg[zone * members + m]! *= s.waterLeftFrac[m]!;
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
