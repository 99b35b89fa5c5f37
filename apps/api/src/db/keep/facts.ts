import type Database from 'better-sqlite3';
import { quotedName } from '../quoted-name.ts';

/** What a copy must hold to be the whole store and not only a sound file. */
export interface StoreFacts {
  readonly schema: number;
  /** Rows of every table. */
  readonly rows: Readonly<Record<string, number>>;
  readonly lastChange: number;
  readonly lastAudit: number;
  readonly totals: Readonly<Record<string, number>>;
}

/** Figures that a person would compare after a restore, in grams, minutes and numbers of things. */
const TOTALS = {
  fedG: 'SELECT ifnull(sum(i.grams), 0) FROM feeding_item i JOIN entry e ON e.id = i.entry_id WHERE e.undone_at IS NULL',
  harvestedG: 'SELECT ifnull(sum(h.grams), 0) FROM harvest h JOIN entry e ON e.id = h.entry_id WHERE e.undone_at IS NULL',
  minutes: 'SELECT ifnull(sum(minutes), 0) FROM sign_up WHERE attended = 1 AND given_back_at IS NULL',
  people: 'SELECT count(*) FROM person WHERE erased_at IS NULL',
  entries: 'SELECT count(*) FROM entry WHERE undone_at IS NULL',
} as const;

/** What a copy must not fall short of: read by keys alone, so that nobody waits for it however much there is. */
export type LeastFacts = Pick<StoreFacts, 'schema' | 'lastChange' | 'lastAudit'> & { readonly tables: readonly string[] };

export function leastFactsOf(sqlite: Database.Database): LeastFacts {
  const number = (text: string) => Number(sqlite.prepare(text).pluck().get());
  return {
    schema: Number(sqlite.pragma('user_version', { simple: true })),
    lastChange: number('SELECT ifnull(max(id), 0) FROM change'),
    lastAudit: number('SELECT ifnull(max(id), 0) FROM audit'),
    tables: sqlite
      .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name")
      .pluck()
      .all() as string[],
  };
}

export function factsOf(sqlite: Database.Database): StoreFacts {
  const number = (text: string) => Number(sqlite.prepare(text).pluck().get());
  const { tables, ...least } = leastFactsOf(sqlite);
  return {
    ...least,
    rows: Object.fromEntries(tables.map((name) => [name, number(`SELECT count(*) FROM ${quotedName(name)}`)])),
    totals: Object.fromEntries(Object.entries(TOTALS).map(([name, text]) => [name, number(text)])),
  };
}

/**
 * What a copy lacks of what was there when it was begun; empty when nothing.
 *
 * A copy of the main file alone passes every integrity check and still lacks what was in the log,
 * which is why counts are compared and not only pages.
 */
export function lacking(copy: StoreFacts, least: LeastFacts): string[] {
  const found: string[] = [];
  if (copy.schema !== least.schema) found.push(`schema ${copy.schema} instead of ${least.schema}`);
  if (copy.lastChange < least.lastChange) found.push(`change ${copy.lastChange} instead of ${least.lastChange}`);
  if (copy.lastAudit < least.lastAudit) found.push(`audit line ${copy.lastAudit} instead of ${least.lastAudit}`);
  for (const table of least.tables) if (copy.rows[table] === undefined) found.push(`no table ${table}`);
  return found;
}

/** Where two stores that should be the same differ. */
export function differences(a: StoreFacts, b: StoreFacts): string[] {
  const found = lacking(a, { ...b, tables: Object.keys(b.rows) });
  const compare = (kind: string, left: Readonly<Record<string, number>>, right: Readonly<Record<string, number>>) => {
    for (const name of new Set([...Object.keys(left), ...Object.keys(right)]))
      if (left[name] !== right[name]) found.push(`${kind} ${name}: ${left[name]} instead of ${right[name]}`);
  };
  compare('rows of', a.rows, b.rows);
  compare('total', a.totals, b.totals);
  return found;
}
