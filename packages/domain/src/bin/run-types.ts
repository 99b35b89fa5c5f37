import type { Surprise } from '../ensemble/learn.ts';
import type { DayRow } from './outcome.ts';
import type { DiffusionLaw } from './oxygen.ts';
import type { BinEvent, Scenario } from './scenario.ts';
import type { BinState } from './state.ts';

/** What a signal may ask of every member on every day kept. */
export const TRACKS = [
  /** Worst zone that holds 0.2 kg of food or more; 0 when none does. */
  'airlessFrac',
  'baseOxygenFrac',
  /** Labile food over the worms' appetite of one day [days], at most 999. */
  'foodInHandDays',
  /** Largest share of a feeding's labile part left ten days or more after it was given; 0 when no feeding is that old. */
  'oldLabileFrac',
  'labileFoodKgDb',
  'appetiteKgDbPerDay',
  /** Bedding (with what is mixed into layers) over all solids. */
  'beddingFracOfSolids',
  'moistureFracWb',
  /** Of the bed, or of the worst zone layer where that is lower and holds 0.2 kg or more. */
  'airFilledPorosity',
  'bedPeakTempC',
  'bedTempC',
  'ph',
  /** C:N of what rots today. */
  'rottingCn',
  'castingsKgWb',
  'levelM',
  'wormsKg',
] as const;
export type Track = (typeof TRACKS)[number];

/** Another way of seeing the same physics, to test the model against itself. */
export interface Structure {
  readonly diffusion: DiffusionLaw;
  readonly microbes: 'q10' | 'rothc';
  /** Steps a day; 1 in every use, more only to show that it does not matter. */
  readonly stepsPerDay: number;
}
export const USUAL_STRUCTURE: Structure = { diffusion: 'moldrup', microbes: 'q10', stepsPerDay: 1 };

/** A bin on its way: grows by `advance`, is copied by `forkRun`. */
export interface BinRun {
  readonly scenario: Scenario;
  readonly structure: Structure;
  readonly state: BinState;
  /** By day; stable in the order of the log within one day. */
  readonly events: BinEvent[];
  readonly rows: DayRow[];
  /** Members of each track by day, from `tracksFromDay` on: tracks[name][day - tracksFromDay]. */
  readonly tracks: Readonly<Record<Track, Float64Array[]>>;
  tracksFromDay: number;
  /** What was seen against all expectation, oldest first. */
  readonly surprises: Surprise[];
  /** Last day stepped; -1 before day 0. */
  day: number;
  /** False where only the end matters: rows and tracks are then not kept. */
  recordsRows: boolean;
  /** True where the percentiles of a day are not asked for: tracks are then kept without rows. */
  readonly tracksOnly: boolean;
}

export interface RunOptions {
  /** Last day to step; the scenario's `days` when left out. */
  readonly untilDay?: number;
  readonly structure?: Partial<Structure>;
  /** Members instead of the scenario's. */
  readonly members?: number;
  readonly recordsRows?: boolean;
}
