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
  if (strange !== undefined) throw refuseFile((w) => w.strangeTable(strange.slice(0, 60)));
  sqlite.exec('BEGIN IMMEDIATE');
  try {
    // Rows point at each other both ways round.
    sqlite.pragma('defer_foreign_keys = ON');
    for (const { table } of EXPORTED) if (head.rows[table] !== undefined) await fillTable(sqlite, zip, { table, rows: head.rows[table] });
    const [broken] = sqlite.pragma('foreign_key_check') as { table: string; parent: string }[];
    if (broken !== undefined) throw refuseFile((w) => w.brokenLink(broken.table, broken.parent));
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
    if (strange !== undefined) throw refuseFile((w) => w.strangeColumn(w.row(String(rows), name), strange.slice(0, 60)));
    putRow(put, known, row, [String(rows), name]);
  }
  if (rows !== wanted.rows) throw refuseFile((w) => w.otherCount(name, w.insteadOf(String(rows), String(wanted.rows))));
}

function putRow(put: ReturnType<typeof putting>, columns: readonly string[], row: Row, at: readonly [row: string, name: string]): void {
  try {
    put(columns.map((column) => row[column] ?? null));
  } catch (error) {
    throw refuseFile((w) => w.brokenRule(w.row(...at), (error as Error).message));
  }
}
