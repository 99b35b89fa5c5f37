/**
 * What the model says of a bin: one row a day, a picture of now, and the ledgers.
 * With one member p10 = p50 = p90; with many they are weighted quantiles.
 */
export interface Spread {
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
}

/** The quantities of one day row, in the order of the result file (`middenry-result/1`). */
export const DAY_QUANTITIES = [
  'wormsKg',
  'wormCount',
  'adultCount',
  'adultMeanMassMg',
  'cocoonCount',
  'meanMassMg',
  'foodLeftKgDb',
  'solidsKgDb',
  'carbonKg',
  'nitrogenKg',
  'cnRatio',
  'moistureFracWb',
  'bedTempC',
  'airlessFrac',
  'ph',
  'castingsKgWb',
  'oxygenUseGPerH',
  'co2GPerH',
] as const;
export type DayQuantity = (typeof DAY_QUANTITIES)[number];

/** What a day is kept with: the same, and what only the pages show. */
export const ROW_QUANTITIES = [...DAY_QUANTITIES, 'foodInHandDays'] as const;
export type RowQuantity = (typeof ROW_QUANTITIES)[number];

export type DayRow = { readonly day: number } & Readonly<Record<RowQuantity, Spread>>;
/** A day as the result file has it. */
export type ResultRow = { readonly day: number } & Readonly<Record<DayQuantity, Spread>>;

/** One feeding zone as it lies today. */
export interface ZoneView {
  readonly zone: number;
  /** Food still there, as it was put in (wet). */
  readonly foodLeftKgWb: Spread;
  readonly foodLeftKgDb: Spread;
  /** Share of the last feeding of this zone that is not gone, 0 to 1; 0 when never fed. */
  readonly leftFrac: Spread;
  /** Share of the labile part of the watched feeding that is not gone, and its day; what `overfed` reads. */
  readonly watchedLabileFrac: Spread;
  readonly watchedFedDay: number | null;
  readonly layerDepthM: Spread;
  /** How far air reaches down into the layer [m]; as deep as the layer when nothing is short of air. */
  readonly airDepthM: Spread;
  readonly airlessFrac: Spread;
  readonly airFilledPorosity: Spread;
  readonly moistureFracWb: Spread;
  readonly lastFedDay: number | null;
  readonly lastFedKg: number;
}

/** The bed and the whole bin as it is today. */
export interface BinView {
  readonly day: number;
  readonly ageDays: number;
  readonly zones: readonly ZoneView[];
  /** Labile food in hand over the worms' appetite of one day [days]. */
  readonly foodInHandDays: Spread;
  readonly labileFoodKgDb: Spread;
  readonly appetiteKgDbPerDay: Spread;
  readonly wormsKg: Spread;
  readonly moistureFracWb: Spread;
  readonly airFilledPorosity: Spread;
  readonly bedTempC: Spread;
  readonly bedPeakTempC: Spread;
  readonly baseOxygenFrac: Spread;
  readonly ph: Spread;
  readonly cnRatio: Spread;
  readonly beddingFracOfSolids: Spread;
  readonly castingsKgWb: Spread;
  readonly levelM: Spread;
  readonly lastFedDay: number | null;
  readonly lastCheckDay: number | null;
  readonly lastLoosenedDay: number | null;
  readonly lastInoculatedDay: number | null;
  readonly lastHarvestDay: number | null;
}

export interface Ledger {
  readonly inKg: number;
  readonly storedKg: number;
  readonly gasKg: number;
  readonly drainedKg: number;
  readonly harvestedKg: number;
  readonly removedKg: number;
  readonly unaccountedKg: number;
}

export interface Ledgers {
  readonly carbon: Ledger;
  readonly nitrogen: Ledger;
  readonly water: Ledger;
}
