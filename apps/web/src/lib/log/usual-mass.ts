import type { Entry } from '../bin/types.ts';

const ENOUGH = 3;

/** The median of what was noted before, or null while there is too little to compare with. */
export function usualMassKg(entries: readonly Entry[], kind: string): number | null {
  const noted = entries.filter((e) => e.kind === kind && !e.undoneAt);
  const masses = noted.flatMap((e) => ('massKg' in e && e.massKg !== null ? [e.massKg] : [])).sort((a, b) => a - b);
  return masses.length < ENOUGH ? null : (masses[Math.floor(masses.length / 2)] ?? null);
}
