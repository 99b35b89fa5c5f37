/** Writes the same truth down in the ways in which people keep such lists. It shares no code with what reads them. */
import { SECONDS_PER_DAY } from '@middenry/domain';
import { AHEAD, BINS, FED, type FedTruth } from './truth.ts';

export interface Style {
  readonly delimiter: ',' | ';' | '\t';
  readonly encoding: 'utf8' | 'utf8-bom' | 'utf16le' | 'windows-1252';
  readonly date: 'iso' | 'dmy' | 'mdy' | 'dots' | 'dmy-short' | 'name-en' | 'name-us' | 'name-es' | 'serial' | 'stamped' | 'weekday';
  readonly mark: '.' | ',';
  /** Where the unit stands, and which. */
  readonly unit: 'cell-kg' | 'cell-g' | 'cell-lb' | 'cell-mixed' | 'heading-kg' | 'heading-g' | 'column';
  readonly language: 'en' | 'es';
  readonly extras: readonly ('title' | 'blank-lines' | 'total' | 'spaces' | 'order' | 'upper')[];
  readonly lineEnd: '\n' | '\r\n';
}

const GRAMS_PER_LB = 453.592_37;
const EN = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December'];
const ES = ['enero', 'febrero', 'marzo', 'abril', 'mayo', 'junio', 'julio', 'agosto', 'septiembre', 'octubre', 'noviembre', 'diciembre'];
const WEEKDAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];

function dateText(day: string, style: Style['date']): string {
  const [year = '', month = '', date = ''] = day.split('-');
  const m = Number(month);
  const d = Number(date);
  const at = new Date(`${day}T00:00:00Z`);
  switch (style) {
    case 'iso':
      return day;
    case 'dmy':
      return `${d}/${m}/${year}`;
    case 'mdy':
      return `${m}/${d}/${year}`;
    case 'dots':
      return `${date}.${month}.${year}`;
    case 'dmy-short':
      return `${date}/${month}/${year.slice(2)}`;
    case 'name-en':
      return `${d} ${EN[m - 1]} ${year}`;
    case 'name-us':
      return `${EN[m - 1]?.slice(0, 3)} ${d}, ${year}`;
    case 'name-es':
      return `${d} de ${ES[m - 1]} de ${year}`;
    case 'serial':
      return String(Math.round((at.getTime() - Date.UTC(1899, 11, 30)) / (SECONDS_PER_DAY * 1000)));
    case 'stamped':
      return `${day} 14:05:00`;
    case 'weekday':
      return `${WEEKDAYS[at.getUTCDay()]} ${date}/${month}/${year}`;
  }
}

const plain = (value: number, mark: Style['mark']): string => String(Number(value.toFixed(4))).replace('.', mark);

function amountText(grams: number, at: number, { unit, mark }: Style): readonly [amount: string, unit: string] {
  const kg = plain(grams / 1000, mark);
  switch (unit) {
    case 'cell-kg':
      return [`${kg} kg`, ''];
    case 'cell-g':
      return [`${grams}g`, ''];
    case 'cell-lb':
      return [`${plain(grams / GRAMS_PER_LB, mark)} lb`, ''];
    case 'cell-mixed':
      return [[`${kg} kg`, `${grams} g`, `${plain(grams / GRAMS_PER_LB, mark)} lbs`, `${kg}Kg.`][at % 4]!, ''];
    case 'heading-kg':
      return [kg, ''];
    case 'heading-g':
      return [String(grams), ''];
    case 'column':
      return at % 2 === 0 ? [kg, 'kg'] : [String(grams), 'grams'];
  }
}

const MATERIAL = {
  en: { apple: 'Apples', coffee_grounds: 'coffee', food_scraps_veg: 'Kitchen scraps' },
  es: { apple: 'manzanas', coffee_grounds: 'Café', food_scraps_veg: 'Restos' },
} as const;
const PERSON = { otis: 'Otis Barrow', maren: 'Maren Quill', jose: 'José Peña' } as const;
const HEADINGS = {
  en: { date: 'Date', bin: 'Bin', material: 'Food', amount: 'Weight', unit: 'Unit', person: 'Who', note: 'Notes' },
  es: { date: 'Fecha', bin: 'Compostera', material: 'Alimento', amount: 'Peso', unit: 'Unidad', person: 'Quién', note: 'Observaciones' },
} as const;

export interface Rendered {
  readonly bytes: Buffer;
  /** Row number of each truth row, counted from 1. */
  readonly rowOf: readonly number[];
}

export function render(style: Style): Rendered {
  const heads = HEADINGS[style.language];
  const has = (extra: Style['extras'][number]) => style.extras.includes(extra);
  const headUnit = style.unit === 'heading-kg' ? ' (kg)' : style.unit === 'heading-g' ? ' (g)' : '';
  const columns = [
    'date',
    'bin',
    'material',
    'amount',
    ...(style.unit === 'column' ? ['unit'] : []),
    'person',
    'note',
  ] as (keyof typeof heads)[];
  if (has('order')) columns.reverse();
  const lines: string[][] = [];
  if (has('title'))
    lines.push(
      ['Feeding log 2026', ...columns.slice(1).map(() => '')],
      columns.map(() => ''),
    );
  lines.push(columns.map((name) => (has('upper') ? heads[name].toUpperCase() : heads[name]) + (name === 'amount' ? headUnit : '')));
  const rowOf: number[] = [];
  for (const [at, truth] of FED.entries()) {
    if (has('blank-lines') && at % 2 === 1) lines.push(columns.map(() => ''));
    lines.push(columns.map((name) => cellOf(name, truth, at, style, has('spaces'))));
    rowOf.push(lines.length);
  }
  if (has('total')) lines.push(columns.map((name) => (name === 'bin' ? 'Total' : name === 'amount' ? '19150' : '')));
  const text =
    lines.map((cells) => cells.map((cell) => quoted(cell, style.delimiter)).join(style.delimiter)).join(style.lineEnd) + style.lineEnd;
  return { bytes: encoded(text, style.encoding), rowOf };
}

function cellOf(name: string, truth: FedTruth, at: number, style: Style, isSpaced: boolean): string {
  const bin = BINS[truth.bin]!;
  const [amount, unit] = amountText(truth.grams, at, style);
  const cells: Record<string, string> = {
    date: dateText(truth.day, style.date),
    bin: at % 2 === 0 ? bin.code : bin.name,
    material: MATERIAL[style.language][truth.material],
    amount,
    unit,
    person: truth.person === null ? '' : PERSON[truth.person],
    note: truth.note,
  };
  const cell = cells[name] ?? '';
  return isSpaced && cell !== '' ? `  ${cell} ` : cell;
}

const quoted = (cell: string, delimiter: string): string =>
  cell.includes(delimiter) || /["\n\r]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;

function encoded(text: string, encoding: Style['encoding']): Buffer {
  if (encoding === 'utf8') return Buffer.from(text);
  if (encoding === 'utf8-bom') return Buffer.from(`\uFEFF${text}`);
  return encoding === 'utf16le' ? Buffer.from(`\uFEFF${text}`, 'utf16le') : Buffer.from(text, 'latin1');
}

export { AHEAD };
