/** Tables as the store itself describes them. */
import type Database from 'better-sqlite3';

export interface ColumnShape {
  readonly name: string;
  readonly type: 'TEXT' | 'INTEGER' | 'REAL';
  readonly required: boolean;
  /** Place in the primary key, counted from 1; 0: not part of it. */
  readonly key: number;
}

export interface Reference {
  readonly column: string;
  readonly table: string;
  readonly to: string;
}

export interface TableShape {
  readonly name: string;
  readonly columns: readonly ColumnShape[];
  /** Columns of the primary key, in its order. */
  readonly key: readonly string[];
  readonly references: readonly Reference[];
}

export const tableNames = (sqlite: Database.Database): string[] =>
  sqlite
    .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name")
    .pluck()
    .all() as string[];

export function tableShape(sqlite: Database.Database, name: string): TableShape {
  const rows = sqlite.prepare('SELECT name, type, "notnull" AS required, pk AS key FROM pragma_table_info(?)').all(name) as {
    name: string;
    type: ColumnShape['type'];
    required: number;
    key: number;
  }[];
  const columns = rows.map((row) => ({ ...row, required: row.required === 1 || row.key > 0 }));
  const key = columns.filter((column) => column.key > 0).sort((one, other) => one.key - other.key);
  const references = sqlite
    .prepare('SELECT "from" AS "column", "table", ifnull("to", \'id\') AS "to" FROM pragma_foreign_key_list(?) ORDER BY "from"')
    .all(name) as Reference[];
  return { name, columns, key: key.map((column) => column.name), references };
}
