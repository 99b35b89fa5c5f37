import { CARBON_NITROGEN_PARAMETERS, freedNitrogenFrac, nitrogenLossFrac } from '../carbon-nitrogen.ts';
import { DECAY_PARAMETERS } from '../decay.ts';
import { OXYGEN_PARAMETERS } from '../oxygen.ts';
import { parameter } from '../parameter.ts';
import type { Columns, MemberColumn, ZoneColumn } from '../state.ts';
import { WATER_PARAMETERS } from '../water.ts';
import { WORM_PARAMETERS } from '../worms.ts';
import type { StepContext } from './context.ts';
import { carbonOf } from './rot.ts';
import type { Scratch } from './scratch.ts';

export const MATTER_PARAMETERS = {
  tissueSolidsPerCarbon: parameter(2, 'kg/kg', 'estimate', 'none: worm solids are half carbon'),
} as const;

const humified = DECAY_PARAMETERS.humifiedFrac.value;
const solidsPerCarbon = MATTER_PARAMETERS.tissueSolidsPerCarbon.value;

/** Books what rotted and what worms took in every pool: carbon to gas, worms or castings; nitrogen, ash and water after it. */
export function moveMatter(context: StepContext): void {
  const { state, scratch: s } = context;
  const { members, bed: b } = state;
  for (let m = 0; m < members; m++) {
    s.gasSolidsKg[m] = 0;
    s.oxygenKg[m] = 0;
    s.carbonGasKg[m] = 0;
    s.freedNitrogenKg[m] = 0;
    s.releasedWaterKg[m] = 0;
    b.rottingCarbonKg[m] = 0;
    b.rottingNitrogenKg[m] = 0;
    const carbonNeed = s.tissueCarbonKg[m]! + s.burntCarbonKg[m]!;
    s.takenPerFlow[m] = s.flowCarbonKg[m]! > 0 ? carbonNeed / s.flowCarbonKg[m]! : 0;
    s.tissueShare[m] = carbonNeed > 0 ? s.tissueCarbonKg[m]! / carbonNeed : 0;
    rotCastings(context, m, s.takenPerFlow[m]!, s.tissueShare[m]!);
    rotBedding(context, m, s.takenPerFlow[m]!, s.tissueShare[m]!);
  }
  rotLayers(context);
  feedWormsNitrogen(context);
  for (let m = 0; m < members; m++) {
    bury(context, m);
    settleGas(context, m);
  }
}

/** Loss of carbon and nitrogen of a pool that lost some of its organic solids; returns the nitrogen that stays free to move. */
function bookRot(
  b: Columns<MemberColumn>,
  s: Scratch,
  m: number,
  rottedKg: number,
  wormsKg: number,
  carbonFrac: number,
  nitrogenFrac: number,
  humusKg: number,
  aerobic: number,
  tissueShare: number,
): number {
  const tissueCarbon = wormsKg * carbonFrac * tissueShare;
  const gasKg = rottedKg + wormsKg * (1 - tissueShare) - humusKg;
  s.carbonGasKg[m]! += (rottedKg + wormsKg - humusKg) * carbonFrac - tissueCarbon;
  s.gasSolidsKg[m]! += gasKg;
  s.oxygenKg[m]! += OXYGEN_PARAMETERS.oxygenPerSolids.value * ((rottedKg - humusKg) * aerobic + wormsKg * (1 - tissueShare));
  const nitrogen = (rottedKg + wormsKg) * nitrogenFrac;
  const cn = nitrogenFrac > 0 ? carbonFrac / nitrogenFrac : Number.POSITIVE_INFINITY;
  b.rottingCarbonKg[m]! += (rottedKg + wormsKg) * carbonFrac;
  b.rottingNitrogenKg[m]! += nitrogen;
  const freed = nitrogen * freedNitrogenFrac(cn);
  if (freed <= 0) return nitrogen;
  const lost = freed * nitrogenLossFrac(cn);
  s.freedNitrogenKg[m]! += freed - lost;
  b.nitrogenGasKg[m]! += lost;
  return nitrogen - lost;
}

