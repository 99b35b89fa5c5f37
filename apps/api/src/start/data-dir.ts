import { accessSync, constants, existsSync, mkdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Config } from '../config.ts';
import { migrate, refuseNewerSchema } from '../db/migrate.ts';
import { openStore } from '../db/open.ts';
import type { Store } from '../db/store.ts';
import { EXIT, StartRefusal } from '../start-refusal.ts';

export const fileOf = (config: Config): string => join(config.dataDir, config.own ? 'own.db' : 'demo.db');
/** What the model keeps between starts: in no backup, and made anew when it is gone. */
export const cacheFileOf = (config: Config): string => join(config.dataDir, 'cache.db');
export const backupDirOf = (config: Config): string => join(config.dataDir, 'backups');
const markerOf = (config: Config): string => join(config.dataDir, 'own.began');

/** Makes the data folder, or says in one sentence why it cannot be used. */
export function ensureDataDir(config: Config): void {
  try {
    mkdirSync(config.dataDir, { recursive: true, mode: 0o750 });
    accessSync(config.dataDir, constants.R_OK | constants.W_OK | constants.X_OK);
  } catch (error) {
    throw new StartRefusal(
      `Cannot write into ${config.dataDir} (${(error as { code?: string }).code}): make it belong to the user who starts Middenry, or set DATA_DIR.`,
    );
  }
}

/**
 * Opens the store of this start and brings it to this program's schema.
 *
 * Where a programme of one's own once was, a missing or empty file is never quietly replaced by a
 * new one: it would look as if everything had been lost, and new entries would hide the old file.
 */
export function openDataFile(config: Config, migrationsDir: string, now: Date): Store {
  const file = fileOf(config);
  refuseVanished(config, file);
  refuseNewerSchema(file, migrationsDir);
  const store = openStore({ file, allowNetworkDisk: config.allowNetworkDisk });
  try {
    refuseDamaged(store, file);
    migrate(store, { dir: migrationsDir, copyDir: backupDirOf(config), now });
  } catch (error) {
    store.sqlite.close();
    throw error;
  }
  if (config.own && !existsSync(markerOf(config)))
    writeFileSync(markerOf(config), `A programme of your own began here on ${now.toISOString()}. Keep this file beside own.db.\n`);
  return store;
}

/** Wrong figures are worse than none: a damaged file is not served, and not written to either. */
function refuseDamaged(store: Store, file: string): void {
  const verdict = store.sqlite.pragma('quick_check(1)', { simple: true });
  if (verdict === 'ok') return;
  throw new StartRefusal(
    `Cannot open ${file} as it is damaged (${String(verdict).split('\n').at(-1)}): bring the newest backup back with "npx middenry restore". The damaged file is kept beside it.`,
  );
}

function refuseVanished(config: Config, file: string): void {
  if (!config.own || !existsSync(markerOf(config))) return;
  if (existsSync(file) && statSync(file).size > 0) return;
  throw new StartRefusal(
    `Cannot find your programme: ${file} is ${existsSync(file) ? 'empty' : 'missing'} although it was begun here. Bring it back with "npx middenry restore", or delete ${markerOf(config)} to begin anew.`,
    EXIT.storeMissing,
  );
}
