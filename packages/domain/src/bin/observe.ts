import { GRAMS_PER_KG, MILLIGRAMS_PER_KG } from '../units/mass.ts';
import { SECONDS_PER_DAY, SECONDS_PER_HOUR } from '../units/time.ts';
import { phOf } from './acid.ts';
import { CARBON_NITROGEN_PARAMETERS } from './carbon-nitrogen.ts';
import { WATCH_DAYS } from './events.ts';
import type { RowQuantity } from './outcome.ts';
import { OXYGEN_PARAMETERS, settledRatio, slumpedRatio } from './oxygen.ts';
import type { Track } from './run-types.ts';
import type { BinState } from './state.ts';

const HOURS_PER_DAY = SECONDS_PER_DAY / SECONDS_PER_HOUR;
/** A zone with less food than this is not called airless (model.md 4). */
export const LEAST_LAYER_KG = 0.2;
const MOST_FOOD_DAYS = 999;
/** Labile share of mixed scraps: turns an appetite for food into one for its labile part. */
const LABILE_FRAC_OF_SCRAPS = 0.73;

export const beddingSolidsKg = ({ bed: b }: BinState, m: number): number =>
  b.beddingLabileKg[m]! + b.beddingSlowKg[m]! + b.beddingAshKg[m]!;
export const castingsSolidsKg = ({ bed: b }: BinState, m: number): number =>
  b.castingsLabileKg[m]! + b.castingsSlowKg[m]! + b.castingsAshKg[m]!;
export const layerSolidsKg = ({ zone: z }: BinState, at: number): number => z.labileKg[at]! + z.slowKg[at]! + z.ashKg[at]!;
export const layerFoodKgWb = (state: BinState, at: number): number => layerSolidsKg(state, at) + state.zone.waterKg[at]!;

function overZones(state: BinState, m: number, of: (at: number, zone: number) => number): number {
  let sum = 0;
  for (let zone = 0; zone < state.zones; zone++) sum += of(zone * state.members + m, zone);
  return sum;
}

const foodSolidsKg = (state: BinState, m: number): number => overZones(state, m, (at) => layerSolidsKg(state, at));
export const solidsKg = (state: BinState, m: number): number =>
  beddingSolidsKg(state, m) + castingsSolidsKg(state, m) + foodSolidsKg(state, m);
const waterKg = (state: BinState, m: number): number => state.bed.bedWaterKg[m]! + overZones(state, m, (at) => state.zone.waterKg[at]!);
const over = (part: number, whole: number): number => (whole > 0 ? part / whole : 0);

export function moistureFracWb(state: BinState, m: number): number {
  const water = waterKg(state, m);
  return over(water, water + solidsKg(state, m));
}

/** Castings with their share of the bed's water. */
export function castingsKgWb(state: BinState, m: number): number {
  const castings = castingsSolidsKg(state, m);
  return castings + state.bed.bedWaterKg[m]! * over(castings, castings + beddingSolidsKg(state, m));
}

export const wormsKg = (state: BinState, m: number): number => state.stageKgs.reduce((sum, column) => sum + column[m]!, 0);
const wormCount = (state: BinState, m: number): number => state.stageCounts.reduce((sum, column) => sum + column[m]!, 0);
export const ph = (state: BinState, m: number): number => phOf(state.bed.acidPhKg[m]!, solidsKg(state, m));
export const labileFoodKg = (state: BinState, m: number): number => overZones(state, m, (at) => state.zone.labileKg[at]!);

export function foodInHandDays(state: BinState, m: number): number {
  const food = labileFoodKg(state, m);
  if (food <= 0) return 0;
  const appetite = state.bed.appetiteKgDbPerDay[m]! * LABILE_FRAC_OF_SCRAPS;
  return appetite > 0 ? Math.min(MOST_FOOD_DAYS, food / appetite) : MOST_FOOD_DAYS;
}

const carbonKg = (state: BinState, m: number): number =>
  state.bed.beddingCarbonKg[m]! + state.bed.castingsCarbonKg[m]! + overZones(state, m, (at) => state.zone.carbonKg[at]!);
const nitrogenKg = (state: BinState, m: number): number =>
  state.bed.beddingNitrogenKg[m]! + state.bed.castingsNitrogenKg[m]! + overZones(state, m, (at) => state.zone.nitrogenKg[at]!);

function worstAirless(state: BinState, m: number, leastKgWb: number): number {
  let worst = 0;
  for (let at = m; at < state.members * state.zones; at += state.members)
    if (layerFoodKgWb(state, at) >= leastKgWb) worst = Math.max(worst, state.zone.airlessFrac[at]!);
  return worst;
}

