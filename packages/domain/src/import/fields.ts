/** What a spreadsheet can tell of each kind of thing, and how its headings may be worded. */
import { plainText, type SheetRow } from './sheet.ts';

export const IMPORT_KINDS = ['feedings', 'checks', 'harvests', 'hours'] as const;
export type ImportKind = (typeof IMPORT_KINDS)[number];

export const IMPORT_FIELDS = [
  'date',
  'time',
  'bin',
  'material',
  'amount',
  'unit',
  'zone',
  'squeeze',
  'smell',
  'temperature',
  'ph',
  'worms',
  'destination',
  'person',
  'site',
  'hours',
  'note',
] as const;
export type ImportField = (typeof IMPORT_FIELDS)[number];

interface KindFields {
  readonly needed: readonly ImportField[];
  readonly may: readonly ImportField[];
}

export const FIELDS_OF: Readonly<Record<ImportKind, KindFields>> = {
  feedings: { needed: ['date', 'bin', 'amount'], may: ['material', 'unit', 'zone', 'time', 'person', 'note'] },
  checks: { needed: ['date', 'bin'], may: ['squeeze', 'smell', 'temperature', 'ph', 'worms', 'time', 'person', 'note'] },
  harvests: { needed: ['date', 'bin', 'amount'], may: ['unit', 'destination', 'time', 'person', 'note'] },
  hours: { needed: ['date', 'person', 'hours'], may: ['site', 'time', 'note'] },
};

export const fieldsOf = (kind: ImportKind): readonly ImportField[] => [...FIELDS_OF[kind].needed, ...FIELDS_OF[kind].may];

/** Words without accents, English and Spanish. A heading is taken for the field most of whose word it holds. */
const HEADINGS: Readonly<Record<ImportField, readonly string[]>> = {
  date: ['date', 'day', 'when', 'fecha', 'dia', 'cuando'],
  time: ['time', 'hour', 'hora', 'start time'],
  bin: ['bin', 'bins', 'worm bin', 'bin code', 'bin name', 'bin id', 'compostera', 'vermicompostera', 'caja'],
  material: [
    'material',
    'food',
    'foods',
    'feed',
    'what',
    'scraps',
    'type',
    'type of food',
    'item',
    'alimento',
    'comida',
    'restos',
    'que',
    'tipo',
  ],
  amount: [
    'amount',
    'weight',
    'mass',
    'quantity',
    'qty',
    'how much',
    'kg',
    'g',
    'lb',
    'lbs',
    'oz',
    'pounds',
    'grams',
    'cantidad',
    'peso',
    'kilos',
    'libras',
    'gramos',
    'cuanto',
    'castings',
    'harvested',
    'humus',
    'cosecha',
  ],
  unit: ['unit', 'units', 'unidad', 'unidades'],
  zone: ['zone', 'feeding zone', 'corner', 'section', 'zona', 'rincon'],
  squeeze: ['squeeze', 'squeeze test', 'moisture', 'wetness', 'humedad', 'punado', 'apretar'],
  smell: ['smell', 'odor', 'odour', 'olor'],
  temperature: ['temperature', 'temp', 'bed temp', 'bin temp', 'bed temperature', 'temperatura'],
  ph: ['ph', 'acidity', 'acidez'],
  worms: ['worms', 'worms seen', 'lombrices'],
  destination: ['destination', 'where to', 'used for', 'went to', 'given to', 'destino', 'para que', 'uso'],
  person: [
    'person',
    'who',
    'name',
    'volunteer',
    'by',
    'fed by',
    'done by',
    'logged by',
    'persona',
    'quien',
    'nombre',
    'voluntario',
    'voluntaria',
    'voluntariado',
  ],
  site: ['site', 'garden', 'location', 'place', 'where', 'sitio', 'huerto', 'lugar', 'jardin'],
  hours: ['hours', 'hrs', 'time spent', 'duration', 'minutes', 'mins', 'hours worked', 'horas', 'minutos', 'duracion', 'tiempo'],
  note: ['note', 'notes', 'comment', 'comments', 'remarks', 'observations', 'nota', 'notas', 'comentario', 'comentarios', 'observaciones'],
};

const UNIT_TAIL = /\b(kg|kgs|g|gr|lb|lbs|oz|c|f|hrs|h|min|mins)\b|°\s?[cf]?|\([^)]*\)|\[[^\]]*\]/gi;

/** 0: nothing alike; 3: the very word. */
function likeness(heading: string, names: readonly string[]): number {
  const plain = plainText(heading);
  const bare = plainText(heading.replace(UNIT_TAIL, ' '));
  if (names.includes(plain)) return 3;
  if (bare !== '' && names.includes(bare)) return 2;
  const words = new Set(bare.split(' '));
  return names.some((name) => name.length > 2 && words.has(name)) ? 1 : 0;
}

export type Columns = Readonly<Partial<Record<ImportField, number>>>;

/** Which column is which, by their headings; the likest first, and no column for two. */
export function guessColumns(kind: ImportKind, headings: readonly string[]): Columns {
  const pairs = fieldsOf(kind).flatMap((field, rank) =>
    headings.map((heading, column) => ({ field, column, rank, score: likeness(heading, HEADINGS[field]) })),
  );
  const columns: Partial<Record<ImportField, number>> = {};
  const taken = new Set<number>();
  for (const { field, column } of pairs
    .filter(({ score }) => score > 0)
    .sort((a, b) => b.score - a.score || a.rank - b.rank || a.column - b.column)) {
    if (columns[field] !== undefined || taken.has(column)) continue;
    columns[field] = column;
    taken.add(column);
  }
  return columns;
}

const HEADING_ROWS_MOST = 15;

/** The row of the headings: among the first ones, the one in which most fields are found. Titles above it may be merged over several columns. */
export function headingRow(kind: ImportKind, rows: readonly SheetRow[]): number {
  let best = { at: rows.findIndex((row) => row.some((cell) => cell.text.trim() !== '')), found: 1 };
  for (const [at, row] of rows.slice(0, HEADING_ROWS_MOST).entries()) {
    const found = Object.keys(
      guessColumns(
        kind,
        row.map((cell) => cell.text),
      ),
    ).length;
    if (found > best.found) best = { at, found };
  }
  return Math.max(0, best.at);
}
