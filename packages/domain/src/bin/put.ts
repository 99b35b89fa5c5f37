import { type MaterialFacts, materialOf } from '../materials/material.ts';
import { ACID_PARAMETERS } from './acid.ts';
import { DECAY_PARAMETERS, decayedFrac, preparationRatio } from './decay.ts';
import { OXYGEN_PARAMETERS } from './oxygen.ts';
import type { Portion, Preparation } from './scenario.ts';
import type { BinState } from './state.ts';

/** A portion ready to be put in: fractions of its dry mass, rates with its preparation in them, no member in it yet. */
export interface Charge {
  readonly dryFrac: number;
  readonly labileFracDb: number;
  readonly slowFracDb: number;
  readonly ashFracDb: number;
  readonly carbonFracDb: number;
  readonly nitrogenFracDb: number;
  /** Without worms. */
  readonly labileRatePerDay: number;
  readonly slowRatePerDay: number;
  readonly quality: number;
  readonly acidPhPerKg: number;
  readonly layerKgM3: number;
  readonly isMineral: boolean;
  /** Finished matter: goes to the castings, brings microbes. */
  readonly isFinished: boolean;
}

/** Mostly mineral things (lime, grit, shell) are not food and lie in the bed. */
const LEAST_ORGANIC_FRAC = 0.1;

export function chargeOf(portion: Portion): Charge {
  const facts = materialOf(portion);
  const aged = agedLabileFrac(facts, portion.preCompostedDays ?? 0);
  // Card, straw and wood have no part that is food in hand: all of it rots as the slow pool does, at its mean rate.
  const soft = facts.labileRatePerDay >= DECAY_PARAMETERS.softFromPerDay.value;
  const labile = soft ? aged : 0;
  const preparation = portion.preparation ?? 'chopped';
  return {
    dryFrac: 1 - facts.moistureFracWb,
    labileFracDb: facts.organicFracDb * labile,
    slowFracDb: facts.organicFracDb * (1 - labile),
    ashFracDb: 1 - facts.organicFracDb,
    carbonFracDb: facts.carbonFracDb,
    nitrogenFracDb: facts.nitrogenFracDb,
    labileRatePerDay: (facts.labileRatePerDay / DECAY_PARAMETERS.labileWithWorms.value) * preparationRatio(preparation),
    slowRatePerDay:
      (soft ? facts.slowRatePerDay : aged * facts.labileRatePerDay + (1 - aged) * facts.slowRatePerDay) /
      DECAY_PARAMETERS.slowWithWorms.value,
    quality: facts.qualityRatio,
    acidPhPerKg: ACID_PARAMETERS.neutralPh.value - facts.ph,
    layerKgM3:
      facts.kind === 'bedding' ? OXYGEN_PARAMETERS.beddingDryKgM3.value / (1 - facts.moistureFracWb) : layerDensityKgM3(preparation),
    isMineral: facts.organicFracDb < LEAST_ORGANIC_FRAC,
    isFinished: portion.material === 'castings' || portion.material === 'compost_finished' || portion.material === 'leaf_mould',
  };
}

/** Labile share of what is left after days of composting first at about 20 C without worms (EQ1). */
function agedLabileFrac(facts: MaterialFacts, days: number): number {
  if (days <= 0) return facts.labileFrac;
  const labile = facts.labileFrac * (1 - decayedFrac(facts.labileRatePerDay / DECAY_PARAMETERS.labileWithWorms.value, days));
  const slow = (1 - facts.labileFrac) * (1 - decayedFrac(facts.slowRatePerDay / DECAY_PARAMETERS.slowWithWorms.value, days));
  return labile + slow > 0 ? labile / (labile + slow) : 0;
}

function layerDensityKgM3(preparation: Preparation): number {
  switch (preparation) {
    case 'whole':
      return OXYGEN_PARAMETERS.wholeLayerKgM3.value;
    case 'chopped':
      return OXYGEN_PARAMETERS.choppedLayerKgM3.value;
    case 'frozen':
      return OXYGEN_PARAMETERS.frozenLayerKgM3.value;
    case 'pureed':
      return OXYGEN_PARAMETERS.pureedLayerKgM3.value;
    default:
      return preparation satisfies never;
  }
}

const blend = (haveKg: number, have: number, addKg: number, add: number): number =>
  haveKg + addKg > 0 ? (haveKg * have + addKg * add) / (haveKg + addKg) : add;

/** What a charge would rot a day, the weight of its quality in a mix. */
const flowOf = (charge: Charge, dryKg: number): number =>
  dryKg * (charge.labileFracDb * charge.labileRatePerDay + charge.slowFracDb * charge.slowRatePerDay);

/** Quality of a mix: each part by how fast it rots and by how good it is, since poor matter that rots beside rich matter grows good microbes. */
function blendQuality(haveFlow: number, have: number, addFlow: number, add: number): number {
  const weight = haveFlow * have + addFlow * add;
  return weight > 0 ? (haveFlow * have * have + addFlow * add * add) / weight : Math.max(have, add);
}

