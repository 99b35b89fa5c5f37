import { ACID_PARAMETERS as A } from '../acid.ts';
import { DECAY_PARAMETERS } from '../decay.ts';
import { OXYGEN_PARAMETERS as O } from '../oxygen.ts';
import { parameter } from '../parameter.ts';
import { microbeRatioQ10 } from '../temperature.ts';
import type { StepContext } from './context.ts';
import { ALKALI_PH_KG_PER_KG } from './matter.ts';

export const AGE_PARAMETERS = {
  coverLossPerDay: parameter(0.02, '1/d', 'estimate', 'none: cover sinks into the bed within two months'),
} as const;

/** What time alone does: acids are eaten, layers slump, loosening wears off, microbes settle in. */
export function stepAge({ state, scratch: s, days }: StepContext): void {
  const { members, zones, bed: b, zone: z, zoneMarks } = state;
  const slump = -Math.expm1(-days / O.settlingDays.value);
  const packing = Math.exp(-days / O.loosenedDays.value);
  const maturing = -Math.expm1(-DECAY_PARAMETERS.maturingPerDay.value * days);
  const fading = DECAY_PARAMETERS.maturityLossPerDay.value * days;
  for (let m = 0; m < members; m++) {
    const warm = microbeRatioQ10(b.bedTempC[m]!);
    const acid = b.acidPhKg[m]! + s.airlessRotKg[m]! * A.airlessPhKgPerKg.value - s.freedNitrogenKg[m]! * ALKALI_PH_KG_PER_KG;
    b.acidPhKg[m] = acid * Math.exp(-(acid > 0 ? A.eatenPerDay.value : A.alkaliLossPerDay.value) * warm * days);
    b.bedLooseFrac[m]! *= packing;
    b.bedSettledFrac[m]! += (1 - b.bedSettledFrac[m]!) * slump;
    const mature = b.maturityFrac[m]!;
    b.maturityFrac[m] = mature + (1 - mature) * maturing - mature * fading;
  }
  for (let at = 0; at < members * zones; at++) {
    z.looseFrac[at]! *= packing;
    z.settledFrac[at]! += (1 - z.settledFrac[at]!) * slump;
  }
  for (let zone = 0; zone < zones; zone++) zoneMarks.coverDepthM[zone]! *= 1 - AGE_PARAMETERS.coverLossPerDay.value * days;
}
