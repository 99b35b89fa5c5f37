/** Which sums are asked of each form of the report, each with the grams that the JSON has. */
import type { Season } from '@middenry/contract';
import { SEASON_COLUMN_IDS, SEASON_COLUMNS, type SeasonColumnId } from '@middenry/domain';
import { SEASON_HEADINGS } from '../../../apps/api/src/services/season-csv.ts';
import { TYPED_KINDS, type Typed } from './programmes.ts';
import { letter, type Sum, type Value } from './summed.ts';

export const UNITS = ['metric', 'us'] as const;
export type Units = (typeof UNITS)[number];
/** The pound is 0.45359237 kg and the US gallon 231 cubic inches exactly (NIST SP 811, appendix B.8). */
export const SIZES = {
  metric: { g: 1000, ml: 1000, min: 60, count: 1 },
  us: { g: 453.59237, ml: 3785.411784, min: 60, count: 1 },
} as const;
const GROUPS = ['bySite', 'byBin', 'byMonth'] as const;
const OF_KIND = { weighed: 'fedWeighedG', estimated: 'fedEstimatedG', bedding: 'beddingG', harvested: 'harvestedG' } as const;
const OF_MATERIAL = ['fedWeighedG', 'fedEstimatedG', 'beddingG'] as const;
const FIRST_FIGURE = 5;
/** Rows of the store that together are what is in it at the end. */
const STORE_MOVES = 5;

/** Sums over what was typed: by bin, site and month, without what was taken back. */
export function ofTyped(typed: readonly Typed[], season: Season): { rows: Value[][]; sums: Sum[] } {
  const rows = typed.map(({ bin, site, month, kind, grams, isUndone }) => [bin, site, `m${month}`, kind, grams, isUndone ? 1 : 0]);
  const range = (column: string) => `${column}$1:${column}$${rows.length}`;
  const sums = GROUPS.flatMap((group) =>
    season[group]
      .filter(({ key }) => key !== 'shifts')
      .flatMap(({ key, figures }) =>
        TYPED_KINDS.map((kind): Sum => {
          const [column, name] = { bySite: ['B', key], byBin: ['A', key], byMonth: ['C', `m${key}`] }[group] as [string, string];
          const formula = `=SUMIFS(${range('E')},${range(column)},"${name}",${range('D')},"${kind}",${range('F')},0)`;
          return { what: `typed, ${group} ${key}, ${kind}`, formula, wanted: figures[OF_KIND[kind]] };
        }),
      ),
  );
  return { rows, sums };
}

/** Sums over the totals as CSV: of all rows, of each site, and what its own last row says. */
export function ofTotals(csv: string, season: Season, siteNames: readonly string[]): Sum[] {
  const last = csv.trimEnd().split('\r\n').length - 1;
  return SEASON_COLUMN_IDS.flatMap((id, at) => {
    const column = letter(FIRST_FIGURE + at);
    const range = (of: string) => `${of}$2:${of}$${last}`;
    const site = (name: string) => season.bySite.find(({ label }) => label === name)?.figures[id] ?? 0;
    return [
      { what: `rows of ${id}`, formula: `=SUM(${range(column)})`, wanted: season.total[id] },
      { what: `total of ${id}`, formula: `=${column}${last + 1}`, wanted: season.total[id] },
      ...siteNames.map((name) => ({
        what: `${id} of ${name}`,
        formula: `=SUMIFS(${range(column)},${range('B')},"${name}")`,
        wanted: site(name),
      })),
    ];
  });
}

/** Sums over every figure as CSV: sites, bins and months of each figure, materials, where harvests went, and the store's balance. */
export function ofEveryFigure(csv: string, season: Season): Sum[] {
  const last = csv.trimEnd().split('\r\n').length;
  const range = (column: string) => `${column}$2:${column}$${last}`;
  const of = (section: string, figure: string) => `SUMIFS(${range('D')},${range('A')},"${section}",${range('C')},"${figure}")`;
  const sum = (section: string, figure: string, wanted: number): Sum => ({
    what: `${section}, ${figure}`,
    formula: `=${of(section, figure)}`,
    wanted,
  });
  const { total } = season;
  const { store } = season.castings!;
  const moved = ['begin_g', 'harvested_g', 'brought_in_g', 'given_out_g', 'written_off_g'].map((figure) => of('store', figure));
  return [
    ...['season', 'site', 'bin', 'month'].flatMap((section) => SEASON_COLUMN_IDS.map((id) => sum(section, SEASON_HEADINGS[id], total[id]))),
    ...OF_MATERIAL.map((id) => sum('material', SEASON_HEADINGS[id], total[id])),
    sum('harvest-went', 'harvested_g', total.harvestedG),
    { what: 'balance of the store', formula: `=${moved.join('+')}`, wanted: store.endG },
    { what: 'given out', formula: `=${of('given-out', 'from_bin_g')}+${of('given-out', 'from_store_g')}`, wanted: givenOutG(season) },
  ];
}