function layerVolumeM3(state: BinState, at: number, areaM2: number): number {
  const wetKg = layerFoodKgWb(state, at) + state.zone.mixedBeddingKg[at]!;
  return state.zone.looseVolumeM3[at]! * slumpedRatio(state.zone.settledFrac[at]!, wetKg / areaM2);
}

/** Height of everything in the bin, [m]. */
export function levelM(state: BinState, m: number, areaM2: number): number {
  const { bed: b, zone: z } = state;
  const mixedKg = overZones(state, m, (at) => z.mixedBeddingKg[at]!);
  const bedM3 =
    (Math.max(0, beddingSolidsKg(state, m) - mixedKg) / OXYGEN_PARAMETERS.beddingDryKgM3.value +
      castingsSolidsKg(state, m) / OXYGEN_PARAMETERS.castingsDryKgM3.value) /
    b.densityRatio[m]!;
  const layersM3 = overZones(state, m, (at) => layerVolumeM3(state, at, areaM2 / state.zones));
  return (bedM3 * settledRatio(b.bedSettledFrac[m]!) + layersM3) / areaM2;
}

/** How each quantity of a day row is read off a member. */
export const QUANTITY_OF: Readonly<Record<RowQuantity, (state: BinState, m: number) => number>> = {
  wormsKg,
  wormCount,
  adultCount: (state, m) => state.bed.adultCount[m]!,
  adultMeanMassMg: (state, m) => over(state.bed.adultKg[m]! * MILLIGRAMS_PER_KG, state.bed.adultCount[m]!),
  cocoonCount: (state, m) => state.cocoonCounts.reduce((sum, column) => sum + column[m]!, 0),
  meanMassMg: (state, m) => over(wormsKg(state, m) * MILLIGRAMS_PER_KG, wormCount(state, m)),
  foodLeftKgDb: foodSolidsKg,
  solidsKgDb: solidsKg,
  carbonKg,
  nitrogenKg,
  cnRatio: (state, m) => over(carbonKg(state, m), nitrogenKg(state, m)),
  moistureFracWb,
  bedTempC: (state, m) => state.bed.bedTempC[m]!,
  airlessFrac: (state, m) => worstAirless(state, m, 0),
  ph,
  castingsKgWb,
  foodInHandDays,
  oxygenUseGPerH: (state, m) => (state.bed.oxygenUseKgPerDay[m]! * GRAMS_PER_KG) / HOURS_PER_DAY,
  co2GPerH: (state, m) =>
    (state.bed.carbonGasKgPerDay[m]! * CARBON_NITROGEN_PARAMETERS.carbonDioxidePerCarbon.value * GRAMS_PER_KG) / HOURS_PER_DAY,
};

/** How each track is read off a member at the end of a day. */
export const TRACK_OF: Readonly<Record<Track, (state: BinState, m: number, day: number, areaM2: number) => number>> = {
  airlessFrac: (state, m) => worstAirless(state, m, LEAST_LAYER_KG),
  baseOxygenFrac: (state, m) => state.bed.baseOxygenFrac[m]!,
  foodInHandDays,
  oldLabileFrac: (state, m, day) => {
    let worst = 0;
    for (let zone = 0; zone < state.zones; zone++) {
      const fed = state.zoneMarks.watchedFedDay[zone]!;
      if (fed >= 0 && day - fed >= WATCH_DAYS) worst = Math.max(worst, state.zone.watchedLabileFrac[zone * state.members + m]!);
    }
    return worst;
  },
  labileFoodKgDb: labileFoodKg,
  appetiteKgDbPerDay: (state, m) => state.bed.appetiteKgDbPerDay[m]!,
  beddingFracOfSolids: (state, m) => over(beddingSolidsKg(state, m), solidsKg(state, m)),
  moistureFracWb,
  airFilledPorosity: (state, m) => {
    let least = state.bed.bedAirFilledPorosity[m]!;
    for (let at = m; at < state.members * state.zones; at += state.members)
      if (layerFoodKgWb(state, at) >= LEAST_LAYER_KG) least = Math.min(least, state.zone.airFilledPorosity[at]!);
    return least;
  },
  bedPeakTempC: (state, m) => state.bed.bedPeakTempC[m]!,
  bedTempC: (state, m) => state.bed.bedTempC[m]!,
  ph,
  rottingCn: (state, m) => over(state.bed.rottingCarbonKg[m]!, state.bed.rottingNitrogenKg[m]!),
  castingsKgWb,
  levelM: (state, m, _day, areaM2) => levelM(state, m, areaM2),
  wormsKg,
};
