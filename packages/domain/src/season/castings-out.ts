/** Where castings went in a season: out of the programme's hands, straight from the bin or out of a store, and what lies in store. */
import { castingsVolumeMl } from './castings-volume.ts';
import { sharesOf } from './shares.ts';

/** Castings that somebody got: of a harvest, or out of a store. */
export interface CastingsGift {
  readonly destination: string;
  readonly grams: number;
  /** Where they were measured by the bucket. */
  readonly volumeMl: number | null;
  readonly from: 'bin' | 'store';
}

export interface CastingsOut<D extends string> {
  readonly destination: D;
  readonly fromBinG: number;
  readonly fromStoreG: number;
  readonly grams: number;
  readonly ml: number;
  /** Whole per cent of all that was given out; they add up to 100. */
  readonly percent: number;
}

/**
 * What was given out, by who got it.
 *
 * @shape gifts[n] -> destinations[m]
 * @returns The most first; grams and millilitres are whole
 * @valid grams are whole and not negative
 * @source common-practice: 0.6 kg/L where nobody measured
 */
export function castingsOut<D extends string>(gifts: readonly (CastingsGift & { readonly destination: D })[]): readonly CastingsOut<D>[] {
  const sums = new Map<D, { fromBinG: number; fromStoreG: number; ml: number }>();
  for (const { destination, grams, volumeMl, from } of gifts) {
    const sum = sums.get(destination) ?? { fromBinG: 0, fromStoreG: 0, ml: 0 };
    if (from === 'bin') sum.fromBinG += grams;
    else sum.fromStoreG += grams;
    sum.ml += castingsVolumeMl(grams, volumeMl);
    sums.set(destination, sum);
  }
  const rows = [...sums]
    .map(([destination, sum]) => ({ destination, ...sum, grams: sum.fromBinG + sum.fromStoreG }))
    .sort((a, b) => b.grams - a.grams || (a.destination < b.destination ? -1 : 1));
  const percents = sharesOf(rows.map(({ grams }) => grams));
  return rows.map((row, at) => ({ ...row, percent: percents[at]! }));
}

export const STORE_FLOWS = ['harvested', 'brought-in', 'given-out', 'written-off'] as const;
export interface StoreFlow {
  /** Local date on which it came in or went out. */
  readonly on: string;
  readonly kind: (typeof STORE_FLOWS)[number];
  readonly grams: number;
}

/** All in whole grams; what still cures is in store too. */
export interface StoreBalance {
  readonly beginG: number;
  readonly harvestedG: number;
  readonly broughtInG: number;
  readonly givenOutG: number;
  readonly writtenOffG: number;
  readonly endG: number;
}

/**
 * What lay in store at the beginning of a season, what came in and went out, and what lies there at its end.
 *
 * end = begin + harvested + brought in - given out - written off
 *
 * @shape flows, days -> balance
 * @valid dates are year-month-day; grams are not negative
 * @source none: adding up
 */
export function storeBalance(flows: readonly StoreFlow[], season: { readonly from: string; readonly to: string }): StoreBalance {
  const sumOf = (kind: StoreFlow['kind'], within: (on: string) => boolean) =>
    flows.reduce((sum, flow) => (flow.kind === kind && within(flow.on) ? sum + flow.grams : sum), 0);
  const before = (on: string) => on < season.from;
  const inSeason = (on: string) => on >= season.from && on <= season.to;
  const [harvestedG, broughtInG, givenOutG, writtenOffG] = STORE_FLOWS.map((kind) => sumOf(kind, inSeason)) as [
    ...[number, number, number, number],
  ];
  const beginG = sumOf('harvested', before) + sumOf('brought-in', before) - sumOf('given-out', before) - sumOf('written-off', before);
  return { beginG, harvestedG, broughtInG, givenOutG, writtenOffG, endG: beginG + harvestedG + broughtInG - givenOutG - writtenOffG };
}
