/** What a column tells as a whole: its order of day and month, its decimal mark, its unit. */
import type { MassUnit } from '../units/mass.ts';
import { figuresIn, unitInHeading, unitOf } from './amounts.ts';
import { type DateOrder, type OrderFound, orderOf } from './dates.ts';
import type { Columns, ImportField } from './fields.ts';
import { hourFigures, isMinutesHeading } from './hours.ts';
import type { ImportAnswers } from './import-types.ts';
import { type DecimalMark, type MarkFound, markOf } from './numbers.ts';
import { cellAt, EMPTY_CELL, type SheetCell, type SheetRow } from './sheet.ts';

export interface ColumnFacts {
  readonly order: DateOrder | null;
  readonly orderFound: OrderFound;
  readonly marks: Readonly<Partial<Record<ImportField, { readonly found: MarkFound; readonly used: DecimalMark | null }>>>;
  readonly unit: MassUnit | null;
  readonly tempUnit: 'C' | 'F' | null;
  readonly isMinutes: boolean;
}

export type CellOf = (row: SheetRow, field: ImportField) => SheetCell;

export const cellReader =
  (columns: Columns): CellOf =>
  (row, field) => {
    const column = columns[field];
    return column === undefined ? EMPTY_CELL : cellAt(row, column);
  };

const MARKED = ['amount', 'hours', 'temperature', 'ph'] as const;

/** Degrees with the letter of their scale, or without. */
export const degreesIn = (text: string): { readonly figures: string; readonly unit: 'C' | 'F' | null } => {
  const [, figures = '', letter] = /^(.*?)\s*(?:°|º|deg\.?|degrees|grados)?\s*([cf])?$/i.exec(text.trim()) ?? [];
  return { figures, unit: letter === undefined ? null : (letter.toUpperCase() as 'C' | 'F') };
};

export function factsOf(columns: Columns, headings: readonly string[], rows: readonly SheetRow[], answers: ImportAnswers): ColumnFacts {
  const read = cellReader(columns);
  const cells = (field: ImportField) => (columns[field] === undefined ? [] : rows.map((row) => read(row, field)));
  const headingOf = (field: ImportField) => headings[columns[field] ?? -1] ?? '';
  const orderFound = orderOf(cells('date'));
  const marks = Object.fromEntries(
    MARKED.map((field) => {
      // A number of a spreadsheet has no mark to mistake.
      const texts = cells(field).filter((cell) => cell.number === undefined && cell.day === undefined);
      const found = markOf(texts.flatMap(({ text }) => figuresOf(field, text)));
      return [field, { found, used: found === 'free' ? null : found === 'ask' ? answers.mark : found }];
    }),
  );
  return {
    orderFound,
    order: orderFound === 'day-first' || orderFound === 'month-first' ? orderFound : orderFound === 'ask' ? answers.dateOrder : null,
    marks,
    unit: unitInHeading(headingOf('amount')) ?? answers.unit,
    tempUnit: scaleInHeading(headingOf('temperature')) ?? answers.tempUnit,
    isMinutes: isMinutesHeading(headingOf('hours')),
  };
}

function figuresOf(field: (typeof MARKED)[number], text: string): string[] {
  if (field === 'amount') return figuresIn(text);
  return [field === 'hours' ? hourFigures(text) : degreesIn(text).figures].filter((figures) => /^[\d.,]+$/.test(figures));
}

function scaleInHeading(heading: string): 'C' | 'F' | null {
  const [, letter] = /(?:°|º|\(|\[|\bdeg\s?|,|\/|\s)\s?°?([cf])\b/i.exec(heading) ?? [];
  if (letter !== undefined) return letter.toUpperCase() as 'C' | 'F';
  return /celsius/i.test(heading) ? 'C' : /fahrenheit/i.test(heading) ? 'F' : null;
}

/** The unit of a row: of its own column, else of its heading, else as answered. */
export function rowUnit(unitCell: SheetCell, facts: ColumnFacts): MassUnit | null | 'strange' {
  const text = unitCell.text.trim();
  return text === '' ? facts.unit : (unitOf(text) ?? 'strange');
}
