import { SECONDS_PER_DAY } from '../../units/time.ts';
import { DECAY_PARAMETERS } from '../decay.ts';
import {
  airDepthM,
  airlessFrac,
  airOxygenGPerM3,
  baseOxygenFrac,
  coverResistanceSPerM,
  type DiffusionLaw,
  diffusionRatio,
  freeDiffusionM2PerS,
  OXYGEN_PARAMETERS as P,
  packedDiffusionRatio,
  packingExponent,
  settledRatio,
  slumpedRatio,
  warmerDiffusionRatio,
} from '../oxygen.ts';
import { localRiseC, metabolicRatio, TEMPERATURE_PARAMETERS } from '../temperature.ts';
import { WORM_PARAMETERS } from '../worms.ts';
import type { StepContext } from './context.ts';

const GRAMS_PER_KG = 1000;
const WATER_KG_PER_M3 = 1000;
const ORGANIC_M3_PER_KG = 1 / P.organicDensityKgM3.value;
const MINERAL_M3_PER_KG = 1 / P.mineralDensityKgM3.value;
const humified = DECAY_PARAMETERS.humifiedFrac.value;
/** Solids are half carbon, so a kilogram of carbon burnt took 1.4 / 0.5 kg of O2. */
const SOLIDS_PER_CARBON = 2;

/** How much air the bed holds and how far it reaches (model.md 1.3; EQ6, EQ7). */
export function stepBedAir({ state, scratch: s, geometry, structure }: StepContext): void {
  const { members, bed: b } = state;
  for (let m = 0; m < members; m++) {
    const bedding = s.beddingKg[m]!;
    const castings = s.castingsKg[m]!;
    const dry = bedding + castings;
    b.bedAirlessFrac[m] = 0;
    b.baseOxygenFrac[m] = P.airOxygenFrac.value;
    b.bedAirFilledPorosity[m] = 1;
    s.freeDiffusion[m] = freeDiffusionM2PerS(b.bedTempC[m]!);
    if (dry <= 0) continue;
    const loose = (bedding / P.beddingDryKgM3.value + castings / P.castingsDryKgM3.value) / b.densityRatio[m]!;
    const organic = (dry - b.beddingAshKg[m]! - b.castingsAshKg[m]!) / dry;
    const solidsM3 = dry * (organic / P.organicDensityKgM3.value + (1 - organic) / P.mineralDensityKgM3.value);
    const waterM3 = b.bedWaterKg[m]! / WATER_KG_PER_M3;
    const volume = Math.max(loose * settledRatio(b.bedSettledFrac[m]!), (solidsM3 + waterM3) / (1 - P.leastAirFrac.value));
    const air = 1 - (solidsM3 + waterM3) / volume;
    b.bedAirFilledPorosity[m] = air;
    const wormsPerM2 = s.wormsKg[m]! / geometry.areaM2;
    // Worms keep their bed open: the more there are, the less it packs.
    const open = Math.max(b.bedLooseFrac[m]!, wormsPerM2 / (wormsPerM2 + 1));
    const diffusion = s.freeDiffusion[m]! * diffusionRatio(air, 1 - solidsM3 / volume, packingExponent(open), structure.diffusion);
    const rotKg =
      (1 - humified) * (s.beddingLabileRate[m]! * b.beddingLabileKg[m]! + s.castingsLabileRate[m]! * b.castingsLabileKg[m]!) +
      s.beddingSlowRate[m]! * b.beddingSlowKg[m]! +
      s.castingsSlowRate[m]! * b.castingsSlowKg[m]!;
    const wormKg = s.wormsKg[m]! * WORM_PARAMETERS.restingCarbonPerDay.value * metabolicRatio(b.bedTempC[m]!) * SOLIDS_PER_CARBON;
    const use = (P.oxygenPerSolids.value * (rotKg + wormKg) * GRAMS_PER_KG) / (volume * SECONDS_PER_DAY);
    const height = (volume / geometry.areaM2) * (geometry.ventedBase ? 0.5 : 1);
    const atAir = airOxygenGPerM3(b.bedTempC[m]!);
    b.baseOxygenFrac[m] = baseOxygenFrac(diffusion, use, atAir, height);
    b.bedAirlessFrac[m] = airlessFrac(airDepthM(diffusion, use, atAir, 0), height);
  }
}

