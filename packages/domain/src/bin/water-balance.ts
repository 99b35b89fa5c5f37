import type { BinState } from './state.ts';
import { WATER_PARAMETERS as P } from './water.ts';

/** Water the bed's solids hold against their own weight, [kg]. */
export function capacityKg(state: BinState, m: number): number {
  const b = state.bed;
  const beddingKg = b.beddingLabileKg[m]! + b.beddingSlowKg[m]! + b.beddingAshKg[m]!;
  const castingsKg = b.castingsLabileKg[m]! + b.castingsSlowKg[m]! + b.castingsAshKg[m]!;
  return P.beddingHoldKgPerKg.value * beddingKg + P.castingsHoldKgPerKg.value * castingsKg;
}
