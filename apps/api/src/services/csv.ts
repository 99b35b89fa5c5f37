/**
 * CSV as RFC 4180 has it, in two profiles: `spreadsheet` opens with a byte order mark and disarms
 * whatever a spreadsheet would take for a formula; `data` is lossless and plain.
 */
import type { CSV_PROFILES } from '@middenry/contract';

export type CsvProfile = (typeof CSV_PROFILES)[number];

const LINE_END = '\r\n';
const BYTE_ORDER_MARK = '\uFEFF';
/** A sign that starts a formula, also in its full-width form, and after anything that some spreadsheet takes for the end of a cell. */
const FORMULA_START = /(^|[;,|\t\r\n\0])([\s\0]*)([=+\-@\uFF1D\uFF0B\uFF0D\uFF20])/g;
const CONTROL_START = /^[\t\r\0]/;

export type Cell = string | number | null;

export function csvText(rows: readonly (readonly Cell[])[], profile: CsvProfile): string {
  const lines = rows.map((row) => row.map((cell) => cellText(cell, profile)).join(',') + LINE_END);
  return (profile === 'spreadsheet' ? BYTE_ORDER_MARK : '') + lines.join('');
}

function cellText(cell: Cell, profile: CsvProfile): string {
  if (cell === null) return '';
  // Numbers are written by us and stay numbers, negative ones too.
  if (typeof cell === 'number') return String(cell);
  // Always quoted, so that no separator of any country splits it where it stands at the start of a line.
  return `"${(profile === 'spreadsheet' ? disarmed(cell) : cell).replaceAll('"', '""')}"`;
}

/** Puts an apostrophe before whatever could start a formula (criteria D8). */
export function disarmed(text: string): string {
  const marked = text.replace(FORMULA_START, "$1$2'$3");
  return CONTROL_START.test(marked) ? `'${marked}` : marked;
}
