import { drift, learnFrom } from '../ensemble/learn.ts';
import { spreadOf } from '../ensemble/spread.ts';
import { applyEvent } from './events.ts';
import { geometryOf } from './geometry.ts';
import { assertClosed, ledgersOfState } from './ledger.ts';
import { QUANTITY_OF, TRACK_OF } from './observe.ts';
import { type DayRow, type Ledgers, ROW_QUANTITIES, type RowQuantity, type Spread } from './outcome.ts';
import { type BinRun, type RunOptions, TRACKS, type Track, USUAL_STRUCTURE } from './run-types.ts';
import { type BinEvent, EXPOSURES, type Scenario } from './scenario.ts';
import { speciesOf, stageMassesG, startOf } from './start.ts';
import { copyState } from './state.ts';
import type { StepContext } from './step/context.ts';
import { scratchFor } from './step/scratch.ts';
import { step } from './step/step.ts';
import { larvaeRatePerDay } from './visitors.ts';
import { exposureRatio } from './water.ts';
import { sunGainC, weatherOf } from './weather.ts';
import { SPECIES_FACTS } from './worms.ts';

export * from './run-types.ts';
export { viewOf } from './view.ts';

/**
 * Steps a bin's members day by day from its start.
 *
 * @shape scenario -> run
 * @returns A run that has stepped day 0 to `untilDay`; row d is the state at the end of day d
 * @throws {RangeError} when the scenario asks for what it can not have: see `checkScenario` for all faults at once
 */
export function runBin(scenario: Scenario, options: RunOptions = {}): BinRun {
  const run = startRun(scenario, options);
  return advance(run, (options.untilDay ?? scenario.days) + 1);
}

/** A run before its first day. */
export function startRun(scenario: Scenario, options: RunOptions = {}): BinRun {
  const members = options.members ?? scenario.members;
  return {
    scenario,
    structure: { ...USUAL_STRUCTURE, ...options.structure },
    state: startOf(scenario, members),
    events: inOrder(scenario.events),
    rows: [],
    tracks: emptyTracks(),
    surprises: [],
    tracksFromDay: 0,
    day: -1,
    recordsRows: options.recordsRows ?? true,
    tracksOnly: false,
  };
}

const emptyTracks = (): Record<Track, Float64Array[]> =>
  Object.fromEntries(TRACKS.map((name) => [name, []])) as unknown as Record<Track, Float64Array[]>;

const inOrder = (events: readonly BinEvent[]): BinEvent[] =>
  events
    .map((event, at) => ({ event, at }))
    .sort((a, b) => a.event.day - b.event.day || a.at - b.at)
    .map(({ event }) => event);

/** A copy that can go its own way; rows and tracks up to now are shared as they were. */
export function forkRun(run: BinRun, options: { readonly keepHistory?: boolean; readonly tracksOnly?: boolean } = {}): BinRun {
  const keep = options.keepHistory ?? true;
  const tracks = emptyTracks();
  if (keep) for (const name of TRACKS) tracks[name] = [...run.tracks[name]];
  return {
    ...run,
    tracksOnly: options.tracksOnly ?? run.tracksOnly,
    state: copyState(run.state),
    events: [...run.events],
    surprises: [...run.surprises],
    rows: keep ? [...run.rows] : [],
    tracks,
    tracksFromDay: keep ? run.tracksFromDay : run.day + 1,
  };
}

/**
 * Steps a run on, with further events from now on (an event of a past day is refused).
 *
 * @throws {RangeError} when an extra event lies before the next day
 */
export function advance(run: BinRun, days: number, extraEvents: readonly BinEvent[] = []): BinRun {
  const late = extraEvents.find((event) => event.day <= run.day);
  if (late) throw new RangeError(`Cannot add an event before day ${run.day + 1}: current value is day ${late.day}`);
  if (extraEvents.length > 0) run.events.splice(0, run.events.length, ...inOrder([...run.events, ...extraEvents]));
  const context = contextFor(run);
  let next = run.events.findIndex((event) => event.day > run.day);
  if (next < 0) next = run.events.length;
  for (let i = 0; i < days; i++) {
    const day = run.day + 1;
    while (next < run.events.length && run.events[next]!.day <= day) {
      const event = run.events[next]!;
      learnFrom(run, event, day);
      applyEvent({ ...context, day }, event, next);
      next++;
    }
    drift(run, day);
    stepDay(context, day);
    assertClosed(run.state, run.scenario, day);
    run.day = day;
    if (run.recordsRows) record(run);
  }
  return run;
}

type RunContext = Omit<StepContext, 'day' | 'days' | 'weather' | 'sunGainC' | 'exposureRatio' | 'larvaePerDay'>;

function contextFor(run: BinRun): RunContext {
  const { scenario, structure, state } = run;
  const species = SPECIES_FACTS[speciesOf(scenario.bin.worms)];
  return {
    scenario,
    structure,
    state,
    species,
    geometry: geometryOf(scenario.bin),
    stageMassesG: stageMassesG(species),
    scratch: scratchFor(state.members, state.zones),
  };
}

function stepDay(context: RunContext, day: number): void {
  const { state, scenario, structure } = context;
  const exposure = EXPOSURES[state.marks.exposure[0]!]!;
  const dayContext: StepContext = {
    ...context,
    day,
    days: 1 / structure.stepsPerDay,
    weather: weatherOf(scenario.climate, day),
    sunGainC: sunGainC(exposure),
    exposureRatio: exposureRatio(exposure),
    larvaePerDay: larvaeRatePerDay(day, state.marks.larvaeDay[0]!),
  };
  for (let i = 0; i < structure.stepsPerDay; i++) step(dayContext);
}

function record(run: BinRun): void {
  const { state, day } = run;
  if (!run.tracksOnly) run.rows.push(rowOf(run));
  for (const name of TRACKS) {
    const values = new Float64Array(state.members);
    const read = TRACK_OF[name];
    // Seven digits are plenty for what is only read, and a checkpoint keeps them in half the room.
    for (let m = 0; m < state.members; m++) values[m] = Math.fround(read(state, m, day, run.scenario.bin.areaM2));
    run.tracks[name].push(values);
  }
}

function rowOf({ state, day }: BinRun): DayRow {
  const values = new Float64Array(state.members);
  const row = { day } as { day: number } & Record<RowQuantity, Spread>;
  for (const name of ROW_QUANTITIES) {
    const read = QUANTITY_OF[name];
    for (let m = 0; m < state.members; m++) values[m] = read(state, m);
    row[name] = spreadOf(values, state.bed.weight);
  }
  return row;
}

export const rowsOf = (run: BinRun): readonly DayRow[] => run.rows;
export const ledgersOf = (run: BinRun): Ledgers => ledgersOfState(run.state, run.scenario);

/** Weights of the members, adding up to 1. */
export const weightsOf = (run: BinRun): Float64Array => run.state.bed.weight;

/**
 * One quantity of every member at the end of a day.
 *
 * @throws {RangeError} when that day was not kept
 */
export function trackOf(run: BinRun, name: Track, day: number): Float64Array {
  const values = run.tracks[name][day - run.tracksFromDay];
  if (!values) throw new RangeError(`Cannot read ${name} of a day that was not kept: current value is ${day}`);
  return values;
}
