import { randomUUID } from 'node:crypto';
import type { Store } from '../store.ts';

export type CredentialKind = 'password' | 'totp' | 'recovery' | 'passkey' | 'picture';

export interface CredentialRow {
  readonly id: string;
  readonly secret: string;
  readonly usedAt: string | null;
  readonly lastStep: number | null;
}

interface CredentialNewRow {
  readonly personId: string;
  readonly kind: CredentialKind;
  readonly secret: string;
  readonly createdAt: string;
}

export function insertCredential(store: Store, row: CredentialNewRow): void {
  store
    .sql('INSERT INTO credential (id, person_id, kind, secret, created_at) VALUES (?, ?, ?, ?, ?)')
    .run(randomUUID(), row.personId, row.kind, row.secret, row.createdAt);
}

export function listCredentials(store: Store, personId: string, kind: CredentialKind): readonly CredentialRow[] {
  return store
    .sql(
      'SELECT id, secret, used_at AS usedAt, last_step AS lastStep FROM credential WHERE person_id = ? AND kind = ? ORDER BY created_at, id',
    )
    .all(personId, kind) as CredentialRow[];
}

/** The same password, hashed anew. */
export function renewPassword(store: Store, personId: string, secret: string): void {
  store.sql("UPDATE credential SET secret = ? WHERE person_id = ? AND kind = 'password'").run(secret, personId);
}

export function deleteCredentials(store: Store, personId: string, kind: CredentialKind): void {
  store.sql('DELETE FROM credential WHERE person_id = ? AND kind = ?').run(personId, kind);
}

/** Gives whether it was unused until now: of two tries at once only one is told yes. */
export function useCredential(store: Store, id: string, at: string): boolean {
  return store.sql('UPDATE credential SET used_at = ? WHERE id = ? AND used_at IS NULL').run(at, id).changes === 1;
}

export function markTotpOn(store: Store, id: string, step: number, at: string): void {
  store.sql('UPDATE credential SET used_at = ?, last_step = ? WHERE id = ?').run(at, step, id);
}

export function noteTotpStep(store: Store, id: string, step: number): void {
  store.sql('UPDATE credential SET last_step = ? WHERE id = ?').run(step, id);
}
