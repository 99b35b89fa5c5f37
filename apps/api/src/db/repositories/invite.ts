import type { Store } from '../store.ts';

export interface InviteRow {
  readonly id: string;
  readonly name: string | null;
  readonly personId: string | null;
  readonly role: 'volunteer' | 'site-lead' | 'coordinator';
  readonly siteIds: readonly string[];
  readonly createdAt: string;
  readonly expiresAt: string;
  readonly usedAt: string | null;
  readonly revokedAt: string | null;
}

const SELECT = `SELECT id, name, person_id AS personId, role, site_ids AS siteIds, created_at AS createdAt, expires_at AS expiresAt,
    used_at AS usedAt, revoked_at AS revokedAt FROM invite`;

type RawInvite = Omit<InviteRow, 'siteIds'> & { readonly siteIds: string };
const toInvite = (raw: RawInvite): InviteRow => ({ ...raw, siteIds: JSON.parse(raw.siteIds) as string[] });

export function listInvites(store: Store): readonly InviteRow[] {
  return (store.sql(`${SELECT} ORDER BY created_at DESC, id`).all() as RawInvite[]).map(toInvite);
}

export function findInvite(store: Store, id: string): InviteRow | undefined {
  const raw = store.sql(`${SELECT} WHERE id = ?`).get(id) as RawInvite | undefined;
  return raw === undefined ? undefined : toInvite(raw);
}

export function findInviteByHash(store: Store, tokenHash: string): InviteRow | undefined {
  const raw = store.sql(`${SELECT} WHERE token_hash = ?`).get(tokenHash) as RawInvite | undefined;
  return raw === undefined ? undefined : toInvite(raw);
}

type InviteNewRow = Omit<InviteRow, 'usedAt' | 'revokedAt'> & { readonly tokenHash: string; readonly createdBy: string };

export function insertInvite(store: Store, row: InviteNewRow): void {
  store
    .sql(
      `INSERT INTO invite (id, token_hash, person_id, name, role, site_ids, created_by, created_at, expires_at)
       VALUES (@id, @tokenHash, @personId, @name, @role, @siteIds, @createdBy, @createdAt, @expiresAt)`,
    )
    .run({ ...row, siteIds: JSON.stringify(row.siteIds) });
}

/** Gives whether it was still open: of two presses at once only one is told yes. */
export function spendInvite(store: Store, id: string, usedBy: string, at: string): boolean {
  return (
    store
      .sql('UPDATE invite SET used_at = ?, used_by = ? WHERE id = ? AND used_at IS NULL AND revoked_at IS NULL AND expires_at > ?')
      .run(at, usedBy, id, at).changes === 1
  );
}

export function revokeInvite(store: Store, id: string, at: string): void {
  store.sql('UPDATE invite SET revoked_at = ? WHERE id = ? AND used_at IS NULL AND revoked_at IS NULL').run(at, id);
}