function rotCastings(context: StepContext, m: number, perFlow: number, tissueShare: number): void {
  const { state, scratch: s } = context;
  const b = state.bed;
  const organic = b.castingsLabileKg[m]! + b.castingsSlowKg[m]!;
  if (organic <= 0) return;
  const carbonFrac = carbonOf(b.castingsCarbonKg[m]!, organic);
  const nitrogenFrac = b.castingsNitrogenKg[m]! / organic;
  const lost = s.castingsLabileLostKg[m]! + s.castingsSlowLostKg[m]!;
  const aerobic = bedAerobic(context, m);
  const worms = s.castingsFlowKg[m]! * perFlow;
  const humus = humified * s.castingsLabileLostKg[m]!;
  const labileShare = lost > 0 ? s.castingsLabileLostKg[m]! / lost : 0;
  const fromLabile = Math.min(worms * labileShare, b.castingsLabileKg[m]! - s.castingsLabileLostKg[m]!);
  const kept = bookRot(b, s, m, lost, worms, carbonFrac, nitrogenFrac, humus, aerobic, tissueShare);
  b.castingsNitrogenKg[m]! -= (lost + worms) * nitrogenFrac - kept;
  b.castingsCarbonKg[m]! -= (lost + worms - humus) * carbonFrac;
  b.castingsLabileKg[m]! -= s.castingsLabileLostKg[m]! + fromLabile;
  b.castingsSlowKg[m]! -= s.castingsSlowLostKg[m]! + (worms - fromLabile) - humus;
}

function rotBedding(context: StepContext, m: number, perFlow: number, tissueShare: number): void {
  const { state, scratch: s } = context;
  const b = state.bed;
  s.beddingGoneFrac[m] = 0;
  const organic = b.beddingLabileKg[m]! + b.beddingSlowKg[m]!;
  if (organic <= 0) return;
  const carbonFrac = carbonOf(b.beddingCarbonKg[m]!, organic);
  const nitrogenFrac = b.beddingNitrogenKg[m]! / organic;
  const lost = s.beddingLabileLostKg[m]! + s.beddingSlowLostKg[m]!;
  const aerobic = bedAerobic(context, m);
  const worms = s.beddingFlowKg[m]! * perFlow;
  const humus = humified * s.beddingLabileLostKg[m]!;
  const labileShare = lost > 0 ? s.beddingLabileLostKg[m]! / lost : 0;
  const fromLabile = Math.min(worms * labileShare, b.beddingLabileKg[m]! - s.beddingLabileLostKg[m]!);
  const kept = bookRot(b, s, m, lost, worms, carbonFrac, nitrogenFrac, humus, aerobic, tissueShare);
  const gone = Math.min(1, (lost + worms) / organic);
  s.beddingGoneFrac[m] = gone;
  b.beddingLabileKg[m]! -= s.beddingLabileLostKg[m]! + fromLabile;
  b.beddingSlowKg[m] = Math.max(0, b.beddingSlowKg[m]! - s.beddingSlowLostKg[m]! - (worms - fromLabile));
  b.beddingCarbonKg[m]! -= (lost + worms) * carbonFrac;
  b.beddingNitrogenKg[m]! -= (lost + worms) * nitrogenFrac;
  b.castingsNitrogenKg[m]! += kept;
  b.castingsCarbonKg[m]! += humus * carbonFrac;
  b.castingsSlowKg[m]! += humus;
  b.castingsAshKg[m]! += b.beddingAshKg[m]! * gone;
  b.beddingAshKg[m]! *= 1 - gone;
}

function rotLayers({ state, scratch: s }: StepContext): void {
  const { members, zones, bed: b, zone: z } = state;
  for (let zone = 0; zone < zones; zone++)
    for (let m = 0; m < members; m++) {
      const at = zone * members + m;
      const labileKg = z.labileKg[at]!;
      const slowKg = z.slowKg[at]!;
      const organic = labileKg + slowKg;
      if (organic <= 0) continue;
      const carbonFrac = z.carbonKg[at]! / organic;
      const nitrogenFrac = z.nitrogenKg[at]! / organic;
      const labileLost = s.zone.labileLostKg[at]!;
      const lost = labileLost + s.zone.slowLostKg[at]!;
      const worms = s.zone.flowKg[at]! * s.takenPerFlow[m]!;
      const humus = humified * labileLost;
      const fromLabile = lost > 0 ? Math.min((worms * labileLost) / lost, labileKg - labileLost) : 0;
      const kept = bookRot(b, s, m, lost, worms, carbonFrac, nitrogenFrac, humus, s.zone.aerobicFrac[at]!, s.tissueShare[m]!);
      const labileGone = labileLost + fromLabile;
      z.labileKg[at] = labileKg - labileGone;
      z.slowKg[at] = Math.max(0, slowKg - (lost + worms - labileGone));
      z.carbonKg[at]! -= (lost + worms) * carbonFrac;
      z.nitrogenKg[at]! -= (lost + worms) * nitrogenFrac;
      b.castingsNitrogenKg[m]! += kept;
      b.castingsCarbonKg[m]! += humus * carbonFrac;
      b.castingsSlowKg[m]! += humus;
      shrinkLayer(b, z, s.releasedWaterKg, m, at, Math.min(1, (lost + worms) / organic), labileKg > 0 ? labileGone / labileKg : 0);
    }
}

