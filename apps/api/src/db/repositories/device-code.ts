import type { Store } from '../store.ts';

export interface DeviceCodeRow {
  readonly id: string;
  readonly personId: string;
  readonly codeHash: string;
  /** In which session it was made. */
  readonly sessionId: string | null;
}

/** Codes that still open something. */
export function liveDeviceCodes(store: Store, at: string, mostTries: number): readonly DeviceCodeRow[] {
  return store
    .sql(
      'SELECT id, person_id AS personId, code_hash AS codeHash, session_id AS sessionId FROM device_code WHERE used_at IS NULL AND expires_at > ? AND tries < ? ORDER BY created_at, id',
    )
    .all(at, mostTries) as DeviceCodeRow[];
}

interface DeviceCodeNewRow extends DeviceCodeRow {
  readonly createdBy: string;
  readonly createdAt: string;
  readonly expiresAt: string;
}

export function insertDeviceCode(store: Store, row: DeviceCodeNewRow): void {
  store
    .sql(
      `INSERT INTO device_code (id, person_id, code_hash, created_by, created_at, expires_at, session_id)
       VALUES (@id, @personId, @codeHash, @createdBy, @createdAt, @expiresAt, @sessionId)`,
    )
    .run(row);
}

/** A person has one code at a time: a new one replaces the old. */
export function dropDeviceCodes(store: Store, personId: string): void {
  store.sql('DELETE FROM device_code WHERE person_id = ? AND used_at IS NULL').run(personId);
}

export function noteWrongDeviceCode(store: Store, id: string): void {
  store.sql('UPDATE device_code SET tries = tries + 1 WHERE id = ?').run(id);
}

export function spendDeviceCode(store: Store, id: string, at: string): boolean {
  return store.sql('UPDATE device_code SET used_at = ? WHERE id = ? AND used_at IS NULL').run(at, id).changes === 1;
}
