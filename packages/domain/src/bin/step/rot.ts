import { decayedFrac } from '../decay.ts';
import { FEED_PARAMETERS } from '../feed-quality.ts';
import { OXYGEN_PARAMETERS } from '../oxygen.ts';
import type { StepContext } from './context.ts';

/** What microbes take of each pool in the step, and the flow of life that worms may share (EQ1 times the share with air). */
export function rot({ state, scratch: s, days }: StepContext): void {
  const { members, zones, bed: b, zone: z } = state;
  const anaerobic = OXYGEN_PARAMETERS.anaerobicRatio.value;
  const castingsQuality = FEED_PARAMETERS.castingsQuality.value;
  for (let m = 0; m < members; m++) {
    const bedShare = 1 - b.bedAirlessFrac[m]!;
    const bedRate = bedShare + b.bedAirlessFrac[m]! * anaerobic;
    const beddingLabile = b.beddingLabileKg[m]! * decayedFrac(s.beddingLabileRate[m]! * bedRate, days);
    const beddingSlow = b.beddingSlowKg[m]! * decayedFrac(s.beddingSlowRate[m]! * bedRate, days);
    const castingsLabile = b.castingsLabileKg[m]! * decayedFrac(s.castingsLabileRate[m]! * bedRate, days);
    const castingsSlow = b.castingsSlowKg[m]! * decayedFrac(s.castingsSlowRate[m]! * bedRate, days);
    s.beddingLabileLostKg[m] = beddingLabile;
    s.beddingSlowLostKg[m] = beddingSlow;
    s.castingsLabileLostKg[m] = castingsLabile;
    s.castingsSlowLostKg[m] = castingsSlow;
    const bedAerobic = bedShare / bedRate;
    const beddingOrganic = b.beddingLabileKg[m]! + b.beddingSlowKg[m]!;
    const castingsOrganic = b.castingsLabileKg[m]! + b.castingsSlowKg[m]!;
    const beddingFlow = flowOf(beddingOrganic, beddingLabile + beddingSlow, bedAerobic * b.beddingQuality[m]!);
    const castingsFlow = flowOf(castingsOrganic, castingsLabile + castingsSlow, bedAerobic * castingsQuality);
    s.beddingFlowKg[m] = beddingFlow;
    s.castingsFlowKg[m] = castingsFlow;
    let flow = beddingFlow + castingsFlow;
    let flowQuality = beddingFlow * b.beddingQuality[m]! + castingsFlow * castingsQuality;
    let carbon =
      beddingFlow * carbonOf(b.beddingCarbonKg[m]!, beddingOrganic) + castingsFlow * carbonOf(b.castingsCarbonKg[m]!, castingsOrganic);
    let airless = (beddingLabile + beddingSlow) * (1 - bedAerobic);
    for (let zone = 0; zone < zones; zone++) {
      const at = zone * members + m;
      const share = 1 - z.airlessFrac[at]!;
      const rate = share + z.airlessFrac[at]! * anaerobic;
      const labile = z.labileKg[at]! * decayedFrac(s.zone.labileRate[at]! * rate, days);
      const slow = z.slowKg[at]! * decayedFrac(s.zone.slowRate[at]! * rate, days);
      const aerobic = share / rate;
      s.zone.labileLostKg[at] = labile;
      s.zone.slowLostKg[at] = slow;
      s.zone.aerobicFrac[at] = aerobic;
      const organic = z.labileKg[at]! + z.slowKg[at]!;
      const here = flowOf(organic, labile + slow, aerobic * z.quality[at]!);
      s.zone.flowKg[at] = here;
      flow += here;
      flowQuality += here * z.quality[at]!;
      carbon += here * carbonOf(z.carbonKg[at]!, organic);
      airless += labile * (1 - aerobic);
    }
    s.flowKg[m] = flow;
    s.flowQualityKg[m] = flowQuality;
    s.flowCarbonKg[m] = carbon;
    s.airlessRotKg[m] = airless;
  }
}

const mostTaken = FEED_PARAMETERS.mostTakenFrac.value;

/** What a pool offers worms: what rots with air, by quality, never so much that they could take more than the pool holds. */
const flowOf = (organicKg: number, lostKg: number, quality: number): number =>
  Math.min(lostKg * quality, Math.max(0, organicKg - lostKg) / mostTaken);

export const carbonOf = (carbonKg: number, organicKg: number): number => (organicKg > 0 ? carbonKg / organicKg : 0);
