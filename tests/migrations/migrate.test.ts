import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { migrate, readMigrations, refuseNewerSchema } from '../../apps/api/src/db/migrate.ts';
import { openStore } from '../../apps/api/src/db/open.ts';
import type { Store } from '../../apps/api/src/db/store.ts';
import { MIGRATIONS_DIR } from '../cast.ts';

const now = new Date('2026-11-25T10:00:00.000Z');
let dir: string;
let migrations: string;
let store: Store;

beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'middenry-migrate-'));
  migrations = join(dir, 'migrations');
  mkdirSync(migrations);
  store = openStore({ file: join(dir, 'own.db') });
});
afterEach(() => {
  store.sqlite.close();
  rmSync(dir, { recursive: true, force: true });
});

const put = (name: string, text: string) => writeFileSync(join(migrations, name), text);
const run = () => migrate(store, { dir: migrations, copyDir: join(dir, 'backups'), now });
const hashOf = (file: string) => createHash('sha256').update(readFileSync(file)).digest('hex');

const PARENTS = `CREATE TABLE parent (id INTEGER PRIMARY KEY, name TEXT NOT NULL) STRICT;
  CREATE TABLE child (id INTEGER PRIMARY KEY, parent_id INTEGER NOT NULL REFERENCES parent (id) ON DELETE CASCADE) STRICT;
  INSERT INTO parent VALUES (1, 'a'), (2, 'b');
  INSERT INTO child VALUES (10, 1), (20, 2), (21, 2);`;
const REBUILD = `CREATE TABLE parent_new (id INTEGER PRIMARY KEY, name TEXT NOT NULL, note TEXT NOT NULL DEFAULT '') STRICT;
  INSERT INTO parent_new (id, name) SELECT id, name FROM parent;
  DROP TABLE parent;
  ALTER TABLE parent_new RENAME TO parent;`;

it('migrate() rebuilds a table without losing its children', () => {
  put('0001_begin.sql', PARENTS);
  run();
  put('0002_note.sql', REBUILD);
  run();
  expect(store.sqlite.prepare('SELECT count(*) FROM child').pluck().get()).toBe(3);
  expect(store.sqlite.pragma('foreign_keys', { simple: true })).toBe(1);
});

it('migrate() would lose the children if foreign keys stayed on, which is what the order is for', () => {
  put('0001_begin.sql', PARENTS);
  run();
  store.sqlite.exec(REBUILD);
  expect(store.sqlite.prepare('SELECT count(*) FROM child').pluck().get()).toBe(0);
});

it('migrate() puts a whole copy aside before it changes a store that holds something', () => {
  put('0001_begin.sql', PARENTS);
  expect(run()).toBeNull();
  put('0002_note.sql', REBUILD);
  const copy = run();
  expect(copy).toBe(join(dir, 'backups', 'before-schema-2-2026-11-25T10-00-00-000Z.db'));
  const kept = new Database(copy!, { readonly: true });
  expect(kept.pragma('user_version', { simple: true })).toBe(1);
  expect(kept.prepare('SELECT count(*) FROM child').pluck().get()).toBe(3);
  kept.close();
  expect(readdirSync(join(dir, 'backups'))).toHaveLength(1);
});

it.each([1, 2, 3, 4])('F32: migrate() leaves the old version whole when statement %i fails', (failing) => {
  put('0001_begin.sql', PARENTS);
  run();
  const statements = REBUILD.split(';').map((text) => text.trim());
  statements.splice(failing - 1, 0, 'INSERT INTO nowhere VALUES (1)');
  put('0002_note.sql', statements.join(';\n'));
  expect(run).toThrow(/Nothing was changed; a copy made beforehand is .*before-schema-2/);
  expect(store.sqlite.pragma('user_version', { simple: true })).toBe(1);
  expect(store.sqlite.prepare('SELECT p.name, count(*) AS n FROM parent p JOIN child c ON c.parent_id = p.id GROUP BY 1').all()).toEqual([
    { name: 'a', n: 1 },
    { name: 'b', n: 2 },
  ]);
  expect(store.sqlite.pragma('foreign_keys', { simple: true })).toBe(1);
});

it('migrate() refuses to commit rows that point at nothing', () => {
  put('0001_begin.sql', PARENTS);
  run();
  put('0002_orphan.sql', 'DELETE FROM parent WHERE id = 2;');
  expect(run).toThrow(/2 rows point at nothing/);
  expect(store.sqlite.prepare('SELECT count(*) FROM parent').pluck().get()).toBe(2);
});

