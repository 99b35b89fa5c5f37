/** What is known of a person as one zip that needs no Middenry to read (criteria C27). */
import { createReadStream, existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import yazl from 'yazl';
import type { Signed } from '../../context.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import { write } from '../../db/store.ts';
import { photoDirOf } from '../../photos/shelf.ts';
import { csvText } from '../csv.ts';
import { csvName, photoName, README_NAME } from '../export/format.ts';
import { personOf } from '../people.ts';
import { wordsFor } from '../words/languages.ts';
import { type OwnPart, ownPartsOf } from './collect.ts';

export const OWN_JSON = 'my-data.json';

/** Told in the audit before the first byte, as a file that leaves is never called back. */
export function beginOwnExport(call: Signed, personId: string): { readonly name: string; readonly stream: Readable } {
  const { store, config, now } = call;
  const parts = write(store, () => {
    personOf(store, personId);
    call.audit('person-data-taken', personId);
    return ownPartsOf(store, personId);
  });
  const programme = findProgramme(store)?.name ?? '';
  const zip = new yazl.ZipFile();
  const add = (name: string, text: string) => zip.addBuffer(Buffer.from(text), name, { mtime: now, mode: 0o100644 });
  add(README_NAME, readmeText(wordsFor(store, personId).ownData(programme, now.toISOString().slice(0, 10)), parts));
  add(OWN_JSON, `${JSON.stringify({ programme, madeAt: now.toISOString(), tables: tablesOf(parts) }, null, 2)}\n`);
  for (const { table, columns, rows } of parts) add(csvName(table), csvText([columns.map(({ name }) => name), ...rows], 'spreadsheet'));
  for (const file of photoFiles(parts)) {
    const path = join(photoDirOf(config), file);
    if (existsSync(path))
      zip.addReadStreamLazy(photoName(file), { mtime: now, compress: false }, (give) => give(null, createReadStream(path)));
  }
  const stream = zip.outputStream as Readable;
  zip.on('error', (error: Error) => stream.destroy(error));
  zip.end();
  return { name: `my-data-${now.toISOString().slice(0, 10)}.zip`, stream };
}

const tablesOf = (parts: readonly OwnPart[]): Record<string, object[]> =>
  Object.fromEntries(
    parts.map(({ table, columns, rows }) => [
      table,
      rows.map((row) => Object.fromEntries(columns.map(({ name }, at) => [name, row[at] ?? null]))),
    ]),
  );

function photoFiles(parts: readonly OwnPart[]): string[] {
  const photos = parts.find(({ table }) => table === 'photo');
  const at = photos?.columns.findIndex(({ name }) => name === 'file') ?? -1;
  return (photos?.rows ?? []).map((row) => String(row[at]));
}

/** The first lines speak the reader's language; what columns hold is said as the export of the programme says it. */
function readmeText(
  { heading, lines }: { readonly heading: string; readonly lines: readonly string[] },
  parts: readonly OwnPart[],
): string {
  const tables = parts.map(
    ({ table, row, columns, rows }) =>
      `## ${table}\n\n${row}. ${rows.length} rows in \`${csvName(table)}\`.\n\n${columns.map(({ name, words }) => `* \`${name}\`: ${words}`).join('\n')}`,
  );
  return `# ${heading}\n\n${lines.join('\n\n')}\n\n${tables.join('\n\n')}\n`;
}
