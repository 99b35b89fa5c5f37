import type { Board } from '../bin/types.ts';

/** Bins that are being worked out anew, and since when the longest; null when there is none. */
export function waitedFor({ bins }: Board): { readonly codes: readonly string[]; readonly since: string } | null {
  const waited = bins.filter(({ anewSince }) => anewSince !== null).sort((one, other) => (one.code < other.code ? -1 : 1));
  const [since] = waited.flatMap(({ anewSince }) => anewSince ?? []).sort();
  return since === undefined ? null : { codes: waited.map(({ code }) => code), since };
}
