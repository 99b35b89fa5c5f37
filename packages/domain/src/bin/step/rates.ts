import { grazingRatio, maturityRatio, moistureRatio, DECAY_PARAMETERS as P } from '../decay.ts';
import type { BinState } from '../state.ts';
import { microbeRatioQ10, microbeRatioRothC } from '../temperature.ts';
import type { StepContext } from './context.ts';
import type { Scratch } from './scratch.ts';

/** Rates at which each pool would rot with all the air it wants (model.md 1.2, EQ1). */
export function planRates({ state, scratch: s, geometry, structure, larvaePerDay }: StepContext): void {
  const { members, bed: b } = state;
  const castingsLabile = P.castingsLabileRatePerDay.value;
  const castingsSlow = P.castingsSlowRatePerDay.value;
  const microbes = structure.microbes === 'q10' ? microbeRatioQ10 : microbeRatioRothC;
  for (let m = 0; m < members; m++) {
    const settled = maturityRatio(b.maturityFrac[m]!);
    const graze = grazingRatio((s.wormsKg[m]! * s.growthEnvironment[m]!) / geometry.areaM2);
    const labileRatio = b.labileRateRatio[m]! * settled;
    const slowRatio = b.slowRateRatio[m]! * settled * graze;
    const bedMicrobes = microbes(b.bedTempC[m]!);
    const bed = bedMicrobes * moistureRatio(s.moistureFracWb[m]!);
    s.labileRatio[m] = labileRatio;
    s.slowRatio[m] = slowRatio;
    s.bedMicrobes[m] = bedMicrobes;
    s.beddingLabileRate[m] = b.beddingLabileRatePerDay[m]! * bed * labileRatio;
    s.beddingSlowRate[m] = b.beddingSlowRatePerDay[m]! * bed * slowRatio;
    s.castingsLabileRate[m] = (b.castingsLabileRatePerDay[m]! || castingsLabile) * bed * labileRatio;
    s.castingsSlowRate[m] = castingsSlow * bed * b.slowRateRatio[m]!;
  }
  planLayerRates(state, s, microbes, larvaePerDay);
}

function planLayerRates(state: BinState, s: Scratch, microbes: (tempC: number) => number, larvaePerDay: number): void {
  const { members, zones, bed: b, zone: z } = state;
  for (let zone = 0; zone < zones; zone++)
    for (let m = 0; m < members; m++) {
      const at = zone * members + m;
      const rise = z.localRiseC[at]!;
      const tempC = b.bedTempC[m]! + rise;
      s.zone.tempC[at] = tempC;
      if (z.labileKg[at]! + z.slowKg[at]! <= 0) {
        s.zone.labileRate[at] = 0;
        s.zone.slowRate[at] = 0;
        continue;
      }
      const here = (rise === 0 ? s.bedMicrobes[m]! : microbes(tempC)) * moistureRatio(s.zone.moistureFracWb[at]!);
      s.zone.labileRate[at] = z.labileRatePerDay[at]! * here * s.labileRatio[m]! + larvaePerDay;
      s.zone.slowRate[at] = z.slowRatePerDay[at]! * here * s.slowRatio[m]!;
    }
}
