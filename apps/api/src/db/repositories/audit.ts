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
