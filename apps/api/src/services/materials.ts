/** The catalogue and a programme's own materials as one list. */
import type { Language, Material } from '@middenry/contract';
import { CATALOGUE, type Composition, isMaterialId, MATERIAL_IDS, type MaterialRow, type Portion } from '@middenry/domain';
import type * as z from 'zod';
import type { Context } from '../context.ts';
import { figuresFilled, type OwnMaterialRow, ownMaterials } from '../db/repositories/material.ts';
import type { Store } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { WORDS } from './words/languages.ts';

export type MaterialView = z.output<typeof Material>;

/** A programme's own materials, and rows of the catalogue whose missing figures it filled in. */
export interface KnownMaterial extends OwnMaterialRow {
  readonly own: boolean;
  readonly source: string;
}

/** By id; read once per request and handed on. */
export type OwnMaterials = ReadonlyMap<string, KnownMaterial>;

export function materialsOf(store: Store): OwnMaterials {
  const own = ownMaterials(store).map((row): KnownMaterial => ({ ...row, own: true, source: 'own figures' }));
  const filled = figuresFilled(store).flatMap((figures) => wholeRow(figures) ?? []);
  return new Map([...own, ...filled].map((row) => [row.id, row]));
}

/** The row of the catalogue with the figures that were filled in; null while one is still missing. */
function wholeRow(figures: ReturnType<typeof figuresFilled>[number]): KnownMaterial | null {
  if (!isMaterialId(figures.materialId)) return null;
  const row = CATALOGUE[figures.materialId];
  const moistureFracWb = row.moistureFracWb ?? figures.moistureFracWb;
  const carbonFracDb = row.carbonFracDb ?? figures.carbonFracDb;
  const nitrogenFracDb = row.nitrogenFracDb ?? figures.nitrogenFracDb;
  const bulkDensityKgM3 = row.bulkDensityKgM3 ?? figures.bulkDensityKgM3;
  if (moistureFracWb === null || carbonFracDb === null || nitrogenFracDb === null || bulkDensityKgM3 === null || row.kind === 'never')
    return null;
  const { id, name, kind } = row;
  return {
    id,
    name,
    kind,
    moistureFracWb,
    carbonFracDb,
    nitrogenFracDb,
    bulkDensityKgM3,
    ratesLike: id,
    own: false,
    source: figures.source,
  };
}

export function materialList(known: OwnMaterials, language: Language): MaterialView[] {
  const own = [...known.values()].filter((row) => row.own).map(knownView);
  const catalogue = MATERIAL_IDS.map((id) => {
    const filled = known.get(id);
    const view = filled ? { ...knownView(filled), keepBack: CATALOGUE[id].keepBack !== null } : catalogueView(CATALOGUE[id]);
    return { ...view, name: WORDS[language].material(id) };
  });
  return [...own, ...catalogue];
}

const catalogueView = (row: MaterialRow): MaterialView => ({
  id: row.id,
  name: row.name,
  kind: row.kind,
  moistureFracWb: row.moistureFracWb,
  carbonFracDb: row.carbonFracDb,
  nitrogenFracDb: row.nitrogenFracDb,
  cnRatio: cnOf(row.carbonFracDb, row.nitrogenFracDb),
  bulkDensityKgM3: row.bulkDensityKgM3,
  keepBack: row.keepBack !== null,
  hidden: row.hidden,
  own: false,
  source: row.source,
});

export const knownView = (row: KnownMaterial): MaterialView => ({
  id: row.id,
  name: row.name,
  kind: row.kind,
  moistureFracWb: row.moistureFracWb,
  carbonFracDb: row.carbonFracDb,
  nitrogenFracDb: row.nitrogenFracDb,
  cnRatio: cnOf(row.carbonFracDb, row.nitrogenFracDb),
  bulkDensityKgM3: row.bulkDensityKgM3,
  keepBack: false,
  hidden: false,
  own: row.own,
  source: row.source,
});

/** What a reader knows a material by, also one that is no longer in the catalogue; a programme's own keeps the name it was given. */
export function materialNames({ store, language }: Context): (id: string) => string {
  const own = materialsOf(store);
  return (id) => catalogueName(id, language) ?? own.get(id)?.name ?? id;
}

export const catalogueName = (id: string, language: Language): string | null => (isMaterialId(id) ? WORDS[language].material(id) : null);

/**
 * Refuses a material that may not go into a bin.
 *
 * @throws {Refusal} material-unknown, material-never or material-hidden
 */
export function checkMaterial(own: OwnMaterials, id: string, pointer: string): void {
  if (own.has(id)) return;
  if (!isMaterialId(id)) throw refuse('material-unknown', { errors: [{ pointer, message: 'is not in the list of materials' }] });
  const row = CATALOGUE[id];
  if (row.kind === 'never') throw refuse('material-never', { errors: [{ pointer, message: 'never goes into a bin' }] });
  if (row.hidden) throw refuse('material-hidden', { errors: [{ pointer, message: 'has a figure missing' }] });
}

/** A material as the model takes it: a catalogue key, or the numbers of an own one. */
export function portionOf(own: OwnMaterials, id: string, rest: Omit<Portion, 'material' | 'composition'>): Portion {
  const row = own.get(id);
  return row ? { ...rest, composition: compositionOf(row) } : { ...rest, material: id };
}

/** Volatile solids of a carbon that nobody knows more of (Cornell's carbon estimate, turned round). */
const VOLATILE_PER_CARBON = { value: 1.8, evidence: 'published', source: 'cornell-carbon' } as const;

/** Own figures where there are any, rates and the organic share per carbon of the material it is like. */
function compositionOf(row: OwnMaterialRow): Composition {
  const like = CATALOGUE[isMaterialId(row.ratesLike) ? row.ratesLike : 'food_scraps_veg'];
  const { organicFracDb, carbonFracDb } = like;
  const perCarbon = organicFracDb !== null && carbonFracDb ? organicFracDb / carbonFracDb : VOLATILE_PER_CARBON.value;
  return {
    moistureFracWb: row.moistureFracWb,
    organicFracDb: Math.min(1, row.carbonFracDb * perCarbon),
    carbonFracDb: row.carbonFracDb,
    nitrogenFracDb: row.nitrogenFracDb,
    labileFrac: like.labileFrac,
    labileRatePerDay: like.labileRatePerDay,
    slowRatePerDay: like.slowRatePerDay,
    qualityRatio: like.qualityRatio,
    ph: like.ph,
  };
}

const cnOf = (carbonFracDb: number | null, nitrogenFracDb: number | null): number | null =>
  carbonFracDb === null || !nitrogenFracDb ? null : carbonFracDb / nitrogenFracDb;
