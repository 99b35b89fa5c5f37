/** How well the published figure itself is known. */
export const ACCURACY_TAGS = ['seen', 'second-hand', 'from memory', 'derived', 'negative'] as const;
export type AccuracyTag = (typeof ACCURACY_TAGS)[number];

/**
 * One published figure against ours. A `negative` row is a printed figure known to be wrong: ours must miss it
 * by more than the tolerance and meet `right`.
 */
export interface AccuracyRow {
  readonly id: string;
  readonly quantity: string;
  readonly unit: string;
  readonly published: number;
  readonly ours: () => number;
  /** Largest allowed difference, in the unit. */
  readonly tolerance: number;
  readonly toleranceWhy: string;
  readonly tag: AccuracyTag;
  readonly right?: number;
}

/** One file per source: its key in shared/sources.md and its rows. */
export interface AccuracySource {
  readonly source: string;
  readonly rows: readonly AccuracyRow[];
}
