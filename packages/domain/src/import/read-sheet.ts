/** A whole sheet: which columns are which, what has to be asked, and each row as it would be taken (criteria G6 to G9). */
import { readAmount } from './amounts.ts';
import { readDay } from './dates.ts';
import { type Columns, FIELDS_OF, fieldsOf, guessColumns, headingRow, type ImportField, type ImportKind } from './fields.ts';
import type { ImportAnswers, ImportKnown, ImportQuestion, NamedField, RowRead, SheetRead } from './import-types.ts';
import { type ColumnFacts, cellReader, degreesIn, factsOf, rowUnit } from './read-columns.ts';
import { readRow } from './read-row.ts';
import { isBlank, plainText, type SheetRow } from './sheet.ts';

const EXAMPLES = 3;

/** What stands over the columns, without reading a row below. */
export const headingsOf = (kind: ImportKind, sheet: readonly SheetRow[]): string[] => wordsOf(sheet[headingRow(kind, sheet)]);

const wordsOf = (row: SheetRow = []): string[] => row.map((cell) => cell.text.trim());

export function readSheet(kind: ImportKind, sheet: readonly SheetRow[], answers: ImportAnswers, known: ImportKnown): SheetRead {
  const at = headingRow(kind, sheet);
  const headings = wordsOf(sheet[at]);
  const columns = chosen(kind, guessColumns(kind, headings), answers);
  const body = sheet.slice(at + 1);
  const filled = body.filter((row) => !isSkipped(row, columns));
  const facts = factsOf(columns, headings, filled, answers);
  const context = { kind, cell: cellReader(columns), facts, answers, known };
  const rows = body.map((row, place): RowRead => {
    const number = at + place + 2;
    if (isSkipped(row, columns)) return { row: number, state: 'skipped' };
    const read = readRow(context, row);
    return 'kind' in read ? { row: number, state: 'ready', item: read } : { row: number, state: 'refused', faults: read };
  });
  const questions = [
    ...columnQuestions(kind, columns),
    ...wholeQuestions(context, columns, filled),
    ...nameQuestions(context, columns, filled),
  ];
  return { headingRow: at + 1, headings, columns, questions, rows };
}

function chosen(kind: ImportKind, guessed: Columns, { columns }: ImportAnswers): Columns {
  const taken = new Set(Object.values(columns));
  const found: Partial<Record<ImportField, number>> = {};
  for (const field of fieldsOf(kind)) {
    const own = columns[field];
    const column = own === undefined ? (taken.has(guessed[field] ?? null) ? undefined : guessed[field]) : (own ?? undefined);
    if (column !== undefined) found[field] = column;
  }
  return found;
}

/** Blank lines, lines of totals, and headings that stand again further down. */
function isSkipped(row: SheetRow, columns: Columns): boolean {
  if (isBlank(row)) return true;
  const date = columns.date === undefined ? '' : (row[columns.date]?.text ?? '');
  const hasDay = /\d/.test(date);
  if (hasDay) return false;
  return row.some((cell) => /^(sub ?)?(total|totals|sum|suma|totales|average|promedio|media)\b/.test(plainText(cell.text)));
}

const columnQuestions = (kind: ImportKind, columns: Columns): ImportQuestion[] =>
  FIELDS_OF[kind].needed.filter((field) => columns[field] === undefined).map((field) => ({ ask: 'column', field }));

interface Context {
  readonly kind: ImportKind;
  readonly cell: ReturnType<typeof cellReader>;
  readonly facts: ColumnFacts;
  readonly answers: ImportAnswers;
  readonly known: ImportKnown;
}

