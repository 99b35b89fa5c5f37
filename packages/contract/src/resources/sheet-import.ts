/** Bringing in a spreadsheet: nothing is written before it is taken, and taken it can be undone for a day (criteria G6 to G10). */
import { IMPORT_FIELDS, IMPORT_KINDS, NAMED_FIELDS } from '@middenry/domain';
import * as z from 'zod';
import { ClientId, Empty, Id, Instant, LocalDate, MASS_UNITS } from '../common.ts';
import { coordinators, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';

export const SHEET_MOST_BYTES = 4 * 1024 * 1024;
/** Bytes as text take a third more, and the rest of the request a little. */
const SHEET_BODY_BYTES = 6 * 1024 * 1024;
const MOST_NAMES = 500;

const Field = z.enum(IMPORT_FIELDS);
const Column = z.int().min(0).max(59);
const PlainName = z.string().max(200);
const few = (record: object) => Object.keys(record).length <= MOST_NAMES;

export const ImportAnswersShape = z.strictObject({
  columns: z.partialRecord(Field, Column.nullable()).default({}),
  dateOrder: z.enum(['day-first', 'month-first']).nullable().default(null),
  shortYears: z.boolean().default(false).describe('years of two figures were looked at and are right'),
  mark: z.enum(['point', 'comma']).nullable().default(null).describe('what divides, where the numbers do not say'),
  unit: z.enum(MASS_UNITS).nullable().default(null),
  tempUnit: z.enum(['C', 'F']).nullable().default(null),
  names: z
    .partialRecord(z.enum(NAMED_FIELDS), z.record(PlainName, z.string().max(80)).refine(few, 'has too many names'))
    .default({})
    .describe('ids by plain name; "nobody" for a person who is none of ours'),
  containers: z
    .record(PlainName, z.int().min(1).max(500_000))
    .refine(few, 'has too many names')
    .default({})
    .describe('grams in one of these containers, by plain name'),
});

export const SheetImportNew = z.strictObject({
  id: ClientId,
  kind: z.enum(IMPORT_KINDS),
  fileName: z.string().trim().min(1, 'must not be empty').max(200),
  content: z.base64('must be the bytes of the file in base64').min(4, 'must not be empty'),
});

const Fault = z.object({ field: Field, value: z.string(), reason: z.string() });
const Question = z.discriminatedUnion('ask', [
  z.object({ ask: z.literal('column'), field: Field }),
  z.object({ ask: z.literal('date-order'), examples: z.array(z.object({ text: z.string(), dayFirst: LocalDate, monthFirst: LocalDate })) }),
  z.object({ ask: z.literal('short-years'), examples: z.array(z.object({ text: z.string(), day: LocalDate })) }),
  z.object({ ask: z.literal('mark'), examples: z.array(z.string()) }),
  z.object({ ask: z.literal('unit') }),
  z.object({ ask: z.literal('temp-unit'), examples: z.array(z.string()) }),
  z.object({ ask: z.literal('name'), field: z.enum(NAMED_FIELDS), name: z.string(), shown: z.string(), rows: z.int() }),
  z.object({ ask: z.literal('container'), name: z.string(), rows: z.int() }),
]);

const head = {
  id: Id,
  kind: z.enum(IMPORT_KINDS),
  fileName: z.string(),
  madeAt: Instant,
  doneAt: Instant.nullable(),
  undoneAt: Instant.nullable(),
  mayUndo: z.boolean(),
};
export const SheetImportHead = z.object({ ...head, imported: z.int() });
export const SheetImport = z.object({
  ...head,
  headings: z.array(z.string()),
  columns: z.partialRecord(Field, Column),
  answers: ImportAnswersShape,
  questions: z.array(Question),
  choices: z
    .partialRecord(z.enum(NAMED_FIELDS), z.array(z.object({ id: z.string(), word: z.string() })))
    .describe('what a name that is asked about can be'),
  counts: z
    .object({ read: z.int(), ready: z.int(), imported: z.int(), again: z.int(), skipped: z.int(), refused: z.int() })
    .describe('read = ready + again + skipped + refused before, imported + again + skipped + refused after; again: came in before'),
  importedBefore: Instant.nullable().describe('when this very file was taken in'),
  ready: z
    .array(
      z.object({
        row: z.int(),
        day: LocalDate,
        time: z.string().nullable(),
        bin: z.string().nullable(),
        material: z.string().nullable(),
        destination: z.string().nullable(),
        massKg: z.number().nullable(),
        minutes: z.int().nullable(),
        person: z.string().nullable(),
        site: z.string().nullable(),
        squeeze: z.string().nullable(),
        smell: z.string().nullable(),
        bedTempC: z.number().nullable(),
        ph: z.number().nullable(),
        worms: z.string().nullable(),
        note: z.string(),
      }),
    )
    .describe('the first rows as they would be taken'),
  refused: z.array(z.object({ row: z.int(), faults: z.array(Fault) })).describe('the first rows with a fault'),
});
export type SheetImport = z.infer<typeof SheetImport>;

export const sheetImportRoutes = [
  {
    method: 'GET',
    path: '/api/imports',
    name: 'listSheetImports',
    summary: 'Spreadsheets that were brought in, the newest first',
    tag: 'import',
    access: coordinators,
    own: 'nothing',
    answer: z.object({ items: z.array(SheetImportHead) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/imports',
    name: 'addSheetImport',
    // Ten thousand rows at most.
    mostSeconds: 60,
    summary: 'Show what a spreadsheet (CSV or XLSX) would bring in; nothing is taken yet',
    tag: 'import',
    access: coordinators,
    own: 'nothing',
    body: SheetImportNew,
    bodyLimitBytes: SHEET_BODY_BYTES,
    answer: SheetImport,
    status: 201,
  },
  {
    method: 'GET',
    path: '/api/imports/:id',
    name: 'readSheetImport',
    summary: 'What a spreadsheet would bring in, or brought',
    tag: 'import',
    access: coordinators,
    own: 'nothing',
    params: IdParams,
    answer: SheetImport,
    status: 200,
  },
  {
    method: 'PUT',
    path: '/api/imports/:id',
    name: 'answerSheetImport',
    // Ten thousand rows at most.
    mostSeconds: 60,
    summary: 'Say which column is which and answer what is asked; gives the rows anew',
    tag: 'import',
    access: coordinators,
    own: 'nothing',
    params: IdParams,
    body: ImportAnswersShape,
    answer: SheetImport,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/imports/:id/taken',
    name: 'takeSheetImport',
    // Ten thousand rows at most.
    mostSeconds: 60,
    summary: 'Take every row that is ready, all of them or none',
    tag: 'import',
    access: coordinators,
    own: 'nothing',
    params: IdParams,
    body: Empty,
    answer: SheetImport,
    status: 200,
  },
  {
    method: 'DELETE',
    path: '/api/imports/:id',
    name: 'undoSheetImport',
    // Ten thousand rows at most.
    mostSeconds: 60,
    summary: 'Give up an import, or undo the whole of it within a day',
    tag: 'import',
    access: coordinators,
    own: 'nothing',
    params: IdParams,
    status: 204,
  },
  {
    method: 'GET',
    path: '/api/imports/:id/refused.csv',
    name: 'readRefusedRows',
    summary: 'Rows with a fault: row number, column, value, reason and what to do',
    tag: 'import',
    access: coordinators,
    own: 'nothing',
    params: IdParams,
    contentType: 'text/csv; charset=utf-8',
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
