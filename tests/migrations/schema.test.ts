import { readdirSync } from 'node:fs';
import { getTableConfig, SQLiteTable } from 'drizzle-orm/sqlite-core';
import { afterAll, beforeAll, expect, it, test } from 'vitest';
import { openEmpty } from '../cast.ts';

type Empty = Awaited<ReturnType<typeof openEmpty>>;
interface Column {
  readonly name: string;
  readonly type: string;
  readonly notNull: boolean;
  readonly inKey: boolean;
}

const schemaDir = new URL('../../apps/api/src/db/schema/', import.meta.url);
const tables = new Map<string, SQLiteTable>();
let empty: Empty;

beforeAll(async () => {
  empty = await openEmpty();
  for (const file of readdirSync(schemaDir)) {
    const module = (await import(new URL(file, schemaDir).href)) as Record<string, unknown>;
    for (const table of Object.values(module)) if (table instanceof SQLiteTable) tables.set(getTableConfig(table).name, table);
  }
});
afterAll(() => empty.close());

const byName = (a: Column, b: Column) => a.name.localeCompare(b.name);

function columnsInStore(table: string): Column[] {
  const rows = empty.store.sqlite.prepare('SELECT name, type, "notnull" AS required, pk FROM pragma_table_info(?)').all(table);
  return (rows as { name: string; type: string; required: number; pk: number }[])
    .map(({ name, type, required, pk }) => ({ name, type, notNull: required === 1 || pk > 0, inKey: pk > 0 }))
    .sort(byName);
}

function columnsInCode(table: SQLiteTable): Column[] {
  const { columns, primaryKeys } = getTableConfig(table);
  const keyed = new Set(primaryKeys.flatMap((key) => key.columns.map(({ name }) => name)));
  return columns
    .map((column) => {
      const inKey = column.primary || keyed.has(column.name);
      return { name: column.name, type: column.getSQLType().toUpperCase(), notNull: column.notNull || inKey, inKey };
    })
    .sort(byName);
}

const namesInStore = (): string[] =>
  empty.store.sqlite
    .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name")
    .pluck()
    .all() as string[];

test('the tables of the code are those of the store', () => {
  expect([...tables.keys()].sort()).toEqual(namesInStore());
});

test('every column of the code is as in the store', () => {
  expect(tables.size).toBeGreaterThan(20);
  for (const [name, table] of tables) expect([name, columnsInCode(table)]).toEqual([name, columnsInStore(name)]);
});

it('E17: every table of the store is STRICT', () => {
  const loose = empty.store.sqlite
    .prepare("SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND strict = 0 AND name NOT LIKE 'sqlite_%'")
    .pluck()
    .all();
  expect(loose).toEqual([]);
});
