/** A served store of which a page is overwritten while it is in use, and what it then says of its sums (criteria F11). */
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { buildApp } from '../../apps/api/src/app.ts';
import { readConfig } from '../../apps/api/src/config.ts';
import { movableClock } from '../../apps/api/src/context.ts';
import { openStore } from '../../apps/api/src/db/open.ts';
import { soundnessOf } from '../../apps/api/src/services/soundness.ts';

export interface Served {
  readonly file: string;
  /** As a coordinator. */
  ask(url: string): Promise<{ readonly status: number; readonly text: string }>;
  stop(): Promise<void>;
}

/** Serves a copy of a store; what it has in memory of it is only what a start reads. */
export async function serveCopy(sound: string, at: string, coordinatorId: string): Promise<Served> {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-sums-'));
  const file = join(dir, 'own.db');
  copyFileSync(sound, file);
  const clock = movableClock(new Date(at));
  const store = openStore({ file });
  const soundness = soundnessOf({ clock, file, backupDir: join(dir, 'backups'), name: 'own' });
  const app: FastifyInstance = await buildApp({ store, clock, config: readConfig({ DATA_DIR: dir }, []), soundness });
  const cookie = app.middenry.cookieOf(coordinatorId, 'demo');
  // What was just written would else be read from the log beside the file.
  store.sqlite.pragma('wal_checkpoint(TRUNCATE)');
  return {
    file,
    async ask(url) {
      const answer = await app.inject({ url, headers: { cookie } }).catch((error: Error) => ({ statusCode: 0, body: error.message }));
      return { status: answer.statusCode, text: answer.body };
    },
    async stop() {
      await app.close();
      store.sqlite.close();
      rmSync(dir, { recursive: true, force: true });
    },
  };
}
