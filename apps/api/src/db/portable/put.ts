/** Rows of another store, put in as they are. */
import type Database from 'better-sqlite3';
import { quotedName } from '../quoted-name.ts';
import type { Value } from './snapshot.ts';

export type PutRow = (values: readonly Value[]) => void;

/** Call inside a transaction; triggers, checks and keys of the store judge every row. */
export function putting(sqlite: Database.Database, table: string, columns: readonly string[]): PutRow {
  const marks = columns.map(() => '?').join(', ');
  const names = columns.map(quotedName).join(', ');
  const statement = sqlite.prepare(['INSERT INTO', quotedName(table), `(${names})`, 'VALUES', `(${marks})`].join(' '));
  return (values) => void statement.run(...values);
}
