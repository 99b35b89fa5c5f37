import { GRAMS_PER_KG } from '../units/mass.ts';
import type { BinEvent, Scenario } from './scenario.ts';
import { speciesOf } from './start.ts';
import type { BinState } from './state.ts';
import { SPECIES_FACTS, WORM_PARAMETERS } from './worms.ts';

/**
 * Takes wet mass out of the bed: castings first, then bedding, both at the bed's moisture.
 *
 * What the log says was taken beyond what the member holds is `unaccounted` in its ledgers (model.md 1.7).
 */
export function takeHarvest(state: BinState, m: number, massKg: number): void {
  const b = state.bed;
  const castingsKg = b.castingsLabileKg[m]! + b.castingsSlowKg[m]! + b.castingsAshKg[m]!;
  const beddingKg = b.beddingLabileKg[m]! + b.beddingSlowKg[m]! + b.beddingAshKg[m]!;
  const dryKg = castingsKg + beddingKg;
  const waterKg = b.bedWaterKg[m]!;
  const heldKg = dryKg + waterKg;
  const takenKg = Math.min(massKg, heldKg);
  const dryTakenKg = heldKg > 0 ? (takenKg * dryKg) / heldKg : 0;
  const fromCastings = castingsKg > 0 ? Math.min(1, dryTakenKg / castingsKg) : 0;
  const fromBedding = beddingKg > 0 ? Math.min(1, Math.max(0, dryTakenKg - castingsKg) / beddingKg) : 0;
  const carbonFrac = dryKg > 0 ? (b.castingsCarbonKg[m]! + b.beddingCarbonKg[m]!) / heldKg : 0;
  const nitrogenFrac = dryKg > 0 ? (b.castingsNitrogenKg[m]! + b.beddingNitrogenKg[m]!) / heldKg : 0;
  const waterFrac = heldKg > 0 ? waterKg / heldKg : 1;
  b.carbonHarvestedKg[m]! += fromCastings * b.castingsCarbonKg[m]! + fromBedding * b.beddingCarbonKg[m]!;
  b.nitrogenHarvestedKg[m]! += fromCastings * b.castingsNitrogenKg[m]! + fromBedding * b.beddingNitrogenKg[m]!;
  b.waterHarvestedKg[m]! += takenKg * waterFrac;
  b.bedWaterKg[m] = Math.max(0, waterKg - takenKg * waterFrac);
  for (const name of ['castingsLabileKg', 'castingsSlowKg', 'castingsAshKg', 'castingsCarbonKg', 'castingsNitrogenKg'] as const)
    b[name][m]! *= 1 - fromCastings;
  for (const name of ['beddingLabileKg', 'beddingSlowKg', 'beddingAshKg', 'beddingCarbonKg', 'beddingNitrogenKg'] as const)
    b[name][m]! *= 1 - fromBedding;
  b.acidPhKg[m]! *= dryKg > 0 ? 1 - (fromCastings * castingsKg + fromBedding * beddingKg) / dryKg : 1;
  for (let zone = 0; zone < state.zones; zone++) state.zone.mixedBeddingKg[zone * state.members + m]! *= 1 - fromBedding;
  const excessKg = massKg - takenKg;
  if (excessKg <= 0) return;
  b.carbonUnaccountedKg[m]! += excessKg * carbonFrac;
  b.nitrogenUnaccountedKg[m]! += excessKg * nitrogenFrac;
  b.waterUnaccountedKg[m]! += excessKg * waterFrac;
}

const FOOD = ['labileKg', 'slowKg', 'ashKg', 'waterKg', 'carbonKg', 'nitrogenKg', 'looseVolumeM3', 'mixedBeddingKg'] as const;

/** Takes shares of cocoons, worms and food out. */
export function removeShare(state: BinState, m: number, scenario: Scenario, event: Extract<BinEvent, { type: 'remove' }>): void {
  const facts = SPECIES_FACTS[speciesOf(scenario.bin.worms)];
  const cocoonsFrac = event.cocoonsFrac ?? 0;
  const wormsFrac = event.wormsFrac ?? 0;
  let outKg = 0;
  for (const column of state.cocoonCounts) {
    outKg += (cocoonsFrac * column[m]! * facts.cocoonMassG) / GRAMS_PER_KG;
    column[m]! *= 1 - cocoonsFrac;
  }
  for (const column of state.stageKgs) {
    outKg += wormsFrac * column[m]!;
    column[m]! *= 1 - wormsFrac;
  }
  for (const column of state.stageCounts) column[m]! *= 1 - wormsFrac;
  bookLiveOut(state, m, outKg);
  if (event.foodFrac) removeFood(state, m, event.foodFrac, event.zone);
}

/** Worms or cocoons that leave the bin. */
export function bookLiveOut(state: BinState, m: number, liveKg: number): void {
  state.bed.carbonRemovedKg[m]! += liveKg * WORM_PARAMETERS.carbonFracOfLive.value;
  state.bed.nitrogenRemovedKg[m]! += liveKg * WORM_PARAMETERS.nitrogenFracOfLive.value;
}

function removeFood(state: BinState, m: number, frac: number, onlyZone: number | undefined): void {
  for (let zone = 0; zone < state.zones; zone++) {
    if (onlyZone !== undefined && onlyZone - 1 !== zone) continue;
    const at = zone * state.members + m;
    const z = state.zone;
    state.bed.carbonRemovedKg[m]! += frac * z.carbonKg[at]!;
    state.bed.nitrogenRemovedKg[m]! += frac * z.nitrogenKg[at]!;
    state.bed.waterRemovedKg[m]! += frac * z.waterKg[at]!;
    for (const name of FOOD) z[name][at]! *= 1 - frac;
    z.lastLeftFrac[at]! *= 1 - frac;
    z.watchedLabileFrac[at]! *= 1 - frac;
  }
}
