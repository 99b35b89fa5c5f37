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
