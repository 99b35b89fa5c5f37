/** What LibreOffice is to add up, in sheets and workbooks: it reads our files and does every sum, we only read what it found. */
import { cellsOf, type SofficeCell } from '../soffice.ts';

export type Value = string | number;
/** A sum as LibreOffice is asked for it, and what it is to be. */
export interface Sum {
  readonly what: string;
  readonly formula: string;
  readonly wanted: number;
}

const LETTERS = 26;
/** 0 is A, 25 is Z; no table here is wider. */
export const letter = (at: number): string => {
  if (at >= LETTERS) throw new RangeError(`Cannot name the column as it is past Z: current value is ${at}`);
  return String.fromCharCode('A'.charCodeAt(0) + at);
};
const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;
const cell = (value: Value): string => (typeof value === 'number' ? String(value) : quoted(value));

/** Our CSV as it is, with the sums in lines of their own beneath. */
export const withSums = (csv: string, sums: readonly Sum[]): string => csv + sums.map(({ formula }) => `${quoted(formula)}\r\n`).join('');

export const csvOf = (rows: readonly (readonly Value[])[]): string => rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('');

/** What stands in the lines of the sums once LibreOffice has read the file and written it again. */
export function foundIn(csv: string, sums: readonly Sum[]): number[] {
  const lines = csv.trimEnd().split(/\r?\n/).slice(-sums.length);
  return lines.map((line) => Number(line.split(',')[0] || Number.NaN));
}

const MARK = 'Sums asked for';
/** A workbook as LibreOffice has read it, with a sheet more that asks for sums over the others. */
export function bookWithSums(flatOds: string, sums: readonly Sum[]): string {
  const row = (inner: string) => `<table:table-row>${inner}</table:table-row>`;
  const text = `<table:table-cell office:value-type="string"><text:p>${MARK}</text:p></table:table-cell>`;
  const rows = sums.map(({ formula }) => row(`<table:table-cell table:formula="of:${formula.replaceAll('"', '&quot;')}"/>`));
  const sheet = `<table:table table:name="Asked">${row(text)}${rows.join('')}</table:table>`;
  const at = flatOds.indexOf('</office:spreadsheet>');
  // What follows the last sheet, such as named ranges, has to stay behind it.
  const end = flatOds.lastIndexOf('</table:table>', at) + '</table:table>'.length;
  return flatOds.slice(0, end) + sheet + flatOds.slice(end);
}

/** The sums of that sheet, whole as LibreOffice holds them and not as it shows them. */
export function foundInBook(flatOds: string): number[] {
  const cells = cellsOf(flatOds);
  const from = cells.findIndex(({ text }) => text === MARK);
  return cells.slice(from + 1).map(({ value }: SofficeCell) => Number(value ?? Number.NaN));
}
