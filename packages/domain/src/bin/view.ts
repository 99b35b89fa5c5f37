import { spreadOf } from '../ensemble/spread.ts';
import { geometryOf } from './geometry.ts';
import * as read from './observe.ts';
import { QUANTITY_OF, TRACK_OF } from './observe.ts';
import type { BinView, Spread, ZoneView } from './outcome.ts';
import type { BinRun } from './run-types.ts';
import type { BinState } from './state.ts';

const dayOrNull = (day: number): number | null => (day < 0 ? null : day);
const over = (part: number, whole: number): number => (whole > 0 ? part / whole : 0);

/** A picture of the bin at the end of the run's last day. */
export function viewOf(run: BinRun): BinView {
  const { state, scenario, day } = run;
  const { areaM2 } = geometryOf(scenario.bin);
  const spread = (of: (state: BinState, m: number) => number): Spread => {
    const values = new Float64Array(state.members);
    for (let m = 0; m < state.members; m++) values[m] = of(state, m);
    return spreadOf(values, state.bed.weight);
  };
  return {
    day,
    ageDays: scenario.bin.ageDays + day,
    zones: Array.from({ length: state.zones }, (_, zone) => zoneView(state, zone, spread)),
    foodInHandDays: spread(read.foodInHandDays),
    labileFoodKgDb: spread(read.labileFoodKg),
    appetiteKgDbPerDay: spread((s, m) => s.bed.appetiteKgDbPerDay[m]!),
    wormsKg: spread(read.wormsKg),
    moistureFracWb: spread(read.moistureFracWb),
    airFilledPorosity: spread((s, m) => TRACK_OF.airFilledPorosity(s, m, day, areaM2)),
    bedTempC: spread((s, m) => s.bed.bedTempC[m]!),
    bedPeakTempC: spread((s, m) => s.bed.bedPeakTempC[m]!),
    baseOxygenFrac: spread((s, m) => s.bed.baseOxygenFrac[m]!),
    ph: spread(read.ph),
    cnRatio: spread(QUANTITY_OF.cnRatio),
    beddingFracOfSolids: spread((s, m) => over(read.beddingSolidsKg(s, m), read.solidsKg(s, m))),
    castingsKgWb: spread(read.castingsKgWb),
    levelM: spread((s, m) => read.levelM(s, m, areaM2)),
    lastFedDay: dayOrNull(state.marks.lastFedDay[0]!),
    lastCheckDay: dayOrNull(state.marks.lastCheckDay[0]!),
    lastLoosenedDay: dayOrNull(state.marks.lastLoosenedDay[0]!),
    lastInoculatedDay: dayOrNull(state.marks.lastInoculatedDay[0]!),
    lastHarvestDay: dayOrNull(state.marks.lastHarvestDay[0]!),
  };
}

function zoneView(state: BinState, zone: number, spread: (of: (state: BinState, m: number) => number) => Spread): ZoneView {
  const z = state.zone;
  const at = (m: number): number => zone * state.members + m;
  const ofColumn = (column: Float64Array): Spread => spread((_, m) => column[at(m)]!);
  return {
    zone: zone + 1,
    foodLeftKgWb: spread((s, m) => read.layerFoodKgWb(s, at(m))),
    foodLeftKgDb: spread((s, m) => read.layerSolidsKg(s, at(m))),
    leftFrac: ofColumn(z.lastLeftFrac),
    watchedLabileFrac: ofColumn(z.watchedLabileFrac),
    watchedFedDay: dayOrNull(state.zoneMarks.watchedFedDay[zone]!),
    layerDepthM: ofColumn(z.depthM),
    airDepthM: ofColumn(z.airDepthM),
    airlessFrac: ofColumn(z.airlessFrac),
    airFilledPorosity: ofColumn(z.airFilledPorosity),
    moistureFracWb: spread((s, m) => over(z.waterKg[at(m)]!, read.layerFoodKgWb(s, at(m)) + z.mixedBeddingKg[at(m)]!)),
    lastFedDay: dayOrNull(state.zoneMarks.zoneFedDay[zone]!),
    lastFedKg: state.zoneMarks.zoneFedKg[zone]!,
  };
}
