/** The cells of a file, be it a CSV of any country or a workbook. */
import type { SheetCell, SheetRow } from '@middenry/domain';
import Papa from 'papaparse';
import { refuse } from '../../refusal.ts';
import { decodeText } from './decode.ts';
import { unpackedWorkbook } from './unpack.ts';

export const MOST_ROWS = 20_000;
const MOST_COLUMNS = 60;
const MOST_CELL = 2000;
const DELIMITERS = [',', ';', '\t', '|'] as const;
const SAMPLE_LINES = 50;

/** @throws {Refusal} sheet-unreadable, or too-large */
export async function cellsOf(bytes: Buffer): Promise<SheetRow[]> {
  const isZip = bytes[0] === 0x50 && bytes[1] === 0x4b;
  // The old binary workbook, and one that is locked with a password.
  const isBinary = bytes[0] === 0xd0 && bytes[1] === 0xcf;
  if (isBinary) throw refuse('sheet-unreadable', { detail: 'Save it as XLSX without a password, or as CSV, and try again.' });
  const rows = isZip ? await workbookRows(bytes) : csvRows(decodeText(bytes));
  const last = rows.findLastIndex((row) => row.some((cell) => cell.text !== ''));
  if (last < 0) throw refuse('sheet-unreadable', { detail: 'There is nothing in this file.' });
  if (last >= MOST_ROWS) throw refuse('too-large', { detail: `A file may have ${MOST_ROWS} rows; make two of it.` });
  return rows.slice(0, last + 1);
}

const LOOKED_AT = 4096;
/** Signs that stand in programs and pictures, and in no list: all below a blank but tab and the ends of lines. */
const isControl = (code: number): boolean => (code > 0 && code < 9) || (code > 13 && code < 27);

const cell = (text: string): SheetCell => ({ text: text.replaceAll('\u0000', '').trim().slice(0, MOST_CELL) });

function csvRows(text: string): SheetRow[] {
  const bare = text.replace(/^\uFEFF/, '').replace(/^sep=.\r?\n/i, '');
  if ([...bare.slice(0, LOOKED_AT)].some((sign) => isControl(sign.charCodeAt(0)))) throw refuse('sheet-unreadable');
  const { data } = Papa.parse<string[]>(bare, { delimiter: delimiterOf(bare), preview: MOST_ROWS + 2 });
  return data.map((row) => row.slice(0, MOST_COLUMNS).map(cell));
}

/** The sign that parts the most lines into the same number of cells, and into the most of them. */
function delimiterOf(text: string): string {
  const head = text.split(/\r\n|\n|\r/, SAMPLE_LINES).join('\n');
  const scored = DELIMITERS.map((delimiter) => {
    const widths = Papa.parse<string[]>(head, { delimiter })
      .data.filter((row) => row.some((value) => value.trim() !== ''))
      .map((row) => row.length);
    const counts = new Map<number, number>();
    for (const width of widths) if (width > 1) counts.set(width, (counts.get(width) ?? 0) + 1);
    const [usual = 1, lines = 0] = [...counts].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0] ?? [];
    return { delimiter, score: lines * Math.min(usual, 8) };
  });
  return scored.sort((a, b) => b.score - a.score)[0]?.delimiter ?? ',';
}

async function workbookRows(bytes: Buffer): Promise<SheetRow[]> {
  try {
    const [open, { readXlsx }] = await Promise.all([unpackedWorkbook(bytes), import('hucre/xlsx')]);
    const { sheets } = await readXlsx(new Uint8Array(open), { sheets: (info) => !info.hidden && !info.veryHidden, maxRows: MOST_ROWS + 2 });
    // The sheet with the most in it: others hold notes and charts.
    const fullest = sheets.toSorted((a, b) => b.rows.length - a.rows.length)[0];
    return (fullest?.rows ?? []).map((row) => row.slice(0, MOST_COLUMNS).map(workbookCell));
  } catch {
    throw refuse('sheet-unreadable');
  }
}

function workbookCell(value: unknown): SheetCell {
  if (value instanceof Date) {
    if (Number.isNaN(value.getTime())) return { text: '' };
    const [day = '', time = ''] = value.toISOString().split('T');
    // A time of day alone lies on the first day of the count.
    if (day < '1901') return { text: time.slice(0, 5), time: time.slice(0, 5) };
    return { text: day, day, ...(time.startsWith('00:00') ? {} : { time: time.slice(0, 5) }) };
  }
  if (typeof value === 'number') return { text: String(value), number: value };
  if (typeof value === 'boolean') return { text: String(value) };
  return typeof value === 'string' ? cell(value) : { text: '' };
}
