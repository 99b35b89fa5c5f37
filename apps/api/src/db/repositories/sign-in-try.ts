import type { Store } from '../store.ts';

export interface TryRow {
  readonly failures: number;
  readonly lastFailureAt: string;
}

export function findTries(store: Store, accountHash: string): TryRow | undefined {
  return store.sql('SELECT failures, last_failure_at AS lastFailureAt FROM sign_in_try WHERE account_hash = ?').get(accountHash) as
    | TryRow
    | undefined;
}

export function noteFailure(store: Store, accountHash: string, at: string): void {
  store
    .sql(
      `INSERT INTO sign_in_try (account_hash, failures, last_failure_at) VALUES (?, 1, ?)
       ON CONFLICT (account_hash) DO UPDATE SET failures = failures + 1, last_failure_at = excluded.last_failure_at`,
    )
    .run(accountHash, at);
}

export function clearTries(store: Store, accountHash: string): void {
  store.sql('DELETE FROM sign_in_try WHERE account_hash = ?').run(accountHash);
}
