/** The store as it was at one moment, read while others go on writing. */
import Database from 'better-sqlite3';
import { quotedName } from '../quoted-name.ts';
import { HIDDEN_PHOTOS } from '../repositories/photo-people.ts';
import { type TableShape, tableNames, tableShape } from './shape.ts';

export type Value = string | number | null;

export interface Wanted {
  readonly table: string;
  readonly columns: readonly string[];
  /** Rows that stay behind: those with one of these values in this column. */
  readonly without?: { readonly column: string; readonly values: readonly string[] } | undefined;
}

export interface Snapshot {
  readonly schema: number;
  tables(): string[];
  shape(table: string): TableShape;
  count(wanted: Wanted): number;
  /** Rows in the order of their primary key, one by one. */
  rows(wanted: Wanted): IterableIterator<Value[]>;
  /** Photos that nobody may see. */
  hiddenPhotos(): { readonly id: string; readonly file: string }[];
  close(): void;
}

/** A second, read-only connection: in WAL mode it sees one moment for as long as its transaction is open. */
export function openSnapshot(file: string): Snapshot {
  const sqlite = new Database(file, { readonly: true, fileMustExist: true });
  sqlite.exec('BEGIN');
  // A transaction begins with its first read.
  const schema = Number(sqlite.pragma('user_version', { simple: true }));
  sqlite.prepare('SELECT count(*) FROM sqlite_schema').get();
  const shape = (table: string) => tableShape(sqlite, table);
  return {
    schema,
    tables: () => tableNames(sqlite),
    shape,
    count: (wanted) => Number(sqlite.prepare(countSql(wanted)).pluck().get(valuesOf(wanted))),
    rows: (wanted) =>
      sqlite
        .prepare(rowsSql(wanted, shape(wanted.table).key))
        .raw()
        .iterate(valuesOf(wanted)) as IterableIterator<Value[]>,
    hiddenPhotos: () => sqlite.prepare(HIDDEN_PHOTOS).all() as { id: string; file: string }[],
    close: () => sqlite.close(),
  };
}

const valuesOf = ({ without }: Wanted): string => JSON.stringify(without?.values ?? []);

function fromSql({ table, without }: Wanted): string {
  if (without === undefined) return `FROM ${quotedName(table)} WHERE ? IS NOT NULL`;
  return `FROM ${quotedName(table)} WHERE ifnull(${quotedName(without.column)}, '') NOT IN (SELECT value FROM json_each(?))`;
}

const countSql = (wanted: Wanted): string => ['SELECT count(*)', fromSql(wanted)].join(' ');

function rowsSql(wanted: Wanted, key: readonly string[]): string {
  const named = (columns: readonly string[]) => columns.map(quotedName).join(', ');
  return ['SELECT', named(wanted.columns), fromSql(wanted), 'ORDER BY', named(key)].join(' ');
}
