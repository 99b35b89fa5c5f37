import type { Store } from './store.ts';

export function all<Row>(store: Store, sql: string, ...params: unknown[]): Row[] {
  return store.sql(sql).all(...params) as Row[];
}

export function one<Row>(store: Store, sql: string, ...params: unknown[]): Row | null {
  return (store.sql(sql).get(...params) as Row | undefined) ?? null;
}

/** Runs a write and says how many rows it changed. */
export function run(store: Store, sql: string, ...params: unknown[]): number {
  return store.sql(sql).run(...params).changes;
}
