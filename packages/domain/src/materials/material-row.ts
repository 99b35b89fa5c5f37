export const MATERIAL_KINDS = ['food', 'bedding', 'amendment', 'never'] as const;
export type MaterialKind = (typeof MATERIAL_KINDS)[number];

/** Why only a little of it should go in at a time. */
export const KEEP_BACKS = ['citrus', 'onion', 'starchy', 'salty', 'acid', 'coffee', 'rich', 'heats'] as const;
export type KeepBack = (typeof KEEP_BACKS)[number];

/** One row of the materials table; a blank figure is null and hides the row until a site fills it. */
export interface MaterialRow {
  readonly id: string;
  readonly name: string;
  readonly kind: MaterialKind;
  readonly hidden: boolean;
  readonly keepBack: KeepBack | null;
  readonly moistureFracWb: number | null;
  /** Volatile solids of dry mass. */
  readonly organicFracDb: number | null;
  /** Carbon that rots: carbonate and char are left out. */
  readonly carbonFracDb: number | null;
  readonly nitrogenFracDb: number | null;
  readonly labileFrac: number;
  /** At 20 C, 75 % moisture, chopped, with worms; an estimate (shared/sources.md, decay-table-7b). */
  readonly labileRatePerDay: number;
  readonly slowRatePerDay: number;
  readonly bulkDensityKgM3: number | null;
  /** How well it grows worms, 1 = mixed kitchen scraps. */
  readonly qualityRatio: number;
  readonly ph: number;
  /** Row of shared/decay-rates.csv. */
  readonly decayRow: string;
  readonly source: string;
  readonly evidence: 'seen' | 'part seen' | 'from memory';
}
