import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { EXIT, StartRefusal } from '../start-refusal.ts';
import type { Store } from './store.ts';

interface Migration {
  readonly number: number;
  readonly name: string;
  readonly text: string;
  readonly sha256: string;
}

export interface MigrateOptions {
  readonly dir: string;
  /** Where the copy made before a change goes. */
  readonly copyDir: string;
  readonly now: Date;
  /** Number of the last one to apply, for a store that is filled with rows of that time; left out, all. */
  readonly upTo?: number | undefined;
}

const HISTORY = `CREATE TABLE IF NOT EXISTS applied_migration (
  number INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64),
  applied_at TEXT NOT NULL
) STRICT`;

/** The migrations of this program, in order. */
export function readMigrations(dir: string): readonly Migration[] {
  const files = readdirSync(dir)
    .filter((file) => /^\d{4}_[a-z0-9_]+\.sql$/.test(file))
    .sort();
  return files.map((name) => {
    const text = readFileSync(join(dir, name), 'utf8');
    return { number: Number(name.slice(0, 4)), name, text, sha256: createHash('sha256').update(text).digest('hex') };
  });
}

/**
 * Refuses a file that a newer program has changed, before anything is written to it.
 *
 * @throws {StartRefusal} exit code 3
 */
export function refuseNewerSchema(file: string, dir: string): void {
  if (!existsSync(file)) return;
  const known = Math.max(0, ...readMigrations(dir).map((m) => m.number));
  let have = 0;
  const sqlite = new Database(file, { readonly: true });
  try {
    have = Number(sqlite.pragma('user_version', { simple: true }));
  } catch (error) {
    throw new StartRefusal(
      `Cannot read ${file} as it is not a sound database (${(error as Error).message}): restore a backup with "npx middenry restore".`,
    );
  } finally {
    sqlite.close();
  }
  if (have > known)
    throw new StartRefusal(
      `Cannot open ${file} as it was written by a newer Middenry: it needs schema ${have}, this program knows ${known}. Start the newer program, or restore a backup made before the update.`,
      EXIT.newerSchema,
    );
}

/**
 * Brings the store to this program's schema; all of it or nothing.
 *
 * Foreign keys are off meanwhile, since rebuilding a table with them on deletes its children
 * without a word; `foreign_key_check` stands in for them before the commit.
 *
 * @returns The copy made beforehand, or null when nothing had to change or the store was new
 * @throws {StartRefusal} saying where the copy is; the store is then as it was
 */
export function migrate(store: Store, options: MigrateOptions): string | null {
  const { upTo = Number.POSITIVE_INFINITY } = options;
  const all = readMigrations(options.dir).filter(({ number }) => number <= upTo);
  const pending = pendingOf(store, all);
  if (pending.length === 0) return null;
  const copy = currentNumber(store) === 0 ? null : copyAside(store, options, pending.at(-1)!.number);
  store.sqlite.pragma('foreign_keys = OFF');
  try {
    store.sqlite.transaction(() => apply(store, pending, options.now)).immediate();
  } catch (error) {
    const kept = copy === null ? 'Nothing was changed.' : `Nothing was changed; a copy made beforehand is ${copy}.`;
    throw new StartRefusal(`Cannot bring the store to this program's schema: ${(error as Error).message}. ${kept}`);
  } finally {
    store.sqlite.pragma('foreign_keys = ON');
  }
  return copy;
}

const currentNumber = (store: Store): number => Number(store.sqlite.pragma('user_version', { simple: true }));

function pendingOf(store: Store, all: readonly Migration[]): readonly Migration[] {
  const current = currentNumber(store);
  if (current === 0) return all;
  const rows = store.sqlite.prepare('SELECT number, sha256 FROM applied_migration').all() as { number: number; sha256: string }[];
  const applied = new Map(rows.map((row) => [row.number, row.sha256]));
  for (const migration of all) {
    const sha256 = applied.get(migration.number);
    if (sha256 !== undefined && sha256 !== migration.sha256)
      throw new StartRefusal(`Cannot start as ${migration.name} was edited after it had been applied: bring the released file back.`);
    // One that slipped in below the newest would otherwise never run, or run against a schema it was not written for.
    if (sha256 === undefined && migration.number < current)
      throw new StartRefusal(`Cannot start as ${migration.name} comes before schema ${current}, which this store already has.`);
  }
  return all.filter((migration) => migration.number > current);
}

function apply(store: Store, pending: readonly Migration[], now: Date): void {
  store.sqlite.exec(HISTORY);
  for (const { number, name, text, sha256 } of pending) {
    store.sqlite.exec(text);
    store.sqlite.prepare('INSERT INTO applied_migration VALUES (?, ?, ?, ?)').run(number, name, sha256, now.toISOString());
  }
  const broken = store.sqlite.pragma('foreign_key_check') as unknown[];
  if (broken.length > 0) throw new Error(`${broken.length} rows point at nothing`);
  store.sqlite.pragma(`user_version = ${pending.at(-1)!.number}`);
}

/** A copy under its final name only once it has been read back: a full disk must not leave an empty one. */
function copyAside(store: Store, options: MigrateOptions, target: number): string {
  mkdirSync(options.copyDir, { recursive: true });
  const stamp = options.now.toISOString().replace(/[:.]/g, '-');
  const file = join(options.copyDir, `before-schema-${target}-${stamp}.db`);
  const part = `${file}.part`;
  try {
    store.sqlite.prepare('VACUUM INTO ?').run(part);
    const copy = new Database(part, { readonly: true });
    try {
      const verdict = copy.pragma('integrity_check', { simple: true });
      if (verdict !== 'ok') throw new Error(`integrity check says ${verdict}`);
    } finally {
      copy.close();
    }
    renameSync(part, file);
  } catch (error) {
    rmSync(part, { force: true });
    throw new StartRefusal(`Cannot update the store as the copy beforehand failed (${(error as Error).message}): nothing was changed.`);
  }
  return file;
}
