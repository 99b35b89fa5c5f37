import type Database from 'better-sqlite3';
import { type BetterSQLite3Database, drizzle } from 'drizzle-orm/better-sqlite3';

/** The one open connection of this process. `orm` and `sql` look at the same connection. */
export interface Store {
  readonly sqlite: Database.Database;
  readonly orm: BetterSQLite3Database;
  /** A prepared statement, kept for next time. The text is a constant: values are always bound. */
  sql(text: string): Database.Statement<unknown[]>;
  /** Called after every transaction that was committed. */
  readonly afterCommit: Set<() => void>;
}

export function storeOf(sqlite: Database.Database): Store {
  const kept = new Map<string, Database.Statement<unknown[]>>();
  return {
    sqlite,
    orm: drizzle(sqlite),
    sql(text) {
      let statement = kept.get(text);
      if (statement === undefined) {
        statement = sqlite.prepare<unknown[]>(text);
        kept.set(text, statement);
      }
      return statement;
    },
    afterCommit: new Set(),
  };
}

/**
 * Does `work` in one IMMEDIATE transaction: all of it or nothing.
 *
 * A transaction that reads first and upgrades later gets SQLITE_BUSY whatever the time-out; this
 * is therefore the only way to write. Called inside another `write`, it joins that one.
 */
export function write<T>(store: Store, work: () => T): T {
  if (store.sqlite.inTransaction) return work();
  const answer = store.sqlite.transaction(work).immediate();
  for (const tell of store.afterCommit) tell();
  return answer;
}

/** A part of a `write` that may fail by itself: what it did is taken back, and the rest goes on. */
export function writePart<T>(store: Store, work: () => T): T {
  // By itself it would be deferred.
  return store.sqlite.inTransaction ? store.sqlite.transaction(work)() : write(store, work);
}
