/** Sums of figures of which one may not have been counted yet. */

/**
 * @shape (number or null)[n] -> number or null
 * @returns null where one of them is not known, as a sum without it would be a wrong number
 */
export function sumKnown(...parts: readonly (number | null)[]): number | null {
  let sum = 0;
  for (const part of parts) {
    if (part === null) return null;
    sum += part;
  }
  return sum;
}

/**
 * @shape number or null, number or null -> number or null
 * @returns null where one of them is not known, or there is nothing to divide by
 */
export const shareKnown = (part: number | null, whole: number | null): number | null =>
  part === null || whole === null || whole === 0 ? null : part / whole;
