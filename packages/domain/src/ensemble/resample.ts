import { type BinRun, TRACKS } from '../bin/run-types.ts';
import { columnOf, MEMBER_COLUMNS, ZONE_COLUMNS } from '../bin/state.ts';

/** Members that count: 1 / sum of squared weights. */
export function effectiveMembers(weights: Float64Array): number {
  let squares = 0;
  for (const weight of weights) squares += weight * weight;
  return 1 / squares;
}

/**
 * Which member each place takes by systematic resampling.
 *
 * @shape weights[n], scalar, count -> members[count]
 */
export function systematic(weights: Float64Array, start: number, count = weights.length): Int32Array {
  const chosen = new Int32Array(count);
  let sum = weights[0]!;
  let member = 0;
  for (let i = 0; i < count; i++) {
    const at = (i + start) / count;
    while (at > sum && member < weights.length - 1) {
      member++;
      sum += weights[member]!;
    }
    chosen[i] = member;
  }
  return chosen;
}

/** Copies likely members over unlikely ones, with all they hold and their kept days; weights are even afterwards. */
export function resample(run: BinRun, start: number): void {
  const { state } = run;
  const chosen = systematic(state.bed.weight, start);
  const spare = new Float64Array(state.members);
  const reorder = (column: Float64Array): void => {
    for (let m = 0; m < chosen.length; m++) spare[m] = column[chosen[m]!]!;
    column.set(spare);
  };
  for (const name of MEMBER_COLUMNS) reorder(columnOf(state.bed, name));
  for (const name of ZONE_COLUMNS)
    for (let zone = 0; zone < state.zones; zone++) reorder(state.zone[name].subarray(zone * state.members, (zone + 1) * state.members));
  // Kept days may be shared with a fork, so they are replaced, never written.
  for (const name of TRACKS) {
    const days = run.tracks[name];
    for (let i = 0; i < days.length; i++) {
      const day = days[i]!;
      const next = new Float64Array(chosen.length);
      for (let m = 0; m < chosen.length; m++) next[m] = day[chosen[m]!]!;
      days[i] = next;
    }
  }
  state.bed.weight.fill(1 / state.members);
}
