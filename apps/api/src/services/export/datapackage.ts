/** `datapackage.json`: Data Package and Table Schema, version 1 of the Frictionless specifications. */
import type { ColumnShape } from '../../db/portable/shape.ts';
import type { Contents, TablePart } from './contents.ts';
import { columnWords, EXPORTED } from './dictionary/registry.ts';
import { csvName } from './format.ts';

export interface WrittenFile {
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
}

const exported = new Set(EXPORTED.map(({ table }) => table));

export function dataPackage({ head, tables }: Contents, written: readonly WrittenFile[]): object {
  const files = new Map(written.map((file) => [file.name, file]));
  return {
    profile: 'tabular-data-package',
    name: 'middenry-export',
    title: head.programme,
    description: 'Everything of a programme of worm bins, as README.md explains.',
    created: head.madeAt,
    resources: tables.map((part) => resourceOf(part, files.get(csvName(part.words.table)))),
  };
}

function resourceOf(part: TablePart, file: WrittenFile | undefined): object {
  const { words } = part;
  return {
    profile: 'tabular-data-resource',
    name: words.table,
    path: csvName(words.table),
    description: words.row,
    format: 'csv',
    mediatype: 'text/csv',
    encoding: 'utf-8',
    dialect: { delimiter: ',', lineTerminator: '\r\n', quoteChar: '"', doubleQuote: true, header: true },
    bytes: file?.bytes,
    hash: file === undefined ? undefined : `sha256:${file.sha256}`,
    schema: schemaOf(part),
  };
}

function schemaOf({ words, shape, wanted }: TablePart): object {
  const going = new Set(wanted.columns);
  const foreignKeys = shape.references.filter(({ column, table }) => going.has(column) && exported.has(table));
  return {
    fields: shape.columns
      .filter(({ name }) => going.has(name))
      .map((column) => ({
        name: column.name,
        ...typeOf(column),
        description: columnWords(words, column.name),
        // An empty text is a value, which a CSV cannot tell from none.
        ...(column.required && (column.type !== 'TEXT' || column.key > 0) ? { constraints: { required: true } } : {}),
      })),
    primaryKey: shape.key,
    missingValues: [''],
    ...(foreignKeys.length === 0
      ? {}
      : { foreignKeys: foreignKeys.map(({ column, table, to }) => ({ fields: column, reference: { resource: table, fields: to } })) }),
  };
}

function typeOf({ name, type }: ColumnShape): { readonly type: string; readonly format?: string } {
  if (type === 'INTEGER') return { type: 'integer' };
  if (type === 'REAL') return { type: 'number' };
  if (/(^at|_at|_until)$/.test(name)) return { type: 'datetime', format: '%Y-%m-%dT%H:%M:%S.%fZ' };
  return /(_on|_date)$/.test(name) ? { type: 'date' } : { type: 'string' };
}
