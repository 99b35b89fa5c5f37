import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { type Config, readConfig } from '../config.ts';
import { migrate, refuseNewerSchema } from '../db/migrate.ts';
import { openStore } from '../db/open.ts';
import { closeInOrder, noteOpen, refuseOtherLog } from '../db/open-note.ts';
import type { Store } from '../db/store.ts';
import { projectRoot } from '../root.ts';
import { backupDirOf, ensureDataDir, fileOf } from '../start/data-dir.ts';
import { lockDataDir } from '../start/lock.ts';
import { EXIT, StartRefusal } from '../start-refusal.ts';

export const migrationsDir = join(projectRoot, 'migrations');

/** Settings of a command: a programme of one's own unless `--demo` says otherwise. */
export function placeOf(args: readonly string[]): { readonly config: Config; readonly rest: readonly string[] } {
  const isDemo = args.includes('--demo');
  const rest = args.filter((arg) => !arg.startsWith('--demo'));
  const { PORT: _port, HOST: _host, PUBLIC_URL: _url, TRUSTED_PROXY: _proxy, OWN: _own, ...env } = process.env;
  return { config: readConfig(env, isDemo ? [] : ['--own']), rest };
}

export const nameOf = (config: Config): 'own' | 'demo' => (config.own ? 'own' : 'demo');

/** Does something with the store while no server runs on it. */
export async function withStore<T>(config: Config, work: (store: Store) => T | Promise<T>): Promise<T> {
  const file = fileOf(config);
  if (!existsSync(file)) throw new StartRefusal(`There is no ${file} yet: start the server first, or restore a backup.`, EXIT.storeMissing);
  ensureDataDir(config);
  const lock = lockDataDir(config.dataDir);
  try {
    refuseOtherLog(file);
    refuseNewerSchema(file, migrationsDir);
    const store = openStore({ file, allowNetworkDisk: config.allowNetworkDisk });
    noteOpen(store, new Date());
    try {
      migrate(store, { dir: migrationsDir, copyDir: backupDirOf(config), now: new Date() });
      return await work(store);
    } finally {
      closeInOrder(store);
    }
  } finally {
    lock.release();
  }
}
