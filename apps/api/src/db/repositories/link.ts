import type { Store } from '../store.ts';

export interface LinkRow {
  readonly id: string;
  readonly kind: 'board' | 'calendar' | 'season';
  readonly siteId: string | null;
  readonly label: string;
  readonly createdAt: string;
  readonly revokedAt: string | null;
}

const SELECT = 'SELECT id, kind, site_id AS siteId, label, created_at AS createdAt, revoked_at AS revokedAt FROM link';

export function listLinks(store: Store, kinds: readonly LinkRow['kind'][]): readonly LinkRow[] {
  const sql = `${SELECT} WHERE kind IN (SELECT value FROM json_each(?)) ORDER BY created_at DESC, id`;
  return store.sql(sql).all(JSON.stringify(kinds)) as LinkRow[];
}

export function findLink(store: Store, id: string): LinkRow | undefined {
  return store.sql(`${SELECT} WHERE id = ?`).get(id) as LinkRow | undefined;
}

export function findLinkByHash(store: Store, tokenHash: string): LinkRow | undefined {
  return store.sql(`${SELECT} WHERE token_hash = ?`).get(tokenHash) as LinkRow | undefined;
}

type LinkNewRow = Omit<LinkRow, 'revokedAt'> & { readonly tokenHash: string; readonly createdBy: string };

export function insertLink(store: Store, row: LinkNewRow): void {
  store
    .sql(
      `INSERT INTO link (id, kind, token_hash, site_id, label, created_by, created_at)
       VALUES (@id, @kind, @tokenHash, @siteId, @label, @createdBy, @createdAt)`,
    )
    .run(row);
}

export function revokeLink(store: Store, id: string, at: string): void {
  store.sql('UPDATE link SET revoked_at = ? WHERE id = ? AND revoked_at IS NULL').run(at, id);
}
