import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { restore } from '../db/keep/restore.ts';
import { readMigrations } from '../db/migrate.ts';
import { photoDirOf } from '../photos/shelf.ts';
import { backupDirOf, ensureDataDir, fileOf } from '../start/data-dir.ts';
import { lockDataDir } from '../start/lock.ts';
import { StartRefusal } from '../start-refusal.ts';
import type { Command } from './command.ts';
import { migrationsDir, placeOf } from './place.ts';

const COPY = /^before-schema-\d+-(.+)\.db$/;

export const rollbackCommand: Command = {
  name: 'rollback',
  usage: 'rollback [--demo]',
  words: 'Run by the program from before an update: brings back the copy made just before it, and says what was entered since.',
  run(args) {
    const { config } = placeOf(args);
    const [dir, file] = [backupDirOf(config), fileOf(config)];
    ensureDataDir(config);
    const lock = lockDataDir(config.dataDir);
    try {
      const known = Math.max(...readMigrations(migrationsDir).map(({ number }) => number));
      const now = existsSync(file) ? lookInto(file) : null;
      if (now !== null && now.schema <= known)
        throw new StartRefusal(`There is nothing to go back from: this program knows schema ${now.schema} of ${file}. Start it.`);
      const copy = newestCopy(dir, { known, isDemo: !config.own });
      if (copy === undefined)
        throw new StartRefusal(`There is no copy in ${dir} that this program knows: bring a backup back with "npx middenry restore FILE".`);
      const { facts, before } = restore({ backup: copy, file, migrationsDir, copyDir: dir, photoDir: photoDirOf(config), now: new Date() });
      const lost = (now?.entries ?? facts.totals.entries!) - facts.totals.entries!;
      console.log(`Went back to ${copy}: ${facts.totals.entries} entries and ${facts.totals.people} people. Everybody signs in again.`);
      console.log(`Since then ${lost} more entries had been made; they are in ${before}, which the newer program reads.`);
      return 0;
    } finally {
      lock.release();
    }
  },
};

/** What holds in every schema since the first. */
function lookInto(file: string): { readonly schema: number; readonly entries: number; readonly isDemo: boolean } {
  const sqlite = new Database(file, { readonly: true });
  try {
    return {
      schema: Number(sqlite.pragma('user_version', { simple: true })),
      entries: Number(sqlite.prepare('SELECT count(*) FROM entry WHERE undone_at IS NULL').pluck().get()),
      isDemo: sqlite.prepare('SELECT is_demo FROM programme').pluck().get() === 1,
    };
  } finally {
    sqlite.close();
  }
}

/** The copy that was made last by an update from a schema that this program knows. */
function newestCopy(dir: string, { known, isDemo }: { readonly known: number; readonly isDemo: boolean }): string | undefined {
  const madeAt = (name: string) => COPY.exec(name)?.[1] ?? '';
  const names = existsSync(dir) ? readdirSync(dir).filter((name) => COPY.test(name)) : [];
  return names
    .sort((a, b) => madeAt(b).localeCompare(madeAt(a)))
    .map((name) => join(dir, name))
    .find((copy) => {
      const held = lookInto(copy);
      return held.schema <= known && held.isDemo === isDemo;
    });
}
