/** Rows of a table as bars: the largest each by itself, the rest together. */

export interface BarRow {
  readonly id: string;
  readonly name: string;
  /** Parts that lie end to end, in one unit; null: not counted, and then the row has no bar, as its sum is not known. */
  readonly parts: readonly (number | null)[];
}
interface KnownRow extends BarRow {
  readonly parts: readonly number[];
}

export interface Bar extends KnownRow {
  readonly sum: number;
  /** Each part as a share of the longest bar: where it begins and how long it is. */
  readonly shares: readonly { readonly from: number; readonly length: number }[];
}

/** Beyond as many bars nobody reads them one by one. */
export const MOST_BARS = 12;
const FEWEST_BARS = 2;

/**
 * @returns Bars in the order of the rows, what is left over last; none where there are not two to compare
 */
export function rowBars(rows: readonly BarRow[], restOf: (count: number) => string): readonly Bar[] {
  const some = rows.filter(isKnown).filter(({ parts }) => sumOf(parts) > 0);
  if (some.length < FEWEST_BARS) return [];
  const shown = some.length <= MOST_BARS ? some : withRest(some, restOf);
  const longest = Math.max(...shown.map(({ parts }) => sumOf(parts)));
  return shown.map((row) => {
    let from = 0;
    const shares = row.parts.map((part) => {
      const share = { from, length: part / longest };
      from += share.length;
      return share;
    });
    return { ...row, sum: sumOf(row.parts), shares };
  });
}

const isKnown = (row: BarRow): row is KnownRow => !row.parts.includes(null);

function withRest(rows: readonly KnownRow[], restOf: (count: number) => string): KnownRow[] {
  const bySize = [...rows].sort((a, b) => sumOf(b.parts) - sumOf(a.parts));
  const [largest, rest] = [new Set(bySize.slice(0, MOST_BARS)), bySize.slice(MOST_BARS)];
  const parts = (rest[0]?.parts ?? []).map((_, at) => sumOf(rest.map((row) => row.parts[at] ?? 0)));
  return [...rows.filter((row) => largest.has(row)), { id: 'rest', name: restOf(rest.length), parts }];
}

const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);