const givenOutG = (season: Season): number => season.castings!.givenOut.reduce((sum, { grams }) => sum + grams, 0);
const sizeOf = (id: SeasonColumnId, units: Units): number => SIZES[units][SEASON_COLUMNS[id].unit];

/** Sums over the cells of the workbook, turned into grams, millilitres and minutes by LibreOffice too. */
export function ofBook(season: Season, units: Units): Sum[] {
  const inSheet = (sheet: string, rows: number) => (at: number) => `[$'${sheet}'.${letter(at)}2:.${letter(at)}${rows + 1}]`;
  const groups = GROUPS.flatMap((group) => {
    const sheet = { bySite: 'Sites', byBin: 'Bins', byMonth: 'Months' }[group];
    const rows = season[group].length;
    return SEASON_COLUMN_IDS.flatMap((id, at): Sum[] => [
      {
        what: `${sheet}, rows of ${id}`,
        formula: `=SUM(${inSheet(sheet, rows)(at + 1)})*${sizeOf(id, units)}`,
        wanted: season.total[id],
      },
      {
        what: `${sheet}, total of ${id}`,
        formula: `=[$'${sheet}'.${letter(at + 1)}${rows + 2}]*${sizeOf(id, units)}`,
        wanted: season.total[id],
      },
    ]);
  });
  const size = SIZES[units].g;
  const materials = inSheet('Materials', season.byMaterial.length);
  const went = inSheet('Castings', season.destinations.length);
  const { givenOut, store } = season.castings!;
  const out = inSheet('Given out', Math.max(1, givenOut.length));
  return [
    ...groups,
    ...OF_MATERIAL.map((id, at) => ({ what: `Materials, ${id}`, formula: `=SUM(${materials(at + 1)})*${size}`, wanted: season.total[id] })),
    { what: 'Castings', formula: `=SUM(${went(1)})*${size}`, wanted: season.total.harvestedG },
    { what: 'Given out', formula: `=(SUM(${out(1)})+SUM(${out(2)}))*${size}`, wanted: givenOutG(season) },
    { what: 'Store', formula: `=SUM(${inSheet('Store', STORE_MOVES)(1)})*${size}`, wanted: store.endG },
  ];
}

export interface ShownTable {
  readonly name: string;
  /** Numbers of its rows, the sum at its foot apart. */
  readonly rows: readonly (readonly number[])[];
  readonly foot?: readonly number[];
  /** How many grams or minutes one of each column is, and what the column adds up to. */
  readonly columns: readonly { readonly size: number; readonly wanted: number }[];
}

/** Sums over tables as they are read: each cell is taken to the next whole gram or minute first, which its places allow. */
export function ofTables(tables: readonly ShownTable[]): { rows: Value[][]; sums: Sum[] } {
  const rows: Value[][] = [];
  const sums: Sum[] = [];
  for (const table of tables) {
    const from = rows.length + 1;
    rows.push(...table.rows.map((row) => [...row]), [...(table.foot ?? [])]);
    const to = from + table.rows.length - 1;
    table.columns.forEach(({ size, wanted }, at) => {
      const column = letter(at);
      const what = `${table.name}, column ${at + 1}`;
      sums.push({ what, formula: `=SUMPRODUCT(ROUND(${column}${from}:${column}${to}*${size},0))`, wanted });
      if (table.foot !== undefined) sums.push({ what: `${what}, foot`, formula: `=ROUND(${column}${to + 1}*${size},0)`, wanted });
    });
  }
  return { rows, sums };
}
