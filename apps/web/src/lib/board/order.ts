import type { BoardBin } from '../bin/types.ts';

export const ORDERS = ['worst', 'place', 'fed', 'seen'] as const;
export type Order = (typeof ORDERS)[number];

export function readOrder(wanted: string | null): Order {
  return ORDERS.find((o) => o === wanted) ?? 'worst';
}

/** Site by site, then by place; the grid uses this and never anything else. */
export function byPlace(bins: readonly BoardBin[]): BoardBin[] {
  const sites = [...new Set(bins.map((b) => b.siteId))];
  return [...bins].sort(
    (a, b) => sites.indexOf(a.siteId) - sites.indexOf(b.siteId) || a.placeOrder - b.placeOrder || a.code.localeCompare(b.code),
  );
}

const RANK = { act: 0, watch: 1, unknown: 2, settled: 3 } as const;

/** Act, watch, unknown; the longest-standing first within each. What is put aside stands apart. */
export function worstFirst(bins: readonly BoardBin[]): BoardBin[] {
  const since = (bin: BoardBin) => bin.flags[0]?.sinceOn ?? bin.lastCheckedOn ?? '9999';
  return byPlace(bins)
    .filter((b) => b.band !== 'settled' && !b.isAside)
    .sort((a, b) => RANK[a.band] - RANK[b.band] || since(a).localeCompare(since(b)));
}

/** The list in the wanted order; worst first leaves out what is well. */
export function inOrder(bins: readonly BoardBin[], order: Order): BoardBin[] {
  if (order === 'worst') return worstFirst(bins);
  if (order === 'place') return byPlace(bins);
  const day = (bin: BoardBin) => (order === 'fed' ? bin.lastFedOn : bin.lastCheckedOn) ?? '';
  return byPlace(bins).sort((a, b) => day(a).localeCompare(day(b)));
}