/** The same for every food layer, under its cover. */
export function stepLayerAir(context: StepContext): void {
  const { state, geometry, structure, weather } = context;
  const { members, zones, bed: b, zone: z, zoneMarks } = state;
  const s = context.scratch;
  for (let zone = 0; zone < zones; zone++) {
    const cover = coverResistanceSPerM(zoneMarks.coverDepthM[zone]!, weather.airTempC, structure.diffusion);
    for (let m = 0; m < members; m++) {
      const at = zone * members + m;
      const organic = z.labileKg[at]! + z.slowKg[at]! + z.mixedBeddingKg[at]!;
      const dry = organic + z.ashKg[at]!;
      z.airlessFrac[at] = 0;
      z.localRiseC[at] = 0;
      z.depthM[at] = 0;
      z.airDepthM[at] = 0;
      z.airFilledPorosity[at] = 1;
      if (dry <= 1e-9) continue;
      const solidsM3 = organic * ORGANIC_M3_PER_KG + z.ashKg[at]! * MINERAL_M3_PER_KG;
      const filledM3 = solidsM3 + z.waterKg[at]! / WATER_KG_PER_M3;
      const slumped = slumpedRatio(z.settledFrac[at]!, (dry + z.waterKg[at]!) / geometry.zoneAreaM2);
      const volume = Math.max(z.looseVolumeM3[at]! * slumped, filledM3 / (1 - P.leastAirFrac.value));
      const depth = volume / geometry.zoneAreaM2;
      const rotKg =
        (1 - humified) * s.zone.labileRate[at]! * z.labileKg[at]! +
        s.zone.slowRate[at]! * z.slowKg[at]! +
        s.beddingLabileRate[m]! * z.mixedBeddingKg[at]! * 0.5;
      const use = (P.oxygenPerSolids.value * rotKg * GRAMS_PER_KG) / (volume * SECONDS_PER_DAY);
      const air = 1 - filledM3 / volume;
      const riseC = s.zone.tempC[at]! - b.bedTempC[m]!;
      const free = s.freeDiffusion[m]! * warmerDiffusionRatio(riseC, b.bedTempC[m]!);
      const atAir = airOxygenGPerM3(s.zone.tempC[at]!);
      const open = geometry.ventedBase && b.bedAirFilledPorosity[m]! > P.bedOpenFrac.value && b.bedAirlessFrac[m] === 0;
      const reach = reachM(structure.diffusion, free, air, 1 - solidsM3 / volume, z.looseFrac[at]!, use, atAir, cover, open, depth);
      z.depthM[at] = depth;
      z.airDepthM[at] = reach;
      z.airFilledPorosity[at] = air;
      z.airlessFrac[at] = airlessFrac(reach, depth);
      const heatWPerM3 = use * TEMPERATURE_PARAMETERS.heatPerOxygenKjPerG.value * 1000 * (1 - z.airlessFrac[at]!);
      if (weather.bedTempC === null) z.localRiseC[at] = localRiseC(heatWPerM3, depth);
    }
  }
}

/** How deep air reaches, never deeper than the layer, by the packed law first: where that is deep enough, no better is needed. */
function reachM(
  law: DiffusionLaw,
  free: number,
  air: number,
  porosity: number,
  looseFrac: number,
  use: number,
  atAir: number,
  cover: number,
  open: boolean,
  depth: number,
): number {
  if (law === 'moldrup') {
    const packed = reachBy(free * packedDiffusionRatio(air, porosity), use, atAir, cover, open);
    if (packed >= depth) return depth;
  }
  return Math.min(depth, reachBy(free * diffusionRatio(air, porosity, packingExponent(looseFrac), law), use, atAir, cover, open));
}

const reachBy = (diffusion: number, use: number, atAir: number, cover: number, open: boolean): number =>
  airDepthM(diffusion, use, atAir, cover) + (open ? airDepthM(diffusion, use, atAir, 0) : 0);
