/** Spreadsheets on their way in: shown, asked about, given up. Taking and undoing is in take.ts. */
import { createHash } from 'node:crypto';
import type { ImportAnswersShape, SheetImport, SheetImportNew } from '@middenry/contract';
import {
  headingsOf,
  type ImportAnswers,
  type ImportItem,
  type ImportQuestion,
  NO_ANSWERS,
  type RowRead,
  readSheet,
  SECONDS_PER_DAY,
  type SheetRead,
  type SheetRow,
} from '@middenry/domain';
import type * as z from 'zod';
import type { Context, Signed } from '../../context.ts';
import {
  answersBefore,
  countTaken,
  importedBefore,
  insertSheetImport,
  newestSheetImports,
  printsTaken,
  type SheetImportRow,
  setImportAnswers,
  sheetImportById,
} from '../../db/repositories/sheet-import.ts';
import { write } from '../../db/store.ts';
import { refuse } from '../../refusal.ts';
import { once } from '../once.ts';
import { cellsOf } from './cells.ts';
import { type Known, knownOf, soundAnswers } from './known.ts';
import { printsOf } from './prints.ts';

/** How long an import can be undone. */
export const UNDO_MS = SECONDS_PER_DAY * 1000;
const LISTED = 20;
const SHOWN_READY = 12;
const SHOWN_REFUSED = 50;

export interface OpenImport {
  readonly row: SheetImportRow;
  readonly known: Known;
  readonly answers: ImportAnswers;
  readonly read: SheetRead;
  /** Ready rows with their print, and whether they came in before. */
  readonly ready: readonly { readonly row: number; readonly item: ImportItem; readonly print: string; readonly isAgain: boolean }[];
}

export async function addSheetImport(call: Signed, body: z.output<typeof SheetImportNew>): Promise<SheetImport> {
  const bytes = Buffer.from(body.content, 'base64');
  // Reading takes a moment, and a workbook is unpacked step by step: neither can happen inside the transaction.
  const cells = await cellsOf(bytes);
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  // The cells are at hand: read back out of the store they would lie in memory twice.
  const find = () => importView(call, rowOrRefuse(call, body.id), cells);
  return once(call, 'addSheetImport', body, {
    make: () => {
      const { id, kind, fileName } = body;
      const headings = headingsOf(kind, cells);
      const kept = answersBefore(call.store, kind, JSON.stringify(headings));
      insertSheetImport(call.store, {
        ...{ id, kind, fileName, sha256, headings: JSON.stringify(headings), cells: JSON.stringify(cells) },
        ...{ answers: kept ?? JSON.stringify(NO_ANSWERS), personId: call.who.personId, madeAt: call.now.toISOString() },
      });
      return find();
    },
    find,
  });
}

export const readSheetImport = (call: Context, id: string): SheetImport => importView(call, rowOrRefuse(call, id));

export const listSheetImports = (call: Context) => ({
  items: newestSheetImports(call.store, LISTED).map((row) => ({ ...headOf(call, row), imported: countTaken(call.store, row.id) })),
});

export function answerSheetImport(call: Signed, id: string, answers: z.output<typeof ImportAnswersShape>): SheetImport {
  return write(call.store, () => {
    if (rowOrRefuse(call, id).doneAt !== null) throw refuse('import-taken');
    setImportAnswers(call.store, id, JSON.stringify(answers));
    return readSheetImport(call, id);
  });
}

export function rowOrRefuse(call: Context, id: string): SheetImportRow {
  const row = sheetImportById(call.store, id);
  if (row === null) throw refuse('not-found');
  return row;
}

/** The rows of a file as they would be taken now. */
export function openImport(call: Context, row: SheetImportRow, cells?: readonly SheetRow[]): OpenImport {
  const known = knownOf(call);
  const answers = soundAnswers({ ...NO_ANSWERS, ...(JSON.parse(row.answers) as ImportAnswers) }, known);
  const read = readSheet(row.kind, cells ?? (JSON.parse(row.cells) as SheetRow[]), answers, known);
  const items = read.rows.flatMap((one) => (one.state === 'ready' ? [{ row: one.row, item: one.item }] : []));
  const prints = printsOf(items.map(({ item }) => item));
  const taken = printsTaken(call.store, prints);
  return { row, known, answers, read, ready: items.map((one, at) => ({ ...one, print: prints[at]!, isAgain: taken.has(prints[at]!) })) };
}

