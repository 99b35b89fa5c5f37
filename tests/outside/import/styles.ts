import type { Style } from './render.ts';

const usual: Style = {
  delimiter: ',',
  encoding: 'utf8',
  date: 'iso',
  mark: '.',
  unit: 'cell-kg',
  language: 'en',
  extras: [],
  lineEnd: '\r\n',
};
const spanish = { language: 'es', delimiter: ';', mark: ',' } as const;

const dates: readonly Style['date'][] = [
  'iso',
  'dmy',
  'mdy',
  'dots',
  'dmy-short',
  'name-en',
  'name-us',
  'name-es',
  'serial',
  'stamped',
  'weekday',
];
const units: readonly Style['unit'][] = ['cell-kg', 'cell-g', 'cell-lb', 'cell-mixed', 'heading-kg', 'heading-g', 'column'];
const encodings: readonly Style['encoding'][] = ['utf8', 'utf8-bom', 'utf16le', 'windows-1252'];
const extras: readonly Style['extras'][] = [
  ['title'],
  ['blank-lines'],
  ['total'],
  ['spaces'],
  ['order'],
  ['upper'],
  ['title', 'blank-lines', 'total', 'spaces'],
];

/** Each way of writing once in English and once in Spanish with a comma, then how files are encoded and what else stands in them. */
export const STYLES: readonly Style[] = [
  ...dates.flatMap((date) => [
    { ...usual, date },
    { ...usual, ...spanish, date },
  ]),
  ...units.slice(1).flatMap((unit) => [
    { ...usual, unit },
    { ...usual, ...spanish, unit },
  ]),
  ...encodings.slice(1).map((encoding) => ({ ...usual, ...spanish, encoding, date: 'dmy' as const })),
  ...extras.map((extra, at) => ({ ...usual, extras: extra, date: dates[at % dates.length]!, unit: units[at % units.length]! })),
  { ...usual, delimiter: '\t', unit: 'column' },
  { ...usual, delimiter: '\t', encoding: 'utf16le', date: 'mdy' },
  { ...usual, lineEnd: '\n', date: 'mdy', unit: 'cell-mixed' },
  { ...usual, ...spanish, delimiter: ',', date: 'name-es', extras: ['title', 'order'] },
];
