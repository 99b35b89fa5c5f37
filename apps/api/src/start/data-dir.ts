import { accessSync, constants, existsSync, mkdirSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { Config } from '../config.ts';
import { migrate, refuseNewerSchema } from '../db/migrate.ts';
import { openStore } from '../db/open.ts';
import { closeInOrder, noteOpen, refuseOtherLog } from '../db/open-note.ts';
import type { Store } from '../db/store.ts';
import { EXIT, StartRefusal } from '../start-refusal.ts';

export const fileOf = (config: Config): string => join(config.dataDir, config.own ? 'own.db' : 'demo.db');
/** What the model keeps between starts: in no backup, and made anew when it is gone. */
export const cacheFileOf = (config: Config): string => join(config.dataDir, 'cache.db');
export const backupDirOf = (config: Config): string => join(config.dataDir, 'backups');
const markerOf = (config: Config): string => join(config.dataDir, 'own.began');

/** What a start or a command makes and opens in the data folder; backups may lie on a disk that is not there today. */
const KEPT_HERE = /^((own|demo|cache)[.-]|middenry\.lock)/;

/**
 * Makes the data folder, and looks whether it and all that is kept in it can be written.
 *
 * A command once run by another user leaves a log that the server cannot write; SQLite would then
 * open the store for reading only, and every entry would be refused without a reason.
 *
 * @throws {StartRefusal} with the path and the way out
 */
export function ensureDataDir({ dataDir }: Config): void {
  let path = dataDir;
  try {
    mkdirSync(dataDir, { recursive: true, mode: 0o750 });
    accessSync(dataDir, constants.R_OK | constants.W_OK | constants.X_OK);
    for (const name of readdirSync(dataDir).filter((one) => KEPT_HERE.test(one))) {
      path = join(dataDir, name);
      accessSync(path, constants.R_OK | constants.W_OK);
    }
  } catch (error) {
    const { code = 'unknown fault' } = error as { code?: string };
    throw new StartRefusal(`Cannot write into ${path} (${code}): ${wayOut(code, dataDir)}, or set DATA_DIR to another folder.`);
  }
}

function wayOut(code: string, dataDir: string): string {
  if (code === 'EACCES' || code === 'EPERM')
    return `give it to the user who starts Middenry with "chown -R ${process.getuid?.()} ${dataDir}"`;
  if (code === 'EROFS') return 'its disk is mounted for reading only, so mount it for writing';
  return 'make it a folder on a local disk';
}

/**
 * Opens the store of this start and brings it to this program's schema.
 *
 * Where a programme of one's own once was, a missing or empty file is never quietly replaced by a
 * new one: it would look as if everything had been lost, and new entries would hide the old file.
 * What is wrong with the file is asked of it by reading only: to open and close it for writing
 * folds in whatever log lies beside it.
 */
export function openDataFile(config: Config, migrationsDir: string, now: Date): Store {
  const file = fileOf(config);
  refuseVanished(config, file);
  refuseOtherLog(file);
  refuseNewerSchema(file, migrationsDir);
  refuseUnsound(file);
  const store = openStore({ file, allowNetworkDisk: config.allowNetworkDisk });
  noteOpen(store, now);
  try {
    migrate(store, { dir: migrationsDir, copyDir: backupDirOf(config), now });
  } catch (error) {
    closeInOrder(store);
    throw error;
  }
  if (config.own && !existsSync(markerOf(config)))
    writeFileSync(markerOf(config), `A programme of your own began here on ${now.toISOString()}. Keep this file beside own.db.\n`);
  return store;
}

/** Wrong figures are worse than none: a damaged file is not served, and not written to either. */
function refuseUnsound(file: string): void {
  const why = existsSync(file) && statSync(file).size > 0 ? whatIsWrong(file) : null;
  if (why === null) return;
  throw new StartRefusal(
    `Cannot open ${file} as it is damaged (${why}): bring the newest backup back with "npx middenry restore". The damaged file is kept beside it.`,
  );
}

/** The whole check, which a few megabytes take hundredths of a second for: the quick one would let a wrong index by. */
function whatIsWrong(file: string): string | null {
  const sqlite = new Database(file, { readonly: true });
  try {
    const verdict = String(sqlite.pragma('integrity_check(1)', { simple: true }));
    if (verdict !== 'ok') return verdict.split('\n').at(-1) ?? verdict;
    const astray = sqlite.pragma('foreign_key_check') as unknown[];
    return astray.length === 0 ? null : `${astray.length} rows point at nothing`;
  } catch (error) {
    return (error as Error).message;
  } finally {
    sqlite.close();
  }
}

function refuseVanished(config: Config, file: string): void {
  if (!config.own || !existsSync(markerOf(config))) return;
  if (existsSync(file) && statSync(file).size > 0) return;
  throw new StartRefusal(
    `Cannot find your programme: ${file} is ${existsSync(file) ? 'empty' : 'missing'} although it was begun here. Bring it back with "npx middenry restore", or delete ${markerOf(config)} to begin anew.`,
    EXIT.storeMissing,
  );
}
