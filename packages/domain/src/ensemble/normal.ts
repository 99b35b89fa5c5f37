/**
 * Standard normal distribution function, absolute error below 1.5e-7.
 *
 * @shape scalar -> scalar
 * @source none: Abramowitz and Stegun 7.1.26 as widely printed, checked in chance.test.ts
 */
export function normalBelow(z: number): number {
  const t = 1 / (1 + 0.3275911 * Math.abs(z) * Math.SQRT1_2);
  const poly = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const tail = 0.5 * poly * Math.exp(-0.5 * z * z);
  return z >= 0 ? 1 - tail : tail;
}

/** Probability that a value read with a normal error falls between two marks. */
export const between = (mean: number, spread: number, low: number, high: number): number =>
  normalBelow((high - mean) / spread) - normalBelow((low - mean) / spread);
