import { startRun } from '../bin/run.ts';
import { type BinRun, type RunOptions, TRACKS } from '../bin/run-types.ts';
import type { Scenario } from '../bin/scenario.ts';
import { MEMBER_COLUMNS, stateLength, stateOver, ZONE_COLUMNS } from '../bin/state.ts';

/** Raised whenever the columns or their meaning change, so that an old checkpoint is run again and never misread. */
const LAYOUT = 2;
const HEAD = 7;

/** Tracks hold single precision, so two fit in a double. */
const trackRoom = (days: number, members: number): number => Math.ceil((days * TRACKS.length * members) / 2);
const tracksIn = (blob: Float64Array, from: number): Float32Array =>
  new Float32Array(blob.buffer, blob.byteOffset + from * Float64Array.BYTES_PER_ELEMENT);

/**
 * A run's state as plain doubles: head, state, the last kept days of the tracks.
 *
 * @shape run -> doubles[]
 * @returns Everything needed to go on as if the run had never stopped; rows are not in it
 */
export function encodeCheckpoint(run: BinRun, keptDays = 2): Float64Array {
  const { state } = run;
  const days = Math.min(keptDays, run.tracks.airlessFrac.length);
  const blob = new Float64Array(HEAD + state.buffer.length + trackRoom(days, state.members));
  blob.set([LAYOUT, MEMBER_COLUMNS.length, ZONE_COLUMNS.length, state.members, state.zones, run.day, days]);
  blob.set(state.buffer, HEAD);
  const kept = tracksIn(blob, HEAD + state.buffer.length);
  let at = 0;
  for (const name of TRACKS)
    for (const day of run.tracks[name].slice(run.tracks[name].length - days)) {
      kept.set(day, at);
      at += state.members;
    }
  return blob;
}

/**
 * The run of a checkpoint, ready to go on.
 *
 * @throws {RangeError} when the blob was written by another layout or does not fit the scenario
 */
export function restoreRun(scenario: Scenario, blob: Float64Array, options: RunOptions = {}): BinRun {
  const [layout, memberColumns, zoneColumns, members = 0, zones = 0, day = 0, days = 0] = blob;
  if (layout !== LAYOUT || memberColumns !== MEMBER_COLUMNS.length || zoneColumns !== ZONE_COLUMNS.length || zones !== scenario.bin.zones)
    throw new RangeError(`Cannot restore a checkpoint as its layout is not ours: current value is ${blob.slice(0, HEAD).join(' ')}`);
  const length = stateLength(members, zones);
  if (blob.length !== HEAD + length + trackRoom(days, members))
    throw new RangeError(`Cannot restore a checkpoint as its length does not fit: current value is ${blob.length}`);
  const run = startRun(scenario, { ...options, members });
  const tracks = { ...run.tracks };
  const kept = tracksIn(blob, HEAD + length);
  let at = 0;
  for (const name of TRACKS) {
    tracks[name] = Array.from({ length: days }, (_, i) => Float64Array.from(kept.subarray(at + i * members, at + (i + 1) * members)));
    at += days * members;
  }
  return { ...run, state: stateOver(members, zones, blob.slice(HEAD, HEAD + length)), tracks, tracksFromDay: day - days + 1, day };
}
