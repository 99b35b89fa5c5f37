import { join } from 'node:path';
import Database from 'better-sqlite3';
import { EXIT, StartRefusal } from '../start-refusal.ts';

export interface Lock {
  release(): void;
}

/**
 * Keeps a second process off this data folder.
 *
 * A lock held by SQLite on a file of its own is given back by the system itself when a process
 * dies, however it dies; a file with a process number in it is not.
 *
 * @throws {StartRefusal} exit code 5, at once
 */
export function lockDataDir(dataDir: string): Lock {
  const file = join(dataDir, 'middenry.lock');
  let sqlite: Database.Database;
  try {
    sqlite = new Database(file, { timeout: 0 });
  } catch (error) {
    throw new StartRefusal(`Cannot write into ${dataDir} (${(error as Error).message}): make it belong to the user who starts Middenry.`);
  }
  try {
    sqlite.pragma('journal_mode = DELETE');
    sqlite.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    sqlite.close();
    if ((error as { code?: string }).code === 'SQLITE_BUSY')
      throw new StartRefusal(
        `Another Middenry is already running on ${dataDir}: stop it first, or give this one another DATA_DIR.`,
        EXIT.alreadyRunning,
      );
    throw new StartRefusal(`Cannot lock ${dataDir} (${(error as Error).message}): make it belong to the user who starts Middenry.`);
  }
  return { release: () => void sqlite.close() };
}
