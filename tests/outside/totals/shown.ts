/** The report's tables as somebody reads them in print and on the page. */
import type { Season } from '@middenry/contract';
import { readPdf, tablesOf } from '../../api/read-pdf.ts';
import { type ShownTable, SIZES, type Units } from './asked.ts';

const GROUP_COLUMNS = ['fedWeighedG', 'fedEstimatedG', 'harvestedG', 'minutes'] as const;
const MATERIAL_COLUMNS = ['fedWeighedG', 'fedEstimatedG', 'beddingG'] as const;
/** Shown with one place at most on the page; a half goes up, and a double may miss it by a trifle. */
const HALF_A_PLACE = 0.05 + 1e-9;

/** Tables by name, each a list of rows without the head. */
type Tables = ReadonlyMap<string, readonly (readonly string[])[]>;

function shownIn(tables: Tables, season: Season, sizes: { readonly g: number; readonly min: number }): ShownTable[] {
  const { total } = season;
  const numbers = (row: readonly string[], count: number) => row.slice(1, count + 1).map((text) => Number(text.replaceAll(',', '')));
  const need = (name: string) => {
    const rows = tables.get(name);
    if (rows === undefined) throw new Error(`no table ${name} among ${[...tables.keys()].join(', ')}`);
    return rows;
  };
  const groups = ['By month', 'By site', 'By bin'].map((name): ShownTable => {
    const rows = need(name).map((row) => numbers(row, GROUP_COLUMNS.length));
    const columns = GROUP_COLUMNS.map((id) => ({ size: id === 'minutes' ? sizes.min : sizes.g, wanted: total[id] }));
    return { name, rows: rows.slice(0, -1), foot: rows.at(-1)!, columns };
  });
  const materials: ShownTable = {
    name: 'By material',
    rows: need('By material').map((row) => numbers(row, MATERIAL_COLUMNS.length)),
    columns: MATERIAL_COLUMNS.map((id) => ({ size: sizes.g, wanted: total[id] })),
  };
  const went = [...tables.keys()].find((name) => /^Where (the )?castings went$/i.test(name)) ?? 'Where castings went';
  return [
    ...groups,
    materials,
    { name: went, rows: need(went).map((row) => numbers(row, 1)), columns: [{ size: sizes.g, wanted: total.harvestedG }] },
  ];
}

/** In print a mass has three places of a kilogram or pound, an hour has two: the next whole gram or minute is the one meant. */
export async function shownInPrint(bytes: Uint8Array, season: Season, units: Units): Promise<ShownTable[]> {
  const tables = tablesOf((await readPdf(bytes)).tags);
  return shownIn(new Map([...tables].map(([name, rows]) => [name, rows.slice(1)])), season, SIZES[units]);
}

interface PageCell {
  readonly text: string;
  readonly value: string | null;
}

function pageTables(html: string): Map<string, PageCell[][]> {
  const bare = html.replace(/<!--[\s\S]*?-->/g, '');
  const textIn = (part: string) =>
    part
      .replace(/<[^>]*>/g, '')
      .replace(/\s+/g, ' ')
      .trim();
  return new Map(
    [...bare.matchAll(/<table class="ruled season-t[\s\S]*?<\/table>/g)].map(([table]) => {
      const caption = textIn(/<caption[\s\S]*?<\/caption>/.exec(table)![0]);
      const body = table.slice(table.indexOf('<tbody'));
      const rows = [...body.matchAll(/<tr[\s\S]*?<\/tr>/g)].map(([row]) =>
        [...row.matchAll(/<t[hd][\s\S]*?<\/t[hd]>/g)].map(([part]) => ({
          text: textIn(part),
          value: /<data value="(-?\d+)"/.exec(part)?.[1] ?? null,
        })),
      );
      return [caption, rows];
    }),
  );
}

/** On the page each cell bears its whole grams or minutes beside the text that is shown. */
export function shownOnPage(html: string, season: Season): ShownTable[] {
  const tables = [...pageTables(html)].map(([name, rows]): [string, string[][]] => [
    name,
    rows.map((row) => row.map(({ text, value }) => value ?? text)),
  ]);
  return shownIn(new Map(tables), season, { g: 1, min: 1 });
}

/** Cells of masses and hours whose text is further from their grams or minutes than half a place. */
export function shownAmiss(html: string, units: Units): { readonly cells: number; readonly amiss: string[] } {
  const tables = pageTables(html);
  const sizes = SIZES[units];
  const cells = ['By month', 'By site', 'By bin'].flatMap((name) =>
    tables.get(name)!.flatMap((row) =>
      GROUP_COLUMNS.map((id, at) => {
        const { text, value } = row[at + 1]!;
        const size = id === 'minutes' ? sizes.min : sizes.g;
        const isNear = Math.abs(Number(text.replaceAll(',', '')) - Number(value) / size) <= HALF_A_PLACE;
        return { isNear, said: `${name}, ${row[0]!.text}: ${text} for ${value}` };
      }),
    ),
  );
  return { cells: cells.length, amiss: cells.filter(({ isNear }) => !isNear).map(({ said }) => said) };
}
