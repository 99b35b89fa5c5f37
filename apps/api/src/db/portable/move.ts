/** Rows of an attached store, moved over as they are. */
import type Database from 'better-sqlite3';
import { quotedName } from '../quoted-name.ts';
import { tableShape } from './shape.ts';

export const emptyTable = (sqlite: Database.Database, table: string): void => {
  sqlite.prepare(['DELETE FROM', `main.${quotedName(table)}`].join(' ')).run();
};

/** Call inside a transaction; triggers, checks and keys of the store judge every row. */
export function moveTable(sqlite: Database.Database, table: string, from: 'brought'): void {
  const names = tableShape(sqlite, table).columns.map((column) => quotedName(column.name));
  const list = names.join(', ');
  sqlite
    .prepare(['INSERT INTO', `main.${quotedName(table)}`, `(${list})`, 'SELECT', list, 'FROM', `${from}.${quotedName(table)}`].join(' '))
    .run();
}
