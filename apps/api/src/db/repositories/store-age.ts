import type { Store } from '../store.ts';

/** The instant at which this store was made. */
export function storeMadeAt(store: Store): string {
  return String(store.sql('SELECT min(applied_at) FROM applied_migration').pluck().get());
}
