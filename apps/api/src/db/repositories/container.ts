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
  /** How often it was weighed full. */
  readonly weighings: number;
}

const READ = `SELECT id, site_id AS siteId, name, volume_ml AS volumeMl, tare_g AS tareG, full_g AS fullG, archived,
    (SELECT count(*) FROM container_weighing w WHERE w.container_id = container.id) AS weighings FROM container`;

export const containersOf = (store: Store, siteId: string | null): ContainerRow[] =>
  all<ContainerRow>(store, `${READ} WHERE @siteId IS NULL OR site_id = @siteId ORDER BY site_id, archived, full_g, name`, { siteId });
export const containerById = (store: Store, id: string): ContainerRow | null => one<ContainerRow>(store, `${READ} WHERE id = ?`, id);
export const containerNamed = (store: Store, siteId: string, name: string): ContainerRow | null =>
  one<ContainerRow>(store, `${READ} WHERE site_id = ? AND name = ?`, siteId, name);

export function insertContainer(store: Store, row: Omit<ContainerRow, 'weighings'> & { readonly createdAt: string }): void {
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

export function updateContainer(store: Store, row: Omit<ContainerRow, 'weighings'>): void {
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

export interface WeighingRow {
  readonly id: string;
  readonly containerId: string;
  readonly netG: number;
  readonly filled: number;
  readonly personId: string | null;
  readonly weighedAt: string;
}

export function insertWeighing(store: Store, row: WeighingRow): void {
  run(
    store,
    `INSERT INTO container_weighing (id, container_id, net_g, filled, person_id, weighed_at)
     VALUES (@id, @containerId, @netG, @filled, @personId, @weighedAt)`,
    row,
  );
}

/** The last weighings, newest first. */
export const lastWeighings = (store: Store, containerId: string, count: number): Pick<WeighingRow, 'netG' | 'filled'>[] =>
  all(
    store,
    'SELECT net_g AS netG, filled FROM container_weighing WHERE container_id = ? ORDER BY weighed_at DESC, id DESC LIMIT ?',
    containerId,
    count,
  );
