const WHOLE = 100;

/**
 * Shares of a whole in whole per cent that add up to 100 as shown (criteria D3): the largest remainders are rounded up.
 *
 * @shape parts[n] -> percent[n]
 * @returns Whole per cent; all 0 when there is nothing to share
 * @valid parts are not negative
 * @throws {RangeError} when one is
 */
export function sharesOf(parts: readonly number[]): readonly number[] {
  const bad = parts.find((part) => !(part >= 0));
  if (bad !== undefined) throw new RangeError(`Cannot share out as no part is negative: current value is ${bad}`);
  const total = parts.reduce((sum, part) => sum + part, 0);
  if (total === 0) return parts.map(() => 0);
  const exact = parts.map((part) => (part * WHOLE) / total);
  const shown = exact.map(Math.floor);
  const missing = WHOLE - shown.reduce((sum, part) => sum + part, 0);
  const remainder = (at: number) => exact[at]! - shown[at]!;
  const byRemainder = parts.map((_, at) => at).sort((a, b) => remainder(b) - remainder(a) || a - b);
  for (const at of byRemainder.slice(0, missing)) shown[at]! += 1;
  return shown;
}
