import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';

export interface ContainerRow {
  readonly id: string;
  readonly siteId: string;
  readonly name: string;
  readonly volumeMl: number;
  readonly tareG: number;
  /** Usual net mass when full. */
  readonly fullG: number;
  readonly archived: number;
}

const READ = `SELECT id, site_id AS siteId, name, volume_ml AS volumeMl, tare_g AS tareG, full_g AS fullG, archived FROM container`;

export const containersOf = (store: Store, siteId: string | null): ContainerRow[] =>
  all<ContainerRow>(store, `${READ} WHERE @siteId IS NULL OR site_id = @siteId ORDER BY site_id, archived, full_g, name`, { siteId });
export const containerById = (store: Store, id: string): ContainerRow | null => one<ContainerRow>(store, `${READ} WHERE id = ?`, id);
export const containerNamed = (store: Store, siteId: string, name: string): ContainerRow | null =>
  one<ContainerRow>(store, `${READ} WHERE site_id = ? AND name = ?`, siteId, name);

export function insertContainer(store: Store, row: ContainerRow & { readonly createdAt: string }): void {
  run(
    store,
    'INSERT INTO container (id, site_id, name, volume_ml, tare_g, full_g, archived, created_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
    row.id,
    row.siteId,
    row.name,
    row.volumeMl,
    row.tareG,
    row.fullG,
    row.archived,
    row.createdAt,
  );
}

export function updateContainer(store: Store, row: ContainerRow): void {
  run(
    store,
    'UPDATE container SET name = ?, volume_ml = ?, tare_g = ?, full_g = ?, archived = ? WHERE id = ?',
    row.name,
    row.volumeMl,
    row.tareG,
    row.fullG,
    row.archived,
    row.id,
  );
}
