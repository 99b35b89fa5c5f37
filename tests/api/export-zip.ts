/** Exports taken apart and put together again, honestly and otherwise. */
import { createHash } from 'node:crypto';
import { createWriteStream, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import yauzl from 'yauzl';
import yazl from 'yazl';
import { migrate } from '../../apps/api/src/db/migrate.ts';
import { openStore } from '../../apps/api/src/db/open.ts';
import { tableNames, tableShape } from '../../apps/api/src/db/portable/shape.ts';
import { openZip } from '../../apps/api/src/services/bring-back/open-zip.ts';
import { EXPORTED } from '../../apps/api/src/services/export/dictionary/registry.ts';
import { exportProgramme } from '../../apps/api/src/services/export/write-zip.ts';
import { MIGRATIONS_DIR } from '../cast.ts';

export type Files = Map<string, Buffer>;

export const sha256Of = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');

export async function exportTo(zip: string, from: { readonly file: string; readonly photoDir: string; readonly now: Date }): Promise<void> {
  await pipeline(exportProgramme(from).stream, createWriteStream(zip));
}

export async function filesOf(zip: string): Promise<Files> {
  const opened = await openZip(zip);
  const files: Files = new Map();
  for (const name of opened.names) {
    const pieces: Buffer[] = [];
    for await (const piece of await opened.read(name)) pieces.push(piece as Buffer);
    files.set(name, Buffer.concat(pieces));
  }
  opened.close();
  return files;
}

/** Every file of any zip, whatever its names. */
export async function anyFilesOf(bytes: Buffer): Promise<Files> {
  const zip = await yauzl.fromBufferPromise(bytes, { lazyEntries: true });
  const files: Files = new Map();
  for await (const entry of zip.eachEntry()) {
    const pieces: Buffer[] = [];
    for await (const piece of await zip.openReadStreamPromise(entry)) pieces.push(piece as Buffer);
    files.set(entry.fileName, Buffer.concat(pieces));
  }
  return files;
}

/** Checksums as they should be, so that only what a test spoils is wrong. */
export function sealed(files: Files): Files {
  const lines = [...files].filter(([name]) => name !== 'checksums.sha256').map(([name, bytes]) => `${sha256Of(bytes)}  ${name}\n`);
  return new Map([...files, ['checksums.sha256', Buffer.from(lines.join(''))]]);
}

/** The same files but for one, or without it. */
export function spoiled(files: Files, name: string, change: (text: string) => string | null): Files {
  const next = new Map(files);
  const text = change(files.get(name)?.toString('utf8') ?? '');
  if (text === null) next.delete(name);
  else next.set(name, Buffer.from(text));
  return next;
}

export async function zipBytes(files: Iterable<readonly [string, Buffer]>): Promise<Buffer> {
  const zip = new yazl.ZipFile();
  for (const [name, bytes] of files) zip.addBuffer(bytes, name);
  zip.end();
  const pieces: Buffer[] = [];
  for await (const piece of zip.outputStream) pieces.push(piece as Buffer);
  return Buffer.concat(pieces);
}

export function laid(dir: string, name: string, bytes: Buffer): string {
  const file = join(dir, name);
  writeFileSync(file, bytes);
  return file;
}

/** Writes over every place where a name stands, with one of the same length: no honest program writes such a zip. */
export function renamed(bytes: Buffer, from: string, to: string): Buffer {
  if (from.length !== to.length) throw new RangeError(`Cannot rename ${from} as the new name must be as long: current value is ${to}`);
  return Buffer.from(bytes.toString('latin1').replaceAll(from, to), 'latin1');
}

/** The same export as a program of that schema would have written it: without the tables and columns that came later. */
export function olderFiles(files: Files, dir: string, schema: number): Files {
  const store = openStore({ file: join(dir, `schema-${schema}.db`) });
  migrate(store, { dir: MIGRATIONS_DIR, copyDir: dir, now: new Date('2026-11-25T10:00:00.000Z'), upTo: schema });
  const tables = new Set(tableNames(store.sqlite));
  const older = new Map(files);
  const json = (name: string) => JSON.parse(files.get(name)!.toString('utf8'));
  for (const { table } of EXPORTED) {
    const name = `data/${table}.json`;
    const columns = new Set(tables.has(table) ? tableShape(store.sqlite, table).columns.map((column) => column.name) : []);
    const rows = (json(name) as object[]).map((row) =>
      JSON.stringify(Object.fromEntries(Object.entries(row).filter(([key]) => columns.has(key)))),
    );
    if (columns.size === 0) older.delete(name);
    else older.set(name, Buffer.from(rows.length === 0 ? '[]\n' : `[\n${rows.join(',\n')}\n]\n`));
  }
  store.sqlite.close();
  const head = json('export.json');
  const rows = Object.fromEntries(Object.entries(head.rows).filter(([table]) => tables.has(table)));
  return older.set('export.json', Buffer.from(JSON.stringify({ ...head, schema, rows })));
}
