import type { Store } from '../store.ts';

export interface AppliedId {
  readonly route: string;
  readonly personId: string | null;
  readonly bodyHash: string;
}

export function findApplied(store: Store, clientId: string): AppliedId | undefined {
  return store.sql('SELECT route, person_id AS personId, body_hash AS bodyHash FROM applied_client_id WHERE client_id = ?').get(clientId) as
    | AppliedId
    | undefined;
}

export function insertApplied(store: Store, clientId: string, applied: AppliedId, at: string): void {
  store
    .sql('INSERT INTO applied_client_id (client_id, route, person_id, body_hash, applied_at) VALUES (?, ?, ?, ?, ?)')
    .run(clientId, applied.route, applied.personId, applied.bodyHash, at);
}
