/** Puts the rows of an export into a store that is empty but for its tables. */
import type Database from 'better-sqlite3';
import { putting } from '../../db/portable/put.ts';
import { tableShape } from '../../db/portable/shape.ts';
import { EXPORTED } from '../export/dictionary/registry.ts';
import { type ExportHead, jsonName } from '../export/format.ts';
import type { OpenZip } from './open-zip.ts';
import { type Row, rowsIn } from './read-rows.ts';
import { refuseFile } from './refusal.ts';

/**
 * Call with no transaction open: it makes one of its own, which is all or nothing (criteria G4).
 *
 * @throws {BringBackRefusal} naming the table and the row that does not fit
 */
export async function fillStore(sqlite: Database.Database, zip: OpenZip, head: ExportHead): Promise<void> {
  const strange = Object.keys(head.rows).find((table) => !EXPORTED.some((one) => one.table === table));
  if (strange !== undefined) throw refuseFile(`This zip holds a table ${strange.slice(0, 60)}, which no export does: use another file.`);
  sqlite.exec('BEGIN IMMEDIATE');
  try {
    // Rows point at each other both ways round.
    sqlite.pragma('defer_foreign_keys = ON');
    for (const { table } of EXPORTED) if (head.rows[table] !== undefined) await fillTable(sqlite, zip, { table, rows: head.rows[table] });
    const [broken] = sqlite.pragma('foreign_key_check') as { table: string; parent: string }[];
    if (broken !== undefined)
      throw refuseFile(`In this zip a row of ${broken.table} names a ${broken.parent} that is not in it: use another file.`);
    sqlite.exec('COMMIT');
  } catch (error) {
    if (sqlite.inTransaction) sqlite.exec('ROLLBACK');
    throw error;
  }
}

async function fillTable(
  sqlite: Database.Database,
  zip: OpenZip,
  wanted: { readonly table: string; readonly rows: number },
): Promise<void> {
  const { table } = wanted;
  const name = jsonName(table);
  const leftOut = EXPORTED.find((one) => one.table === table)?.leftOut ?? {};
  const known = tableShape(sqlite, table)
    .columns.map((column) => column.name)
    .filter((column) => leftOut[column] === undefined);
  const put = putting(sqlite, table, known);
  let rows = 0;
  for await (const row of rowsIn(name, await zip.read(name))) {
    rows += 1;
    const strange = Object.keys(row).find((column) => !known.includes(column));
    if (strange !== undefined)
      throw refuseFile(`In row ${rows} of ${name} stands "${strange.slice(0, 60)}", which no export has: use another file.`);
    putRow(put, known, row, `row ${rows} of ${name}`);
  }
  if (rows !== wanted.rows) throw refuseFile(`In this zip ${name} has ${rows} rows instead of ${wanted.rows}: fetch the export again.`);
}

function putRow(put: ReturnType<typeof putting>, columns: readonly string[], row: Row, where: string): void {
  try {
    put(columns.map((column) => row[column] ?? null));
  } catch (error) {
    throw refuseFile(`In this zip ${where} breaks a rule of the store (${(error as Error).message}): use another file.`);
  }
}
