import { closeSync, existsSync, fdatasyncSync, fsyncSync, openSync } from 'node:fs';
import { isMainThread } from 'node:worker_threads';
import Database from 'better-sqlite3';

/** About a megabyte at once in a thread of its own; a third of that where requests wait meanwhile. */
const PAGES_AT_ONCE = isMainThread ? 100 : 256;
/** Between two steps, so that the disk has time for others [ms]. */
const REST_MS = 2;

/**
 * Copies a store that is in use, as it stood at one instant: a connection of its own holds that instant while the
 * server goes on writing. What is copied goes to the disk piece by piece, or the next note would wait for all of it.
 */
export async function copyStore(source: string, part: string): Promise<void> {
  const from = new Database(source, { readonly: true, fileMustExist: true });
  let written: number | null = null;
  try {
    from.exec('BEGIN');
    // The instant is that of the first reading.
    from.prepare('SELECT count(*) FROM sqlite_schema').get();
    await from.backup(part, {
      progress: () => {
        if (written === null && existsSync(part)) written = openSync(part, 'r');
        if (written !== null && !isMainThread) {
          fdatasyncSync(written);
          Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, REST_MS);
        }
        return PAGES_AT_ONCE;
      },
    });
    leaveWal(part);
    written ??= openSync(part, 'r');
    fsyncSync(written);
  } finally {
    // Not before: closing a file lets go of every lock that this process has on it.
    if (written !== null) closeSync(written);
    from.close();
  }
}

/** A copy in WAL mode would grow a log beside it each time that somebody looks into it. */
function leaveWal(file: string): void {
  const sqlite = new Database(file);
  try {
    sqlite.pragma('journal_mode = DELETE');
  } finally {
    sqlite.close();
  }
}
