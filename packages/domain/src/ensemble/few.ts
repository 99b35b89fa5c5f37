import { type BinRun, TRACKS, type Track } from '../bin/run-types.ts';
import { columnOf, MEMBER_COLUMNS, stateOver, ZONE_COLUMNS } from '../bin/state.ts';
import { systematic } from './resample.ts';

/** Of how many members a remedy or a feeding is tried on first. */
export const FEW_MEMBERS = 64;

/**
 * The run with fewer members, taken by their weight: what is tried often is tried on these, and only what does well on all.
 *
 * @shape run, count -> run
 * @returns The same run when it has no more members than asked for; else another, with even weights and no rows
 * @source none: systematic choice keeps each member as often as its weight says, within one
 */
export function fewOf(run: BinRun, count = FEW_MEMBERS): BinRun {
  const { state } = run;
  if (state.members <= count) return run;
  const chosen = systematic(state.bed.weight, 0.5, count);
  const few = stateOver(count, state.zones);
  const pick = (from: Float64Array, to: Float64Array): void => {
    for (let i = 0; i < count; i++) to[i] = from[chosen[i]!]!;
  };
  for (const name of MEMBER_COLUMNS) pick(columnOf(state.bed, name), columnOf(few.bed, name));
  for (const name of ZONE_COLUMNS)
    for (let zone = 0; zone < state.zones; zone++)
      pick(
        state.zone[name].subarray(zone * state.members, (zone + 1) * state.members),
        few.zone[name].subarray(zone * count, (zone + 1) * count),
      );
  for (const [name, column] of Object.entries(state.marks)) few.marks[name as 'lastFedDay'].set(column);
  for (const [name, column] of Object.entries(state.zoneMarks)) few.zoneMarks[name as 'zoneFedDay'].set(column);
  few.bed.weight.fill(1 / count);
  const tracks = {} as Record<Track, Float64Array[]>;
  for (const name of TRACKS)
    tracks[name] = run.tracks[name].map((day) => {
      const kept = new Float64Array(count);
      pick(day, kept);
      return kept;
    });
  return { ...run, state: few, tracks, rows: [], events: [...run.events], surprises: [...run.surprises] };
}
