/** All that is known of one person, out of one moment of the store. */
import { ownRows } from '../../db/portable/own-rows.ts';
import { tableShape } from '../../db/portable/shape.ts';
import type { Value } from '../../db/portable/snapshot.ts';
import type { Store } from '../../db/store.ts';
import { columnWords, EXPORTED } from '../export/dictionary/registry.ts';
import { OWN_TABLES, type OwnTable } from './own-tables.data.ts';

export interface OwnPart {
  readonly table: string;
  /** What a row is. */
  readonly row: string;
  /** Each column with what it holds. */
  readonly columns: readonly { readonly name: string; readonly words: string }[];
  readonly rows: readonly (readonly Value[])[];
}

/** Call it inside a transaction. Tables without a row of theirs are left out. */
export function ownPartsOf({ sqlite }: Store, personId: string): OwnPart[] {
  const parts = OWN_TABLES.map((own) => {
    const columns = columnsOf(sqlite, own);
    return { ...wordsOf(own, columns), rows: ownRows(sqlite, { ...own, columns }, personId) };
  });
  return parts.filter(({ rows }) => rows.length > 0);
}

function columnsOf(sqlite: Store['sqlite'], { table, columns, leftOut = [] }: OwnTable): readonly string[] {
  if (columns !== undefined) return columns;
  const secret = EXPORTED.find((one) => one.table === table)?.leftOut ?? {};
  return tableShape(sqlite, table)
    .columns.map(({ name }) => name)
    .filter((name) => secret[name] === undefined && !leftOut.includes(name));
}

function wordsOf({ table, row }: OwnTable, names: readonly string[]): Omit<OwnPart, 'rows'> {
  const words = EXPORTED.find((one) => one.table === table) ?? { table, row: row ?? table, columns: {} };
  const columns = names.map((name) => ({ name, words: columnWords(words, name) ?? OTHER_WORDS[name] ?? name }));
  return { table, row: row ?? words.row, columns };
}

/** Columns of tables that no export of the programme has. */
const OTHER_WORDS: Readonly<Record<string, string>> = {
  kind: 'Which kind it is',
  label: 'What it was called',
  address: 'The address it went to',
  state: 'How far it got',
  done_at: 'When it was done, an instant in UTC; empty: it was not',
  last_seen_at: 'When it was last used, an instant in UTC',
  expires_at: 'When it runs out, an instant in UTC',
  used_at: 'When it was used, an instant in UTC; empty: it was not',
  revoked_at: 'When it was taken back, an instant in UTC; empty: it was not',
  name: 'The name in it',
  role: 'volunteer, site-lead or coordinator',
};