/** What goes with a share of a layer's solids: ash and water to the bed, room, and the memory of the last feedings. */
export function shrinkLayer(
  b: Columns<MemberColumn>,
  z: Columns<ZoneColumn>,
  releasedWaterKg: Float64Array,
  m: number,
  at: number,
  gone: number,
  labileGone: number,
): void {
  b.castingsAshKg[m]! += z.ashKg[at]! * gone;
  z.ashKg[at]! *= 1 - gone;
  const released = z.waterKg[at]! * gone;
  z.looseVolumeM3[at]! *= 1 - gone;
  // Bedding that was mixed in becomes bed as the food around it goes.
  z.mixedBeddingKg[at]! *= 1 - gone;
  z.waterKg[at]! -= released;
  releasedWaterKg[m]! += released;
  z.lastLeftFrac[at]! *= 1 - gone;
  z.watchedLabileFrac[at]! *= 1 - Math.min(1, labileGone);
}

function bedAerobic({ state }: StepContext, m: number): number {
  const airless = state.bed.bedAirlessFrac[m]!;
  const rate = 1 - airless + airless * OXYGEN_PARAMETERS.anaerobicRatio.value;
  return (1 - airless) / rate;
}

/** Nitrogen of new worm comes from all there is, in proportion. */
function feedWormsNitrogen({ state, scratch: s }: StepContext): void {
  const { bed: b, zone: z, members, zones } = state;
  for (let m = 0; m < members; m++) s.nitrogenKg[m] = b.beddingNitrogenKg[m]! + b.castingsNitrogenKg[m]!;
  for (let zone = 0; zone < zones; zone++) for (let m = 0; m < members; m++) s.nitrogenKg[m]! += z.nitrogenKg[zone * members + m]!;
  for (let m = 0; m < members; m++) {
    const left = s.tissueNitrogenKg[m]! > 0 ? 1 - s.tissueNitrogenKg[m]! / s.nitrogenKg[m]! : 1;
    s.nitrogenLeftFrac[m] = left;
    b.beddingNitrogenKg[m]! *= left;
    b.castingsNitrogenKg[m]! *= left;
  }
  for (let zone = 0; zone < zones; zone++) for (let m = 0; m < members; m++) z.nitrogenKg[zone * members + m]! *= s.nitrogenLeftFrac[m]!;
}

/** Dead worms and spent cocoons become castings; what the thin have lost was burnt. */
function bury({ state, scratch: s }: StepContext, m: number): void {
  const b = state.bed;
  const deadCarbon = s.deadKg[m]! * WORM_PARAMETERS.carbonFracOfLive.value;
  const deadSolids = deadCarbon * solidsPerCarbon;
  b.castingsCarbonKg[m]! += deadCarbon;
  const labile = b.castingsLabileKg[m]!;
  if (labile + deadSolids > 0)
    b.castingsLabileRatePerDay[m] =
      (labile * b.castingsLabileRatePerDay[m]! + deadSolids * DECAY_PARAMETERS.castingsLabileRatePerDay.value) / (labile + deadSolids);
  b.castingsLabileKg[m]! += deadSolids;
  b.castingsNitrogenKg[m]! += (s.deadKg[m]! + s.shrunkKg[m]!) * WORM_PARAMETERS.nitrogenFracOfLive.value;
  const burnt = s.shrunkKg[m]! * WORM_PARAMETERS.carbonFracOfLive.value;
  s.carbonGasKg[m]! += burnt;
  s.oxygenKg[m]! += OXYGEN_PARAMETERS.oxygenPerSolids.value * burnt * solidsPerCarbon;
}

function settleGas({ state, scratch: s, days }: StepContext, m: number): void {
  const b = state.bed;
  b.carbonGasKg[m]! += s.carbonGasKg[m]!;
  b.oxygenUseKgPerDay[m] = s.oxygenKg[m]! / days;
  b.carbonGasKgPerDay[m] = s.carbonGasKg[m]! / days;
  const made = s.gasSolidsKg[m]! * WATER_PARAMETERS.metabolicKgPerKg.value;
  b.waterInKg[m]! += made;
  b.bedWaterKg[m]! += made + s.releasedWaterKg[m]!;
  s.releasedWaterKg[m] = 0;
}

export const ALKALI_PH_KG_PER_KG = CARBON_NITROGEN_PARAMETERS.alkaliPhKgPerKgN.value;
