import type { BinRun } from '../bin/run-types.ts';
import type { BinEvent, Climate, Scenario } from '../bin/scenario.ts';
import { weatherOf } from '../bin/weather.ts';
import { encodeCheckpoint, restoreRun } from '../ensemble/checkpoint.ts';
import { fewOf } from '../ensemble/few.ts';
import type { RunMemory } from '../ensemble/memory.ts';
import { courseOf, daysAt, type Keeping } from '../signals/assess.ts';
import { daysOf } from '../signals/read-days.ts';
import { SIGNALS } from '../signals/registry.ts';
import type { SignalId } from '../signals/types.ts';
import { FORECAST_DAYS, LOOK_BACK_DAYS, standingOf } from '../standing.ts';

/** Troubles whose chance a what-if tells. */
export const WHAT_IF_SIGNALS = [
  'airless',
  'overfed',
  'hungry',
  'dry',
  'wet',
  'hot',
  'cold',
  'sour',
  'ammonia',
] as const satisfies readonly SignalId[];
export type WhatIfSignal = (typeof WHAT_IF_SIGNALS)[number];

/** Fewer than the board asks, so that a browser can fetch and run them; a chance is then true to about 9 points in 100 (binomial). */
export const WHAT_IF_MEMBERS = 32;
/** Days of the log that what was seen and fed may still matter for. */
const LOG_DAYS = 28;

/** A bin as it stands today, whole and small: all that its days ahead rest on. */
export interface Ensemble extends Keeping {
  readonly seed: number;
  /** Of the days ahead only. */
  readonly climate: Climate;
  readonly day: number;
  /** A checkpoint of the members. */
  readonly state: Float64Array;
  /** Days running that each signal's condition was met at the end of today, by member. */
  readonly running: Readonly<Record<WhatIfSignal, readonly number[]>>;
  /** What was seen and done of late. */
  readonly log: readonly BinEvent[];
}

/**
 * Packs a bin's members for somebody else to go on with.
 *
 * @shape scenario, day -> ensemble
 * @returns Plain data but for the state; the same for the same input
 * @source none: glue of the model and the signals
 */
export function ensembleOf(
  scenario: Scenario,
  today: number,
  settings: Pick<Keeping, 'checkIntervalDays' | 'resting'>,
  memory?: RunMemory,
): Ensemble {
  const { setup, checkIntervalDays, resting, run, log } = standingOf(scenario, today, { ...settings, historyDays: 1 }, memory);
  const keeping: Keeping = { setup, checkIntervalDays, resting };
  const few = fewOf(run, WHAT_IF_MEMBERS);
  const at = daysAt(keeping, daysOf(few, Math.max(0, today - LOOK_BACK_DAYS), today), log);
  const running = Object.fromEntries(WHAT_IF_SIGNALS.map((id) => [id, courseOf(SIGNALS[id], at).running])) as Ensemble['running'];
  return {
    ...keeping,
    seed: scenario.seed,
    climate: aheadOnly(scenario.climate, today),
    day: today,
    state: encodeCheckpoint(few, 1),
    running,
    log: log.filter(({ day }) => day > today - LOG_DAYS),
  };
}

/** Readings of days that are over say nothing any more; each day ahead is said but once. */
function aheadOnly(climate: Climate, today: number): Climate {
  const { readings: _past, ...rest } = climate;
  if (climate.readings === undefined) return rest;
  const ahead = Array.from({ length: FORECAST_DAYS }, (_, i) => today + 1 + i);
  const read = ahead.filter((day) => climate.readings?.some(([on]) => on === day));
  return { ...rest, readings: read.map((day) => [day, weatherOf(climate, day).airTempC] as const) };
}

/**
 * The run of an ensemble, standing at the end of its day.
 *
 * @shape ensemble -> run
 * @throws {RangeError} when its state was packed by another version
 */
export function runOfEnsemble({ setup, seed, climate, day, state }: Ensemble): BinRun {
  const scenario: Scenario = { schema: 'middenry-scenario/1', days: day, members: 1, seed, bin: setup, climate, events: [] };
  return restoreRun(scenario, state);
}
