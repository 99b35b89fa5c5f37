import type { Store } from '../store.ts';

export interface AuditRow {
  readonly at: Date;
  readonly personId: string | null;
  readonly action: string;
  readonly subject: string;
  readonly detail: Readonly<Record<string, unknown>>;
  readonly requestId: string;
}

export function insertAudit(store: Store, row: AuditRow): void {
  store
    .sql('INSERT INTO audit (at, person_id, action, subject, detail, request_id) VALUES (?, ?, ?, ?, ?, ?)')
    .run(row.at.toISOString(), row.personId, row.action, row.subject, JSON.stringify(row.detail), row.requestId);
}

export interface AuditLine {
  readonly id: number;
  readonly at: string;
  readonly personId: string | null;
  readonly name: string | null;
  readonly action: string;
  readonly subject: string;
  readonly detail: Readonly<Record<string, unknown>>;
}

/** Newest first; `before` goes on from the last line that was read. */
export function listAudit(store: Store, before: number | undefined, limit: number): readonly AuditLine[] {
  const rows = store
    .sql(
      `SELECT a.id, a.at, a.person_id AS personId, p.name, a.action, a.subject, a.detail FROM audit a LEFT JOIN person p ON p.id = a.person_id
       WHERE a.id < ? ORDER BY a.id DESC LIMIT ?`,
    )
    .all(before ?? Number.MAX_SAFE_INTEGER, limit) as (Omit<AuditLine, 'detail'> & { detail: string })[];
  return rows.map((row) => ({ ...row, detail: JSON.parse(row.detail) as Record<string, unknown> }));
}

export function lastAuditId(store: Store): number {
  return Number(store.sql('SELECT ifnull(max(id), 0) FROM audit').pluck().get());
}
