/** The catalogue and a programme's own materials as one list. */
import type { Material } from '@middenry/contract';
import { CATALOGUE, type Composition, isMaterialId, MATERIAL_IDS, type MaterialRow, type Portion } from '@middenry/domain';
import type * as z from 'zod';
import type { OwnMaterialRow } from '../db/repositories/material.ts';
import { refuse } from '../refusal.ts';

export type MaterialView = z.output<typeof Material>;

/** Own materials by id; read once per request and handed on. */
export type OwnMaterials = ReadonlyMap<string, OwnMaterialRow>;

export const byId = (rows: readonly OwnMaterialRow[]): OwnMaterials => new Map(rows.map((row) => [row.id, row]));

export function materialList(own: OwnMaterials): MaterialView[] {
  return [...[...own.values()].map(ownView), ...MATERIAL_IDS.map((id) => catalogueView(CATALOGUE[id]))];
}

export const catalogueView = (row: MaterialRow): MaterialView => ({
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

export const ownView = (row: OwnMaterialRow): MaterialView => ({
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
  own: true,
  source: 'own figures',
});

/** What a log shows for a material id, also for one that is no longer in the catalogue. */
export function materialName(own: OwnMaterials, id: string): string {
  return own.get(id)?.name ?? (isMaterialId(id) ? CATALOGUE[id].name : id);
}

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

/** Own figures where there are any, rates and the organic share per carbon of the material it is like. */
export function compositionOf(row: OwnMaterialRow): Composition {
  const like = CATALOGUE[isMaterialId(row.ratesLike) ? row.ratesLike : 'food_scraps_veg'];
  const organicPerCarbon = like.organicFracDb !== null && like.carbonFracDb ? like.organicFracDb / like.carbonFracDb : 1;
  return {
    moistureFracWb: row.moistureFracWb,
    organicFracDb: Math.min(1, row.carbonFracDb * organicPerCarbon),
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
