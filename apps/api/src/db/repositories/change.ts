import type { Store } from '../store.ts';

export interface ChangeRow {
  readonly id: number;
  readonly topic: 'entry' | 'bin' | 'site' | 'shift' | 'stuff' | 'people' | 'programme' | 'message';
  readonly subject: string;
}

export function changesAfter(store: Store, id: number, most: number): readonly ChangeRow[] {
  return store.sql('SELECT id, topic, subject FROM change WHERE id > ? ORDER BY id LIMIT ?').all(id, most) as ChangeRow[];
}

export function lastChangeId(store: Store): number {
  return Number(store.sql('SELECT ifnull(max(id), 0) FROM change').pluck().get());
}

/** The oldest change still kept; 0 when there is none. */
export function firstChangeId(store: Store): number {
  return Number(store.sql('SELECT ifnull(min(id), 0) FROM change').pluck().get());
}

export function dropChangesBefore(store: Store, id: number): void {
  store.sql('DELETE FROM change WHERE id < ?').run(id);
}
