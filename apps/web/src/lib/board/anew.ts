import type { Board } from '../bin/types.ts';

/** Bins that are being worked out anew, and since when the longest; null when there is none. */
export function waitedFor({ bins }: Board): { readonly codes: readonly string[]; readonly since: string } | null {
  const waited = bins.filter(({ anewSince }) => anewSince !== null).sort((one, other) => (one.code < other.code ? -1 : 1));
  const [since] = waited.flatMap(({ anewSince }) => anewSince ?? []).sort();
  return since === undefined ? null : { codes: waited.map(({ code }) => code), since };
}

/** More codes than this are only counted. */
const NAMED = 24;

/** Bins of which nothing is known yet today: the first codes, and how many there are beside; null when there is none. */
export function notKnown({ waiting }: Board): { readonly codes: readonly string[]; readonly more: number } | null {
  if (waiting.length === 0) return null;
  return { codes: waiting.slice(0, NAMED).map(({ code }) => code), more: Math.max(0, waiting.length - NAMED) };
}
