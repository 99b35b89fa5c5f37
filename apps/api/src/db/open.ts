import { statfsSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { StartRefusal } from '../start-refusal.ts';
import { noteClosed } from './open-note.ts';
import { type Store, storeOf } from './store.ts';

const BUSY_TIMEOUT_MS = 5000;

/** Magic numbers of file systems whose locks or whose memory cannot be trusted, from statfs(2). */
const FAR_FILE_SYSTEMS = new Map([
  [0x6969, 'NFS'],
  [0xff534d42, 'CIFS'],
  [0xfe534d42, 'SMB'],
  [0x01021997, '9p'],
  [0x65735546, 'FUSE'],
]);

/** What was measured of a connection after its settings were made. */
export interface StoreFacts {
  readonly file: string;
  readonly sqliteVersion: string;
  readonly journalMode: string;
  /** 0 off, 1 normal, 2 full, 3 extra. */
  readonly synchronous: number;
  readonly foreignKeys: number;
  readonly mmapSizeBytes: number;
  readonly busyTimeoutMs: number;
  readonly fileSystemType: number;
}

export interface OpenOptions {
  readonly file: string;
  /** Somebody who knows better says that the network disk keeps its locks. */
  readonly allowNetworkDisk?: boolean;
  /** Only for a file that is thrown away when anything goes wrong, such as a demonstration being made. */
  readonly throwAway?: boolean;
}

/**
 * Opens the store with the only settings we trust, measures that they hold, and refuses otherwise.
 *
 * @throws {StartRefusal} with one plain sentence
 */
export function openStore(options: OpenOptions): Store {
  const sqlite = openFile(options.file);
  try {
    sqlite.pragma('journal_mode = WAL');
    sqlite.pragma('synchronous = FULL');
    sqlite.pragma('foreign_keys = ON');
    sqlite.pragma('mmap_size = 0');
    // What is deleted is overwritten, or it would lie in the file and in each backup until by chance something else is written there.
    sqlite.pragma('secure_delete = ON');
    sqlite.pragma(`busy_timeout = ${BUSY_TIMEOUT_MS}`);
    const words = reasonToRefuse(measure(sqlite, options.file), options.allowNetworkDisk ?? false);
    if (words !== null) throw new StartRefusal(words);
    if (options.throwAway) sqlite.pragma('synchronous = OFF');
    return storeOf(sqlite);
  } catch (error) {
    // Closing folds the log in.
    noteClosed(options.file);
    sqlite.close();
    throw error instanceof StartRefusal ? error : unreadable(options.file, error);
  }
}

function openFile(file: string): Database.Database {
  try {
    return new Database(file);
  } catch (error) {
    throw unreadable(file, error);
  }
}

function unreadable(file: string, error: unknown): StartRefusal {
  const why = error instanceof Error ? error.message : 'unknown fault';
  return new StartRefusal(
    `Cannot open ${file} as it is not a readable, writable database (${why}): check who owns the file and its folder, or restore a backup with "npx middenry restore".`,
  );
}

function measure(sqlite: Database.Database, file: string): StoreFacts {
  const number = (pragma: string) => Number(sqlite.pragma(pragma, { simple: true }));
  return {
    file,
    sqliteVersion: String(sqlite.prepare('SELECT sqlite_version()').pluck().get()),
    journalMode: String(sqlite.pragma('journal_mode', { simple: true })),
    synchronous: number('synchronous'),
    foreignKeys: number('foreign_keys'),
    // A build without memory mapping answers this pragma with nothing at all.
    mmapSizeBytes: Number(sqlite.pragma('mmap_size', { simple: true }) ?? 0),
    busyTimeoutMs: number('busy_timeout'),
    fileSystemType: statfsSync(dirname(file)).type >>> 0,
  };
}

/**
 * Why this connection must not be used, or null when it may.
 *
 * SQLite 3.7.0 to 3.51.2 can corrupt a WAL that two connections write and checkpoint at once, and
 * 3.52.0 was withdrawn; FULL is what keeps an acknowledged entry through a power cut.
 */
export function reasonToRefuse(facts: StoreFacts, allowNetworkDisk: boolean): string | null {
  const cannot = (rule: string, value: unknown) => `Cannot use ${facts.file} as ${rule}: current value is ${value}.`;
  if (facts.sqliteVersion === '3.52.0' || isOlder(facts.sqliteVersion, [3, 51, 3]))
    return cannot('SQLite must be 3.51.3 or newer and not 3.52.0', facts.sqliteVersion);
  if (facts.journalMode !== 'wal') return cannot('the journal mode must be wal', facts.journalMode);
  if (facts.synchronous < 2) return cannot('synchronous must be FULL', facts.synchronous);
  if (facts.foreignKeys !== 1) return cannot('foreign keys must be on', facts.foreignKeys);
  if (facts.mmapSizeBytes !== 0) return cannot('the file must not be memory mapped', facts.mmapSizeBytes);
  if (facts.busyTimeoutMs < BUSY_TIMEOUT_MS) return cannot(`the busy time-out must be ${BUSY_TIMEOUT_MS} ms or more`, facts.busyTimeoutMs);
  const far = FAR_FILE_SYSTEMS.get(facts.fileSystemType);
  if (far !== undefined && !allowNetworkDisk)
    return `${cannot('the data folder must be on a local disk', far)} Set ALLOW_NETWORK_DISK=yes only if its locks are known to work.`;
  return null;
}

function isOlder(version: string, least: readonly [number, number, number]): boolean {
  const parts = version.split('.').map(Number);
  for (const [place, wanted] of least.entries()) {
    const have = parts[place] ?? 0;
    if (have !== wanted) return have < wanted;
  }
  return false;
}
