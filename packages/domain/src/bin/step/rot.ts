import { decayedFrac } from '../decay.ts';
import { FEED_PARAMETERS } from '../feed-quality.ts';
import { OXYGEN_PARAMETERS } from '../oxygen.ts';
import { WORM_PARAMETERS } from '../worms.ts';
import type { StepContext } from './context.ts';

/** What microbes take of each pool in the step, and the flow of life that worms may share (EQ1 times the share with air). */
export function rot(context: StepContext): void {
  const { state, scratch: s, days } = context;
  const { members, bed: b } = state;
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
    s.flowKg[m] = beddingFlow + castingsFlow;
    s.flowQualityKg[m] = beddingFlow * b.beddingQuality[m]! + castingsFlow * castingsQuality;
    s.flowCarbonKg[m] =
      beddingFlow * carbonOf(b.beddingCarbonKg[m]!, beddingOrganic) + castingsFlow * carbonOf(b.castingsCarbonKg[m]!, castingsOrganic);
    s.airlessRotKg[m] = (beddingLabile + beddingSlow) * (1 - bedAerobic);
    s.softKg[m] = 0;
  }
  rotLayers(context);
}

function rotLayers({ state, scratch: s, days }: StepContext): void {
  const { members, zones, zone: z } = state;
  const softening = WORM_PARAMETERS.softenedPerRotted.value * days;
  for (let zone = 0; zone < zones; zone++)
    for (let m = 0; m < members; m++) {
      const at = zone * members + m;
      const organic = z.labileKg[at]! + z.slowKg[at]!;
      if (organic <= 0) {
        s.zone.labileLostKg[at] = 0;
        s.zone.slowLostKg[at] = 0;
        s.zone.flowKg[at] = 0;
        continue;
      }
      const share = 1 - z.airlessFrac[at]!;
      const rate = share + z.airlessFrac[at]! * anaerobic;
      const labileRate = s.zone.labileRate[at]!;
      const slowRate = s.zone.slowRate[at]!;
      const labile = z.labileKg[at]! * (1 - Math.exp(-labileRate * rate * days));
      const slow = z.slowKg[at]! * (1 - Math.exp(-slowRate * rate * days));
      const labileSoft = share * (1 - Math.exp(-labileRate * softening));
      const slowSoft = share * (1 - Math.exp(-slowRate * softening));
      const aerobic = share / rate;
      s.zone.labileLostKg[at] = labile;
      s.zone.slowLostKg[at] = slow;
      s.zone.aerobicFrac[at] = aerobic;
      s.zone.labileSoftFrac[at] = labileSoft;
      s.zone.slowSoftFrac[at] = slowSoft;
      const here = flowOf(organic, labile + slow, aerobic * z.quality[at]!);
      s.zone.flowKg[at] = here;
      s.flowKg[m]! += here;
      s.flowQualityKg[m]! += here * z.quality[at]!;
      s.flowCarbonKg[m]! += (here * z.carbonKg[at]!) / organic;
      s.airlessRotKg[m]! += labile * (1 - aerobic);
      // Rot and worms share the day, so appetite meets the food of its middle.
      s.softKg[m]! += (z.labileKg[at]! - labile / 2) * labileSoft + (z.slowKg[at]! - slow / 2) * slowSoft;
    }
}

const anaerobic = OXYGEN_PARAMETERS.anaerobicRatio.value;
const mostTaken = FEED_PARAMETERS.mostTakenFrac.value;

/** What a pool offers worms: what rots with air, by quality, never so much that they could take more than the pool holds. */
const flowOf = (organicKg: number, lostKg: number, quality: number): number =>
  Math.min(lostKg * quality, Math.max(0, organicKg - lostKg) / mostTaken);

export const carbonOf = (carbonKg: number, organicKg: number): number => (organicKg > 0 ? carbonKg / organicKg : 0);