/** What nobody has answered yet; names are left out, since a row without its name is only refused itself. */
export const openQuestions = (questions: readonly ImportQuestion[], answers: ImportAnswers): ImportQuestion[] =>
  questions.filter(({ ask }) => {
    if (ask === 'date-order') return answers.dateOrder === null;
    if (ask === 'short-years') return !answers.shortYears;
    if (ask === 'temp-unit') return answers.tempUnit === null;
    return ask === 'column' || (ask === 'mark' && answers.mark === null) || (ask === 'unit' && answers.unit === null);
  });

const headOf = (call: Context, { id, kind, fileName, madeAt, doneAt, undoneAt }: SheetImportRow) => ({
  ...{ id, kind, fileName, madeAt, doneAt, undoneAt },
  mayUndo: doneAt !== null && undoneAt === null && call.now.getTime() - Date.parse(doneAt) <= UNDO_MS,
});

type Refused = Extract<RowRead, { state: 'refused' }>;

/** Counted from what stands in the store once the rows were taken. */
function importView(call: Context, row: SheetImportRow, cells?: readonly SheetRow[]): SheetImport {
  if (row.doneAt !== null) return takenView(call, row);
  const open = openImport(call, row, cells);
  const { read, ready, answers, known } = open;
  const refused = read.rows.filter((one): one is Refused => one.state === 'refused');
  const again = ready.filter(({ isAgain }) => isAgain).length;
  const counts = { read: read.rows.length, ready: ready.length - again, imported: 0, again, refused: refused.length };
  return {
    ...headOf(call, row),
    headings: [...read.headings],
    columns: { ...read.columns },
    answers: answers as SheetImport['answers'],
    questions: read.questions as SheetImport['questions'],
    choices: choicesFor(read.questions, known),
    counts: { ...counts, skipped: counts.read - ready.length - counts.refused },
    importedBefore: importedBefore(call.store, row.kind, row.sha256),
    ready: ready
      .filter(({ isAgain }) => !isAgain)
      .slice(0, SHOWN_READY)
      .map(({ row: at, item }) => ({ row: at, ...readyWords(item, known) })),
    refused: refused.slice(0, SHOWN_REFUSED).map((one) => ({ row: one.row, faults: [...one.faults] })),
  };
}

/** Only for what is asked: nobody's name leaves without need. */
function choicesFor(questions: readonly ImportQuestion[], { choices }: Known): SheetImport['choices'] {
  const asked = new Set(questions.flatMap((one) => (one.ask === 'name' ? [one.field] : [])));
  return Object.fromEntries([...asked].map((field) => [field, [...choices[field]].map(([id, word]) => ({ id, word }))]));
}

function takenView(call: Context, row: SheetImportRow): SheetImport {
  const { again, refused } = JSON.parse(row.refused) as { again: number; refused: Refused[] };
  const imported = countTaken(call.store, row.id);
  const counts = { ready: 0, imported, again, skipped: row.rowsSkipped, refused: refused.length };
  return {
    ...headOf(call, row),
    headings: JSON.parse(row.headings),
    columns: {},
    answers: { ...NO_ANSWERS, ...JSON.parse(row.answers) },
    questions: [],
    choices: {},
    counts: { ...counts, read: imported + again + row.rowsSkipped + refused.length },
    importedBefore: null,
    ready: [],
    refused: refused.slice(0, SHOWN_REFUSED).map((one) => ({ row: one.row, faults: [...one.faults] })),
  };
}

function readyWords(item: ImportItem, { choices }: Known): Omit<SheetImport['ready'][number], 'row'> {
  const isCheck = item.kind === 'checks';
  return {
    day: item.day,
    time: item.time,
    bin: item.kind === 'hours' ? null : (choices.bin.get(item.binId) ?? null),
    material: item.kind === 'feedings' ? (choices.material.get(item.materialId) ?? null) : null,
    destination: item.kind === 'harvests' ? item.destination : null,
    massKg: 'grams' in item ? item.grams / 1000 : null,
    minutes: item.kind === 'hours' ? item.minutes : null,
    person: item.personId === null ? null : (choices.person.get(item.personId) ?? null),
    site: item.kind === 'hours' ? (choices.site.get(item.siteId) ?? null) : null,
    squeeze: isCheck ? item.squeeze : null,
    smell: isCheck ? item.smell : null,
    bedTempC: isCheck ? item.bedTempC : null,
    ph: isCheck ? item.ph : null,
    worms: isCheck ? item.worms : null,
    note: item.note,
  };
}
