/** A programme's own materials; the catalogue lives in the domain. */

import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface OwnMaterialRow {
  readonly id: string;
  readonly name: string;
  readonly kind: 'food' | 'bedding' | 'amendment';
  readonly moistureFracWb: number;
  readonly carbonFracDb: number;
  readonly nitrogenFracDb: number;
  readonly bulkDensityKgM3: number;
  /** Catalogue material whose rates it borrows. */
  readonly ratesLike: string;
}

const READ = `SELECT id, name, kind, moisture_frac_wb AS moistureFracWb, carbon_frac_db AS carbonFracDb, nitrogen_frac_db AS nitrogenFracDb,
    bulk_density_kg_m3 AS bulkDensityKgM3, rates_like AS ratesLike FROM material`;

export const ownMaterials = (store: Store): OwnMaterialRow[] => all<OwnMaterialRow>(store, `${READ} ORDER BY name`);
export const ownMaterialById = (store: Store, id: string): OwnMaterialRow | null => one<OwnMaterialRow>(store, `${READ} WHERE id = ?`, id);
export const ownMaterialNamed = (store: Store, name: string): OwnMaterialRow | null =>
  one<OwnMaterialRow>(store, `${READ} WHERE name = ?`, name);

export function insertMaterial(store: Store, row: OwnMaterialRow & { readonly createdAt: string }): void {
  run(
    store,
    `INSERT INTO material (id, name, kind, moisture_frac_wb, carbon_frac_db, nitrogen_frac_db, bulk_density_kg_m3, rates_like, created_at)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    row.id,
    row.name,
    row.kind,
    row.moistureFracWb,
    row.carbonFracDb,
    row.nitrogenFracDb,
    row.bulkDensityKgM3,
    row.ratesLike,
    row.createdAt,
  );
}

/** Figures that the programme filled into rows of the catalogue; null where it did not. */
export interface FilledFigures {
  readonly materialId: string;
  readonly moistureFracWb: number | null;
  readonly carbonFracDb: number | null;
  readonly nitrogenFracDb: number | null;
  readonly bulkDensityKgM3: number | null;
  readonly source: string;
}

export const figuresFilled = (store: Store): FilledFigures[] =>
  all<FilledFigures>(
    store,
    `SELECT material_id AS materialId, moisture_frac_wb AS moistureFracWb, carbon_frac_db AS carbonFracDb,
       nitrogen_frac_db AS nitrogenFracDb, bulk_density_kg_m3 AS bulkDensityKgM3, source FROM material_figure ORDER BY material_id`,
  );

export function fillFigures(store: Store, figures: FilledFigures & { readonly personId: string; readonly filledAt: string }): void {
  run(
    store,
    `INSERT INTO material_figure (material_id, moisture_frac_wb, carbon_frac_db, nitrogen_frac_db, bulk_density_kg_m3, source, person_id, filled_at)
     VALUES (@materialId, @moistureFracWb, @carbonFracDb, @nitrogenFracDb, @bulkDensityKgM3, @source, @personId, @filledAt)
     ON CONFLICT (material_id) DO UPDATE SET moisture_frac_wb = @moistureFracWb, carbon_frac_db = @carbonFracDb,
       nitrogen_frac_db = @nitrogenFracDb, bulk_density_kg_m3 = @bulkDensityKgM3, source = @source, person_id = @personId, filled_at = @filledAt`,
    figures,
  );
}