/** Books what comes in. */
export function bookIn(state: BinState, member: number, charge: Charge, massKg: number): void {
  const dryKg = massKg * charge.dryFrac;
  state.bed.carbonInKg[member]! += dryKg * charge.carbonFracDb;
  state.bed.nitrogenInKg[member]! += dryKg * charge.nitrogenFracDb;
  state.bed.waterInKg[member]! += massKg - dryKg;
  state.bed.acidPhKg[member]! += dryKg * charge.acidPhPerKg;
}

/** Puts food into a zone's layer. */
export function putFood(state: BinState, member: number, zone: number, charge: Charge, massKg: number): void {
  const z = state.zone;
  const at = zone * state.members + member;
  const dryKg = massKg * charge.dryFrac;
  const volumeM3 = massKg / (charge.layerKgM3 * state.bed.densityRatio[member]!);
  const labileKg = dryKg * charge.labileFracDb;
  const slowKg = dryKg * charge.slowFracDb;
  const haveFlow = z.labileKg[at]! * z.labileRatePerDay[at]! + z.slowKg[at]! * z.slowRatePerDay[at]!;
  z.quality[at] = blendQuality(haveFlow, z.quality[at]!, flowOf(charge, dryKg), charge.quality);
  z.labileRatePerDay[at] = blend(z.labileKg[at]!, z.labileRatePerDay[at]!, labileKg, charge.labileRatePerDay);
  z.slowRatePerDay[at] = blend(z.slowKg[at]!, z.slowRatePerDay[at]!, slowKg, charge.slowRatePerDay);
  z.settledFrac[at] = blend(z.looseVolumeM3[at]!, z.settledFrac[at]!, volumeM3, 0);
  z.looseFrac[at] = blend(z.looseVolumeM3[at]!, z.looseFrac[at]!, volumeM3, 0);
  z.looseVolumeM3[at]! += volumeM3;
  z.labileKg[at]! += labileKg;
  z.slowKg[at]! += slowKg;
  z.ashKg[at]! += dryKg * charge.ashFracDb;
  z.waterKg[at]! += massKg - dryKg;
  z.carbonKg[at]! += dryKg * charge.carbonFracDb;
  z.nitrogenKg[at]! += dryKg * charge.nitrogenFracDb;
  bookIn(state, member, charge, massKg);
}

/** Puts bedding into the bed; into a layer as well when it is mixed there (its room and its water then count in the layer). */
export function putBedding(state: BinState, member: number, charge: Charge, massKg: number, mixedIntoZone: number | null): void {
  const b = state.bed;
  const dryKg = massKg * charge.dryFrac;
  const labileKg = dryKg * charge.labileFracDb;
  const slowKg = dryKg * charge.slowFracDb;
  const haveFlow =
    b.beddingLabileKg[member]! * b.beddingLabileRatePerDay[member]! + b.beddingSlowKg[member]! * b.beddingSlowRatePerDay[member]!;
  b.beddingQuality[member] = blendQuality(haveFlow, b.beddingQuality[member]!, flowOf(charge, dryKg), charge.quality);
  b.beddingLabileRatePerDay[member] = blend(
    b.beddingLabileKg[member]!,
    b.beddingLabileRatePerDay[member]!,
    labileKg,
    charge.labileRatePerDay,
  );
  b.beddingSlowRatePerDay[member] = blend(b.beddingSlowKg[member]!, b.beddingSlowRatePerDay[member]!, slowKg, charge.slowRatePerDay);
  b.beddingLabileKg[member]! += labileKg;
  b.beddingSlowKg[member]! += slowKg;
  b.beddingAshKg[member]! += dryKg * charge.ashFracDb;
  b.beddingCarbonKg[member]! += dryKg * charge.carbonFracDb;
  b.beddingNitrogenKg[member]! += dryKg * charge.nitrogenFracDb;
  bookIn(state, member, charge, massKg);
  if (mixedIntoZone === null) {
    b.bedWaterKg[member]! += massKg - dryKg;
    return;
  }
  const at = mixedIntoZone * state.members + member;
  const z = state.zone;
  const volumeM3 = dryKg / (OXYGEN_PARAMETERS.beddingDryKgM3.value * b.densityRatio[member]!);
  z.looseFrac[at] = blend(z.looseVolumeM3[at]!, z.looseFrac[at]!, volumeM3, 1);
  z.looseVolumeM3[at]! += volumeM3;
  z.mixedBeddingKg[at]! += dryKg;
  z.waterKg[at]! += massKg - dryKg;
}

/** Puts finished compost or castings into the bed. */
export function putFinished(state: BinState, member: number, charge: Charge, massKg: number): void {
  const b = state.bed;
  const dryKg = massKg * charge.dryFrac;
  const labileKg = dryKg * charge.labileFracDb;
  b.castingsLabileRatePerDay[member] = blend(
    b.castingsLabileKg[member]!,
    b.castingsLabileRatePerDay[member]!,
    labileKg,
    charge.labileRatePerDay,
  );
  b.castingsLabileKg[member]! += labileKg;
  b.castingsSlowKg[member]! += dryKg * charge.slowFracDb;
  b.castingsAshKg[member]! += dryKg * charge.ashFracDb;
  b.castingsCarbonKg[member]! += dryKg * charge.carbonFracDb;
  b.castingsNitrogenKg[member]! += dryKg * charge.nitrogenFracDb;
  b.bedWaterKg[member]! += massKg - dryKg;
  bookIn(state, member, charge, massKg);
}
