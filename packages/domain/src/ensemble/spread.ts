import type { Spread } from '../bin/outcome.ts';

/**
 * Weighted 10th, 50th and 90th percentile of the members: the smallest value with at least that share of weight at or below it.
 *
 * @shape members[n] -> spread
 */
export function spreadOf(values: Float64Array, weights: Float64Array): Spread {
  if (values.length === 1) return { p10: values[0]!, p50: values[0]!, p90: values[0]! };
  return evenly(weights) ? evenSpread(values) : weighedSpread(values, weights);
}

function evenly(weights: Float64Array): boolean {
  const first = weights[0]!;
  for (let i = 1; i < weights.length; i++) if (weights[i] !== first) return false;
  return true;
}

function evenSpread(values: Float64Array): Spread {
  const sorted = values.slice().sort();
  const at = (share: number): number => sorted[Math.max(0, Math.ceil(share * sorted.length - 1e-9) - 1)]!;
  return { p10: at(0.1), p50: at(0.5), p90: at(0.9) };
}

/** By halving among the sorted values: sorting members by a comparison takes many times as long, and a day row asks eighteen times. */
function weighedSpread(values: Float64Array, weights: Float64Array): Spread {
  const sorted = values.slice().sort();
  const total = weightUpTo(values, weights, Number.POSITIVE_INFINITY);
  const at = (share: number): number => {
    let [low, high] = [0, sorted.length - 1];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (weightUpTo(values, weights, sorted[middle]!) >= share * total - 1e-12) high = middle;
      else low = middle + 1;
    }
    return sorted[low]!;
  };
  return { p10: at(0.1), p50: at(0.5), p90: at(0.9) };
}

function weightUpTo(values: Float64Array, weights: Float64Array, limit: number): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) if (values[i]! <= limit) sum += weights[i]!;
  return sum;
}

/** Weighted mean. */
export function meanOf(values: Float64Array, weights: Float64Array): number {
  let sum = 0;
  let total = 0;
  for (let i = 0; i < values.length; i++) {
    sum += weights[i]! * values[i]!;
    total += weights[i]!;
  }
  return sum / total;
}

/** Weighted share of the members for which it holds. */
export function shareOf(weights: Float64Array, holds: (member: number) => boolean): number {
  let sum = 0;
  let total = 0;
  for (let i = 0; i < weights.length; i++) {
    if (holds(i)) sum += weights[i]!;
    total += weights[i]!;
  }
  return sum / total;
}
