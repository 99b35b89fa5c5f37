import type { BinView, Spread, ZoneView } from '../bin/outcome.ts';
import type { Track } from '../bin/run.ts';

/** What one member reads on one day. */
export type Reading = Readonly<Record<Track, number>>;

/** All members of a bin on one day; weights add up to 1. */
export interface MembersDay {
  readonly day: number;
  readonly weights: ArrayLike<number>;
  readonly readings: readonly Reading[];
}

/** A view with one number where the view has a spread. */
type Plain<T> = { readonly [K in keyof T]: T[K] extends Spread ? number : T[K] };

export type ZoneDay = Plain<ZoneView>;
/** One bin on one day by its medians, with its zones: what reasons are told from. */
export type BinDay = Plain<Omit<BinView, 'zones'>> & { readonly zones: readonly ZoneDay[] };

/** The medians of a view. With one member that is the member itself. */
export function mediansOf(view: BinView): BinDay {
  const { zones, ...bed } = view;
  return { ...(plain(bed) as Plain<Omit<BinView, 'zones'>>), zones: zones.map((zone) => plain(zone) as ZoneDay) };
}

function plain(from: object): object {
  return Object.fromEntries(Object.entries(from).map(([name, value]) => [name, isSpread(value) ? value.p50 : value]));
}

const isSpread = (value: unknown): value is Spread => typeof value === 'object' && value !== null && 'p50' in value;
