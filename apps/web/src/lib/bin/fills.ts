export interface Fill {
  readonly name: string;
  readonly count: number;
}

/** Less than half of a container is no measure, and nobody fills one more often than this. */
const MOST_FILLS = 6;

/** How often each of the site's containers holds a mass, in halves and never more than the mass. */
export function fillsOf(containers: readonly { readonly name: string; readonly fullKg: number }[], massKg: number): Fill[] {
  return containers
    .map(({ name, fullKg }) => ({ name, count: Math.floor((2 * massKg) / fullKg + 1e-9) / 2 }))
    .filter(({ count }) => count > 0 && count <= MOST_FILLS)
    .sort((a, b) => a.count - b.count);
}

/** 2, 1½, ½: how people count buckets. */
export function countWord(count: number): string {
  const whole = Math.floor(count);
  return count === whole ? String(whole) : `${whole > 0 ? whole : ''}½`;
}