it('migrate() refuses a file that was edited after it had been applied, and one that slips in below', () => {
  put('0001_begin.sql', PARENTS);
  put('0003_third.sql', 'CREATE TABLE third (x INTEGER) STRICT;');
  run();
  put('0002_second.sql', 'CREATE TABLE second (x INTEGER) STRICT;');
  expect(run).toThrow(/0002_second.sql comes before schema 3/);
  rmSync(join(migrations, '0002_second.sql'));
  put('0001_begin.sql', `${PARENTS} `);
  expect(run).toThrow(/0001_begin.sql was edited/);
});

it('F33: refuseNewerSchema() refuses a newer store with exit 3 and leaves every byte of it', () => {
  store.sqlite.pragma('user_version = 99');
  store.sqlite.pragma('wal_checkpoint(TRUNCATE)');
  store.sqlite.close();
  const file = join(dir, 'own.db');
  const before = hashOf(file);
  cpSync(MIGRATIONS_DIR, migrations, { recursive: true });
  expect(() => refuseNewerSchema(file, migrations)).toThrow(
    expect.objectContaining({ exitCode: 3, message: expect.stringContaining('schema 99') }),
  );
  expect(hashOf(file)).toBe(before);
  store = openStore({ file });
});

it('the migrations are numbered 1, 2, 3, ... with none missing and none twice', () => {
  const numbers = readMigrations(MIGRATIONS_DIR).map(({ number }) => number);
  expect(numbers).toEqual(numbers.map((_, index) => index + 1));
  expect(numbers.length).toBeGreaterThan(20);
});

it('every migration of this program applies to an empty store and leaves it sound', () => {
  migrate(store, { dir: MIGRATIONS_DIR, copyDir: join(dir, 'backups'), now });
  const files = readdirSync(MIGRATIONS_DIR).filter((name) => name.endsWith('.sql'));
  expect(store.sqlite.prepare('SELECT name FROM applied_migration ORDER BY number').pluck().all()).toEqual(files.sort());
  expect(store.sqlite.pragma('integrity_check', { simple: true })).toBe('ok');
});

const SITE = '0192f000-0000-7000-8000-000000000001';
const HARVESTS = `
  INSERT INTO site (id, name, time_zone, created_at) VALUES ('0192f000-0000-7000-8000-000000000001', 'Long Meadow', 'Europe/London', '2026-06-01');
  INSERT INTO bin (id, site_id, code, name, kind, area_m2, depth_m, zones, open_base, exposure, started_on, start_worms_g,
      start_bed_water_g, check_interval_days, created_at)
    VALUES ('0192f000-0000-7000-8000-000000000002', '0192f000-0000-7000-8000-000000000001', 'F1', 'Flow', 'flow-through', 0.5, 0.5, 2, 0, 'shade', '2026-06-01', 500, 4000, 7, '2026-06-01');
  INSERT INTO entry (id, kind, bin_id, happened_at, local_date, received_at)
    SELECT value, 'harvest', '0192f000-0000-7000-8000-000000000002', '2026-11-20T10:00:00.000Z', '2026-11-20', '2026-11-20T10:00:00.000Z'
    FROM json_each('["0192f000-0000-7000-8000-000000000003", "0192f000-0000-7000-8000-000000000004"]');
  INSERT INTO harvest VALUES ('0192f000-0000-7000-8000-000000000003', 6250, 'weighed', 6.25, 'kg', 'curing', 'by the shed'), ('0192f000-0000-7000-8000-000000000004', 900, 'guessed', NULL, NULL, 'beds', '');`;

it('harvests from before castings had a store keep all they said; what was to cure is ready three weeks later', () => {
  const files = readdirSync(MIGRATIONS_DIR)
    .filter((name) => name.endsWith('.sql'))
    .sort();
  const castings = files.findIndex((name) => name.endsWith('_castings.sql'));
  const copy = (names: readonly string[]) => {
    for (const name of names) cpSync(join(MIGRATIONS_DIR, name), join(migrations, name));
  };
  copy(files.slice(0, castings));
  run();
  store.sqlite.exec(HARVESTS);
  copy(files);
  run();
  const rows = store.sqlite.prepare('SELECT * FROM harvest ORDER BY entry_id').all() as Record<string, unknown>[];
  expect(
    rows.map(({ grams, how, typed_value, destination_note, site_id, ready_on }) => [
      grams,
      how,
      typed_value,
      destination_note,
      site_id,
      ready_on,
    ]),
  ).toEqual([
    [6250, 'weighed', 6.25, 'by the shed', SITE, '2026-12-11'],
    [900, 'guessed', null, '', SITE, null],
  ]);
  expect(store.sqlite.pragma('foreign_key_check')).toEqual([]);
});
