/** A note beside the store for as long as it is open: by it a start knows that the last run did not end in order, and which log is its own. */
import { closeSync, existsSync, openSync, readFileSync, readSync, rmSync, writeFileSync } from 'node:fs';
import { StartRefusal } from '../start-refusal.ts';
import type { Store } from './store.ts';

/** What belongs to one store: its file, its log, the log's index, this note. */
export const STORE_TAILS = ['', '-wal', '-shm', '.open'] as const;

/** Where the head of a log has its first salt: a number by chance when it begins, one more each time that it begins again (SQLite's file format, 4.1). */
const SALT_AT_BYTES = 16;
const HEAD_BYTES = 32;
const UINT32 = 2 ** 32;
/** More than a log is begun again in years; by chance another log lies so near once in four thousand times. */
const MOST_BEGINNINGS = 2 ** 20;

const noteOf = (file: string): string => `${file}.open`;

export function noteOpen({ sqlite }: Store, now: Date): void {
  // A log has a head only once something was written.
  sqlite.pragma(`user_version = ${sqlite.pragma('user_version', { simple: true })}`);
  const log = `Log: ${saltOf(sqlite.name)}`;
  writeFileSync(noteOf(sqlite.name), `${log}\nThis store was opened on ${now.toISOString()}. The note goes when it is closed in order.\n`);
}

export const noteClosed = (file: string): void => rmSync(noteOf(file), { force: true });

/** Folds the log into the file and closes it. The note goes first: only before the log is gone does it say anything. */
export function closeInOrder({ sqlite }: Store): void {
  try {
    sqlite.pragma('wal_checkpoint(TRUNCATE)');
  } finally {
    noteClosed(sqlite.name);
    sqlite.close();
  }
}

/** Folds the log into the file and empties it, so that it holds no more what was deleted; not where somebody reads just now, and without waiting. */
export function foldLog({ sqlite }: Store): void {
  const waits = sqlite.pragma('busy_timeout', { simple: true });
  sqlite.pragma('busy_timeout = 0');
  try {
    sqlite.pragma('wal_checkpoint(TRUNCATE)');
  } finally {
    sqlite.pragma(`busy_timeout = ${waits}`);
  }
}

/**
 * Refuses a store whose log was taken away or exchanged after a kill or a power cut: what was
 * entered last is in it alone, and SQLite would open the rest, or take in the other log, without a word.
 *
 * @throws {StartRefusal}
 */
export function refuseOtherLog(file: string): void {
  if (!existsSync(noteOf(file))) return;
  const log = `${file}-wal`;
  if (existsSync(log) && isOwnLog(file)) return;
  throw new StartRefusal(
    `Cannot trust ${file} as its log ${log} is ${existsSync(log) ? "another store's" : 'missing'}: put its own back, restore a backup with "npx middenry restore", or delete ${noteOf(file)} to go on without.`,
  );
}

function isOwnLog(file: string): boolean {
  const noted = /^Log: (\d+)$/m.exec(readFileSync(noteOf(file), 'utf8'))?.[1];
  const salt = saltOf(file);
  // A log that was just folded in is empty.
  if (noted === undefined || salt === null) return true;
  return (salt - Number(noted) + UINT32) % UINT32 < MOST_BEGINNINGS;
}

function saltOf(file: string): number | null {
  const head = Buffer.alloc(HEAD_BYTES);
  const open = openSync(`${file}-wal`, 'r');
  try {
    return readSync(open, head) < HEAD_BYTES ? null : head.readUInt32BE(SALT_AT_BYTES);
  } finally {
    closeSync(open);
  }
}
