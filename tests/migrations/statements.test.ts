import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { MIGRATIONS_DIR } from '../cast.ts';
import { failAt, statementsOf } from './statement-faults.ts';

test('statementsOf() takes every migration apart so that its parts do what the whole does', () => {
  const [whole, parts] = [new Database(':memory:'), new Database(':memory:')];
  for (const name of readdirSync(MIGRATIONS_DIR)
    .filter((one) => one.endsWith('.sql'))
    .sort()) {
    const text = readFileSync(join(MIGRATIONS_DIR, name), 'utf8');
    whole.exec(text);
    // prepare() takes one statement and no more.
    for (const statement of statementsOf(text)) parts.prepare(statement).run();
  }
  const made = (sqlite: Database.Database) => sqlite.prepare('SELECT type, name, tbl_name FROM sqlite_schema ORDER BY type, name').all();
  expect(made(parts)).toEqual(made(whole));
});

test('F32: every migration of this program, made to fail in its middle, leaves the store and its rows as they were', () => {
  const middle = (name: string) => Math.ceil(statementsOf(readFileSync(join(MIGRATIONS_DIR, name), 'utf8')).length / 2);
  const { tried, broken, rows } = failAt(({ migration, statement }) => statement === middle(migration));
  expect(broken).toEqual([]);
  expect(tried).toBe(readdirSync(MIGRATIONS_DIR).filter((name) => name.endsWith('.sql')).length - 1);
  expect(rows).toEqual([{ code: 'F1', grams: 6250 }]);
});
