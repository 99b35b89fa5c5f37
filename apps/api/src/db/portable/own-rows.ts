/** Rows of one person, with every other person left out of them. */
import type Database from 'better-sqlite3';
import { quotedName } from '../quoted-name.ts';
import { tableShape } from './shape.ts';
import type { Value } from './snapshot.ts';

export interface OwnWanted {
  readonly table: string;
  readonly columns: readonly string[];
  /** A row is theirs when one of these columns holds their id. */
  readonly mine?: readonly string[] | undefined;
  /** Of their rows only those with this value in this column. */
  readonly only?: { readonly column: string; readonly value: string } | undefined;
  /** A row is theirs when this column holds `key` of a row of `table` that is theirs by `mine`. */
  readonly through?: { readonly column: string; readonly table: string; readonly key: string; readonly mine: string } | undefined;
}

/** With neither `mine` nor `through`: every row, such as the names of sites. Ids of other people come out empty. */
export function ownRows(sqlite: Database.Database, wanted: OwnWanted, personId: string): Value[][] {
  const { table, columns } = wanted;
  const { key, references } = tableShape(sqlite, table);
  const rows = sqlite.prepare(sqlOf(wanted, key)).raw().all({ personId }) as Value[][];
  const people = new Set(references.filter((one) => one.table === 'person').map((one) => one.column));
  return rows.map((row) => row.map((value, at) => (people.has(columns[at]!) && value !== personId ? null : value)));
}

function sqlOf({ table, columns, mine, through, only }: OwnWanted, key: readonly string[]): string {
  const named = (names: readonly string[]) => names.map(quotedName).join(', ');
  return [
    'SELECT',
    named(columns),
    'FROM',
    quotedName(table),
    'WHERE',
    '(',
    whose(mine, through),
    ')',
    ...onlyWith(only),
    'ORDER BY',
    named(key),
  ].join(' ');
}

const onlyWith = (only: OwnWanted['only']): string[] =>
  only === undefined ? [] : ['AND', quotedName(only.column), '=', quotedText(only.value)];
/** Values of ours only, never of anybody's. */
const quotedText = (text: string): string => `'${text.replaceAll("'", "''")}'`;

function whose(mine: OwnWanted['mine'], through: OwnWanted['through']): string {
  if (through !== undefined) {
    const inner = ['SELECT', quotedName(through.key), 'FROM', quotedName(through.table), 'WHERE', quotedName(through.mine), '= @personId'];
    return [quotedName(through.column), 'IN', '(', ...inner, ')'].join(' ');
  }
  if (mine === undefined) return '@personId IS NOT NULL';
  return mine.map((column) => [quotedName(column), '= @personId'].join(' ')).join(' OR ');
}
