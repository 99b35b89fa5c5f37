import type { Composition, Portion, Preparation } from '../bin/scenario.ts';
import { CATALOGUE, MATERIAL_IDS, type MaterialId } from './catalogue.gen.ts';
import type { KeepBack, MaterialKind, MaterialRow } from './material-row.ts';

/** What the model needs to know of one thing put into a bin; every figure is there. */
export interface MaterialFacts {
  readonly kind: MaterialKind;
  readonly keepBack: KeepBack | null;
  readonly moistureFracWb: number;
  readonly organicFracDb: number;
  readonly carbonFracDb: number;
  readonly nitrogenFracDb: number;
  /** Share of the volatile solids that rots fast. */
  readonly labileFrac: number;
  /** At 20 C, 75 % moisture, chopped, with worms. */
  readonly labileRatePerDay: number;
  readonly slowRatePerDay: number;
  readonly bulkDensityKgM3: number;
  readonly qualityRatio: number;
  readonly ph: number;
}

/** A composition given by numbers is food of the density of loose raw scraps. */
const COMPOSITION_DENSITY_KG_M3 = { value: 425, evidence: 'published', source: 'merseyside-density' } as const;
const COMPOSITION_QUALITY_RATIO = { value: 1, evidence: 'estimate', source: 'decay-table-7b' } as const;
const COMPOSITION_PH = { value: 5.5, evidence: 'estimate', source: 'decay-table-ours' } as const;

export const MATERIAL_FAULTS = ['no-material', 'unknown-material', 'figure-missing', 'never-fed'] as const;
/** Why a portion can not be used. */
export type MaterialFault = (typeof MATERIAL_FAULTS)[number];

const known: ReadonlySet<string> = new Set(MATERIAL_IDS);

export function isMaterialId(key: string): key is MaterialId {
  return known.has(key);
}

/** Rows that a person may choose: not hidden, not on the never list. */
export const usableMaterials: readonly MaterialRow[] = MATERIAL_IDS.map((id) => CATALOGUE[id]).filter(
  (row) => !row.hidden && row.kind !== 'never',
);

/** What stands against using this portion, or null. */
export function materialFault(portion: Pick<Portion, 'material' | 'composition'>): MaterialFault | null {
  if (portion.composition) return null;
  if (portion.material === undefined) return 'no-material';
  if (!isMaterialId(portion.material)) return 'unknown-material';
  const row = CATALOGUE[portion.material];
  if (row.kind === 'never') return 'never-fed';
  return row.hidden ? 'figure-missing' : null;
}

/**
 * The facts of one portion, from its own numbers or from the catalogue.
 *
 * @shape portion -> facts
 * @returns Figures by mass fraction, rates per day
 * @throws {RangeError} when the portion names nothing, something unknown, something never fed, or a row with a blank
 * @source materials-table, decay-table-7b
 */
export function materialOf(portion: Pick<Portion, 'material' | 'composition'>): MaterialFacts {
  if (portion.composition) return factsOfComposition(portion.composition);
  const fault = materialFault(portion);
  if (fault) throw new RangeError(`Cannot use material as it is ${fault}: current value is ${portion.material}`);
  return factsOfRow(CATALOGUE[portion.material as MaterialId]);
}

function factsOfRow(row: MaterialRow): MaterialFacts {
  const { kind, keepBack, labileFrac, labileRatePerDay, slowRatePerDay, qualityRatio, ph } = row;
  return {
    kind,
    keepBack,
    labileFrac,
    labileRatePerDay,
    slowRatePerDay,
    qualityRatio,
    ph,
    moistureFracWb: given(row, 'moistureFracWb'),
    organicFracDb: given(row, 'organicFracDb'),
    carbonFracDb: given(row, 'carbonFracDb'),
    nitrogenFracDb: given(row, 'nitrogenFracDb'),
    bulkDensityKgM3: given(row, 'bulkDensityKgM3'),
  };
}

type Blankable = 'moistureFracWb' | 'organicFracDb' | 'carbonFracDb' | 'nitrogenFracDb' | 'bulkDensityKgM3';

function given(row: MaterialRow, field: Blankable): number {
  const value = row[field];
  if (value === null) throw new RangeError(`Cannot use material ${row.id} as it must have ${field}: current value is blank`);
  return value;
}

function factsOfComposition(composition: Composition): MaterialFacts {
  const { moistureFracWb, organicFracDb, carbonFracDb, nitrogenFracDb, labileFrac, labileRatePerDay, slowRatePerDay } = composition;
  return {
    kind: 'food',
    keepBack: null,
    moistureFracWb,
    organicFracDb,
    carbonFracDb,
    nitrogenFracDb,
    labileFrac,
    labileRatePerDay,
    slowRatePerDay,
    bulkDensityKgM3: COMPOSITION_DENSITY_KG_M3.value,
    qualityRatio: composition.qualityRatio ?? COMPOSITION_QUALITY_RATIO.value,
    ph: composition.ph ?? COMPOSITION_PH.value,
  };
}

/** C:N of one material; Infinity where it has no nitrogen. */
export const cnRatioOf = (facts: Pick<MaterialFacts, 'carbonFracDb' | 'nitrogenFracDb'>): number =>
  facts.nitrogenFracDb === 0 ? Number.POSITIVE_INFINITY : facts.carbonFracDb / facts.nitrogenFracDb;

/** Default preparation where a log says nothing: people at a shared bin tear and chop. */
export const DEFAULT_PREPARATION: Preparation = 'chopped';
