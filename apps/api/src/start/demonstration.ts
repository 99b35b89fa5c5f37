import { existsSync, renameSync, rmSync } from 'node:fs';
import type { FastifyInstance } from 'fastify';
import { buildApp } from '../app.ts';
import type { Config } from '../config.ts';
import { type MovableClock, movableClock } from '../context.ts';
import { migrate } from '../db/migrate.ts';
import { openStore } from '../db/open.ts';
import { STORE_TAILS } from '../db/open-note.ts';
import { backupDirOf, fileOf } from './data-dir.ts';

export type MakeDemo = (app: FastifyInstance, options: { readonly clock: MovableClock }) => Promise<void>;

/**
 * Makes the demonstration when there is none, or anew when that was asked for.
 *
 * It grows in a file beside and takes its name only when whole, so that a start that is cut short
 * leaves nothing half made; nothing of it is worth a sync to disk before that.
 *
 * @returns Whether it had to be made
 */
export async function ensureDemo(config: Config, migrationsDir: string, now: Date, makeDemo: MakeDemo): Promise<boolean> {
  const file = fileOf(config);
  if (existsSync(file) && !config.renewDemo) return false;
  const part = `${file}.part`;
  for (const rest of [part, `${part}-wal`, `${part}-shm`]) rmSync(rest, { force: true });
  const store = openStore({ file: part, allowNetworkDisk: config.allowNetworkDisk, throwAway: true });
  try {
    migrate(store, { dir: migrationsDir, copyDir: backupDirOf(config), now });
    const clock = movableClock(now);
    const app = await buildApp({ store, clock, config });
    await makeDemo(app, { clock });
    await app.close();
    store.sqlite.pragma('synchronous = FULL');
    store.sqlite.pragma('wal_checkpoint(TRUNCATE)');
  } finally {
    store.sqlite.close();
  }
  // The old one goes only now that the new one is whole.
  for (const tail of STORE_TAILS) rmSync(file + tail, { force: true });
  renameSync(part, file);
  return true;
}
