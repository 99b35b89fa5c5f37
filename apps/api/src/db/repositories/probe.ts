import type { Store } from '../store.ts';

/** Number of the last migration that was applied. */
export const schemaOf = ({ sqlite }: Store): number => Number(sqlite.pragma('user_version', { simple: true }));

/** Whether the store can be read and a write can begin; nothing stays of it. */
export function probeStore(store: Store): boolean {
  try {
    store.sqlite.exec('BEGIN IMMEDIATE');
    store.sqlite.prepare("INSERT INTO sign_in_try (account_hash, last_failure_at) VALUES (printf('%064d', 0), '')").run();
    return store.sqlite.prepare('SELECT count(*) FROM programme').pluck().get() !== undefined;
  } catch {
    return false;
  } finally {
    if (store.sqlite.inTransaction) store.sqlite.exec('ROLLBACK');
  }
}
