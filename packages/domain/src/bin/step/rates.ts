import { grazingRatio, maturityRatio, moistureRatio, DECAY_PARAMETERS as P } from '../decay.ts';
import { microbeRatioQ10, microbeRatioRothC } from '../temperature.ts';
import type { StepContext } from './context.ts';

/** Rates at which each pool would rot with all the air it wants (model.md 1.2, EQ1). */
export function planRates({ state, scratch: s, geometry, structure, larvaePerDay }: StepContext): void {
  const { members, zones, bed: b, zone: z } = state;
  const microbes = structure.microbes === 'q10' ? microbeRatioQ10 : microbeRatioRothC;
  const castingsLabile = P.castingsLabileRatePerDay.value;
  const castingsSlow = P.castingsSlowRatePerDay.value;
  for (let m = 0; m < members; m++) {
    const settled = maturityRatio(b.maturityFrac[m]!);
    const graze = grazingRatio((s.wormsKg[m]! * s.growthEnvironment[m]!) / geometry.areaM2);
    const labileRatio = b.labileRateRatio[m]! * settled;
    const slowRatio = b.slowRateRatio[m]! * settled * graze;
    const bedMicrobes = microbes(b.bedTempC[m]!);
    const bed = bedMicrobes * moistureRatio(s.moistureFracWb[m]!);
    s.beddingLabileRate[m] = b.beddingLabileRatePerDay[m]! * bed * labileRatio;
    s.beddingSlowRate[m] = b.beddingSlowRatePerDay[m]! * bed * slowRatio;
    s.castingsLabileRate[m] = (b.castingsLabileRatePerDay[m]! || castingsLabile) * bed * labileRatio;
    s.castingsSlowRate[m] = castingsSlow * bed * b.slowRateRatio[m]!;
    for (let zone = 0; zone < zones; zone++) {
      const at = zone * members + m;
      const rise = z.localRiseC[at]!;
      const tempC = b.bedTempC[m]! + rise;
      s.zone.tempC[at] = tempC;
      const here = (rise === 0 ? bedMicrobes : microbes(tempC)) * moistureRatio(s.zone.moistureFracWb[at]!);
      s.zone.labileRate[at] = z.labileRatePerDay[at]! * here * labileRatio + larvaePerDay;
      s.zone.slowRate[at] = z.slowRatePerDay[at]! * here * slowRatio;
    }
  }
}
