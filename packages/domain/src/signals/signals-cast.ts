import type { BinEvent, BinSetup } from '../bin/scenario.ts';
import type { SignalAt, SignalTold } from './definition.ts';
import { logFactsAt } from './log-facts.ts';
import type { BinDay, Reading, ZoneDay } from './member-day.ts';

/** A bin in which nothing is wrong, for tests to spoil one thing at a time. */
export const WELL: Reading = {
  airlessFrac: 0,
  baseOxygenFrac: 0.2,
  foodInHandDays: 4,
  oldLabileFrac: 0.1,
  labileFoodKgDb: 0.1,
  appetiteKgDbPerDay: 0.025,
  beddingFracOfSolids: 0.4,
  moistureFracWb: 0.75,
  airFilledPorosity: 0.5,
  bedPeakTempC: 20,
  bedTempC: 18,
  ph: 7,
  rottingCn: 24,
  castingsKgWb: 3,
  levelM: 0.2,
  wormsKg: 1,
};

export const TOTE: BinSetup = {
  kind: 'tote',
  areaM2: 0.2,
  depthM: 0.35,
  zones: 4,
  openBase: false,
  ageDays: 60,
  worms: { massKg: 1 },
  bed: [],
  bedWaterKg: 0,
};

export const zoneWell = (zone: number, over: Partial<ZoneDay> = {}): ZoneDay => ({
  zone,
  foodLeftKgWb: 0.5,
  foodLeftKgDb: 0.07,
  leftFrac: 0.5,
  watchedLabileFrac: 0.3,
  watchedFedDay: 27,
  layerDepthM: 0.02,
  airDepthM: 0.02,
  airlessFrac: 0,
  airFilledPorosity: 0.5,
  moistureFracWb: 0.8,
  lastFedDay: 27,
  lastFedKg: 1,
  ...over,
});

export const binWell = (day: number, over: Partial<BinDay> = {}): BinDay => ({
  ...WELL,
  day,
  ageDays: TOTE.ageDays + day,
  cnRatio: 24,
  zones: [1, 2, 3, 4].map((zone) => zoneWell(zone)),
  lastFedDay: 27,
  lastCheckDay: 28,
  lastLoosenedDay: null,
  lastInoculatedDay: null,
  lastHarvestDay: null,
  ...over,
});

export function atWell(day: number, over: Partial<Reading> = {}, events: readonly BinEvent[] = [], setup: BinSetup = TOTE): SignalAt {
  return {
    reading: { ...WELL, ...over },
    day,
    ageDays: setup.ageDays + day,
    log: logFactsAt(events, day),
    setup,
    checkIntervalDays: 7,
    resting: false,
  };
}

export const told = (at: SignalAt, bin: Partial<BinDay> = {}): SignalTold => ({ ...at, bin: binWell(at.day, bin) });