function wholeQuestions({ kind, cell, facts, answers }: Context, columns: Columns, rows: readonly SheetRow[]): ImportQuestion[] {
  const questions: ImportQuestion[] = [];
  const texts = (field: ImportField) =>
    columns[field] === undefined ? [] : rows.map((row) => cell(row, field)).filter(({ text }) => text.trim() !== '');
  if (facts.orderFound === 'ask') {
    const both = texts('date').flatMap((one) => {
      const [dayFirst, monthFirst] = [readDay(one, 'day-first'), readDay(one, 'month-first')];
      const differ = typeof dayFirst !== 'string' && typeof monthFirst !== 'string' && dayFirst.day !== monthFirst.day;
      return differ ? [{ text: one.text, dayFirst: dayFirst.day, monthFirst: monthFirst.day }] : [];
    });
    questions.push({ ask: 'date-order', examples: both.slice(0, EXAMPLES) });
  }
  const short = texts('date').flatMap((one) => {
    const read = readDay(one, facts.order ?? 'day-first');
    return typeof read !== 'string' && read.isShortYear ? [{ text: one.text, day: read.day }] : [];
  });
  if (short.length > 0) questions.push({ ask: 'short-years', examples: short.slice(0, EXAMPLES) });
  const asked = (['amount', 'hours', 'temperature', 'ph'] as const).filter(
    (field) => facts.marks[field]?.found === 'ask' && columns[field] !== undefined,
  );
  const unclear = asked.flatMap((field) => texts(field).map(({ text }) => text)).filter((text) => /\d[.,]\d{3}(\D|$)/.test(text));
  if (asked.length > 0) questions.push({ ask: 'mark', examples: unclear.slice(0, EXAMPLES) });
  if ((kind === 'feedings' || kind === 'harvests') && needsUnit(rows, cell, { ...facts, unit: null }) && unitIsOpen(facts, answers))
    questions.push({ ask: 'unit' });
  const bare = texts('temperature').filter(({ text }) => /\d/.test(text) && degreesIn(text).unit === null);
  if (bare.length > 0 && (facts.tempUnit === null || answers.tempUnit === facts.tempUnit))
    questions.push({ ask: 'temp-unit', examples: bare.slice(0, EXAMPLES).map(({ text }) => text) });
  return questions;
}

/** A heading that names a unit leaves nothing to ask. */
const unitIsOpen = (facts: ColumnFacts, answers: ImportAnswers): boolean => facts.unit === null || answers.unit === facts.unit;

function needsUnit(rows: readonly SheetRow[], cell: Context['cell'], facts: ColumnFacts): boolean {
  return rows.some((row) => {
    if (rowUnit(cell(row, 'unit'), facts) !== null) return false;
    const amount = readAmount(cell(row, 'amount'), 'point');
    return typeof amount !== 'string' && amount.parts.some((part) => part.unit === null && part.container === null);
  });
}

const NAMED_OF: Readonly<Record<ImportKind, readonly NamedField[]>> = {
  feedings: ['bin', 'material', 'person'],
  harvests: ['bin', 'person'],
  checks: ['bin', 'person'],
  hours: ['person', 'site'],
};

/** Names that nothing here bears, each with how many rows hang on it. Those that are answered stay, so that an answer can be changed. */
function nameQuestions({ kind, cell, known }: Context, columns: Columns, rows: readonly SheetRow[]): ImportQuestion[] {
  const questions: ImportQuestion[] = [];
  for (const field of NAMED_OF[kind]) {
    if (columns[field] === undefined && field !== 'material' && field !== 'site') continue;
    const counted = new Map<string, { shown: string; rows: number }>();
    for (const row of rows) {
      const shown = cell(row, field).text.trim();
      const name = plainText(shown);
      const isKnown = name !== '' && known.names[field].has(name);
      const isNone =
        name === '' && (field === 'person' || field === 'bin' || (field === 'site' && new Set(known.names.site.values()).size === 1));
      if (isKnown || isNone) continue;
      counted.set(name, { shown, rows: (counted.get(name)?.rows ?? 0) + 1 });
    }
    for (const [name, one] of counted) questions.push({ ask: 'name', field, name, ...one });
  }
  if (kind === 'feedings' || kind === 'harvests') questions.push(...containerQuestions(rows, cell));
  return questions;
}

function containerQuestions(rows: readonly SheetRow[], cell: Context['cell']): ImportQuestion[] {
  const counted = new Map<string, number>();
  for (const row of rows) {
    const amount = readAmount(cell(row, 'amount'), 'point');
    if (typeof amount === 'string') continue;
    for (const { container } of amount.parts) if (container !== null) counted.set(container, (counted.get(container) ?? 0) + 1);
  }
  return [...counted].map(([name, count]) => ({ ask: 'container', name, rows: count }));
}
