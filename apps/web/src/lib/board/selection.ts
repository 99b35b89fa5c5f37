import type { Band } from '@middenry/domain';
import type { Board, BoardBin } from '../bin/types.ts';
import { type Order, readOrder } from './order.ts';

/** What of the board somebody looks at, and in which order. It stands in the address, so a link or a bookmark keeps it. */
export interface Selection {
  readonly order: Order;
  /** Null for every site. */
  readonly siteId: string | null;
  /** Bands that the list is held to; empty for all of them. */
  readonly bands: readonly Band[];
  /** Only the sites that the reader belongs to. */
  readonly isMine: boolean;
}

const BANDS = ['act', 'watch', 'unknown', 'settled'] as const satisfies readonly Band[];

export function readSelection(query: URLSearchParams): Selection {
  const bands = query.getAll('band');
  return {
    order: readOrder(query.get('order')),
    siteId: query.get('site') || null,
    bands: BANDS.filter((band) => bands.includes(band)),
    isMine: query.has('mine'),
  };
}

/** The address of a selection: what is as usual is left out. */
export function selectionQuery({ order, siteId, bands, isMine }: Selection): string {
  const query = new URLSearchParams();
  if (siteId !== null) query.set('site', siteId);
  if (isMine) query.set('mine', '1');
  for (const band of bands) query.append('band', band);
  if (order !== 'worst') query.set('order', order);
  return `?${query}`;
}

/** Whether a bin stands where the selection looks. A site that the board does not know selects nothing. */
const isThere =
  ({ siteId, isMine }: Selection, mySiteIds: readonly string[]) =>
  (at: { readonly siteId: string }): boolean =>
    (siteId === null || at.siteId === siteId) && (!isMine || mySiteIds.includes(at.siteId));

/** The board of the places selected, counted anew. Bands narrow the list alone: in the grid every bin keeps its place. */
export function selectPlaces(board: Board, selection: Selection, mySiteIds: readonly string[]): Board {
  if (selection.siteId === null && !selection.isMine) return board;
  const there = isThere(selection, mySiteIds);
  const bins = board.bins.filter(there);
  const counts = { act: 0, watch: 0, unknown: 0, settled: 0 };
  for (const { band } of bins) counts[band] += 1;
  const aside = bins.filter(({ isAside }) => isAside).length;
  return { ...board, bins, counts, aside, waiting: board.waiting.filter(there), uncovered: board.uncovered.filter(there) };
}

/** The bins of the bands selected. */
export const selectBands = (bins: readonly BoardBin[], { bands }: Selection): BoardBin[] =>
  bins.filter(({ band }) => bands.length === 0 || bands.includes(band));
