/** Runs of the model kept between starts. Never backed up, never exported; the file may be deleted at any time. */
import { rmSync } from 'node:fs';
import Database from 'better-sqlite3';

/** A run as it was at the end of a day. */
export interface CachedRun {
  readonly day: number;
  /** First day of which it holds what every member read. */
  readonly tracksFromDay: number;
  /** Says all that the run rests on. */
  readonly restsOn: string;
  readonly surprises: string;
  readonly state: Buffer;
}

export interface CachedRow {
  readonly day: number;
  readonly quantities: Buffer;
}

export interface CachedLook {
  readonly restsOn: string;
  readonly bands: string;
}

/** An outlook as it was last told of a bin. */
export interface CachedOutlook {
  readonly restsOn: string;
  readonly outlook: Buffer;
}

export interface RunCache {
  toldOf(bin: number): CachedOutlook | undefined;
  /** Puts it in place of the one before. */
  saveTold(bin: number, told: CachedOutlook): void;
  /** Runs of a bin that ended before a day, latest first; without their state. */
  runsBefore(bin: number, day: number): readonly Omit<CachedRun, 'state'>[];
  stateOf(bin: number, run: Pick<CachedRun, 'day' | 'tracksFromDay'>): Buffer;
  rowsUntil(bin: number, day: number): readonly CachedRow[];
  /** Puts runs and rows in place of whatever came after a day. */
  save(bin: number, afterDay: number, found: { readonly runs: readonly CachedRun[]; readonly rows: readonly CachedRow[] }): void;
  /** What a bin's signals looked like on a day: text, and what it rests on. */
  lookOn(bin: number, day: number): CachedLook | undefined;
  saveLook(bin: number, day: number, look: CachedLook): void;
  /** Whether the file has grown so far that runs of further bins are no longer kept. */
  isFull(): boolean;
  drop(bin: number, runs: readonly Pick<CachedRun, 'day' | 'tracksFromDay'>[]): void;
  close(): void;
}

/** Raised with every change of the tables: a file of another number is made anew. */
const VERSION = 3;

const TABLES = `
  CREATE TABLE IF NOT EXISTS kept_run (
    bin INTEGER NOT NULL, day INTEGER NOT NULL, tracks_from_day INTEGER NOT NULL,
    rests_on TEXT NOT NULL, surprises TEXT NOT NULL, state BLOB NOT NULL,
    PRIMARY KEY (bin, day, tracks_from_day)
  ) STRICT;
  CREATE TABLE IF NOT EXISTS kept_row (
    bin INTEGER NOT NULL, day INTEGER NOT NULL, quantities BLOB NOT NULL,
    PRIMARY KEY (bin, day)
  ) STRICT, WITHOUT ROWID;
  CREATE TABLE IF NOT EXISTS kept_look (
    bin INTEGER NOT NULL, day INTEGER NOT NULL, rests_on TEXT NOT NULL, bands TEXT NOT NULL,
    PRIMARY KEY (bin, day)
  ) STRICT, WITHOUT ROWID;
  CREATE TABLE IF NOT EXISTS kept_outlook (
    bin INTEGER NOT NULL PRIMARY KEY, rests_on TEXT NOT NULL, outlook BLOB NOT NULL
  ) STRICT;
`;
/** Some thousand bins; the disk is the store's, which nobody can work out anew. */
export const MOST_BYTES = 1_000_000_000;
/** Only yesterday's look is ever asked for. */
const LOOKS_KEPT_DAYS = 2;

/** Opens the file; one that cannot be read is deleted and made anew, since nothing in it is anybody's only copy. */
export function openRunCache(file: string, mostBytes = MOST_BYTES): RunCache {
  try {
    return cacheOver(opened(file), mostBytes);
  } catch {
    removeRunCache(file);
    return cacheOver(opened(file), mostBytes);
  }
}

export function removeRunCache(file: string): void {
  for (const end of ['', '-wal', '-shm']) rmSync(`${file}${end}`, { force: true });
}

function opened(file: string): Database.Database {
  const db = new Database(file);
  try {
    db.pragma('journal_mode = WAL');
    // What a power cut takes is worked out again; NORMAL keeps the file whole.
    db.pragma('synchronous = NORMAL');
    const version = Number(db.pragma('user_version', { simple: true }));
    if (version !== 0 && version !== VERSION) throw new RangeError(`Cannot read a cache of another version: current value is ${version}`);
    db.exec(TABLES);
    db.pragma(`user_version = ${VERSION}`);
    return db;
  } catch (error) {
    db.close();
    throw error;
  }
}

function cacheOver(db: Database.Database, mostBytes: number): RunCache {
  const runs = db.prepare(
    'SELECT day, tracks_from_day AS tracksFromDay, rests_on AS restsOn, surprises FROM kept_run WHERE bin = ? AND day < ? ORDER BY day DESC, tracks_from_day',
  );
  const state = db.prepare('SELECT state FROM kept_run WHERE bin = ? AND day = ? AND tracks_from_day = ?').pluck();
  const rows = db.prepare('SELECT day, quantities FROM kept_row WHERE bin = ? AND day <= ? ORDER BY day');
  const forgetRuns = db.prepare('DELETE FROM kept_run WHERE bin = ? AND day > ?');
  const forgetRows = db.prepare('DELETE FROM kept_row WHERE bin = ? AND day > ?');
  const addRun = db.prepare(
    'INSERT OR REPLACE INTO kept_run (bin, day, tracks_from_day, rests_on, surprises, state) VALUES (?, ?, ?, ?, ?, ?)',
  );
  const addRow = db.prepare('INSERT OR REPLACE INTO kept_row (bin, day, quantities) VALUES (?, ?, ?)');
  const dropRun = db.prepare('DELETE FROM kept_run WHERE bin = ? AND day = ? AND tracks_from_day = ?');
  const look = db.prepare('SELECT rests_on AS restsOn, bands FROM kept_look WHERE bin = ? AND day = ?');
  const addLook = db.prepare('INSERT OR REPLACE INTO kept_look (bin, day, rests_on, bands) VALUES (?, ?, ?, ?)');
  const dropLooks = db.prepare('DELETE FROM kept_look WHERE bin = ? AND day < ?');
  const told = db.prepare('SELECT rests_on AS restsOn, outlook FROM kept_outlook WHERE bin = ?');
  const usedBytes = db
    .prepare('SELECT (c.page_count - f.freelist_count) * s.page_size FROM pragma_page_count c, pragma_freelist_count f, pragma_page_size s')
    .pluck();
  const tell = db.prepare('INSERT OR REPLACE INTO kept_outlook (bin, rests_on, outlook) VALUES (?, ?, ?)');
  return {
    toldOf: (bin) => told.get(bin) as CachedOutlook | undefined,
    saveTold: (bin, { restsOn, outlook }) => void tell.run(bin, restsOn, outlook),
    lookOn: (bin, day) => look.get(bin, day) as CachedLook | undefined,
    saveLook: (bin, day, { restsOn, bands }) => {
      addLook.run(bin, day, restsOn, bands);
      dropLooks.run(bin, day - LOOKS_KEPT_DAYS);
    },
    runsBefore: (bin, day) => runs.all(bin, day) as Omit<CachedRun, 'state'>[],
    stateOf: (bin, run) => state.get(bin, run.day, run.tracksFromDay) as Buffer,
    rowsUntil: (bin, day) => rows.all(bin, day) as CachedRow[],
    isFull: () => Number(usedBytes.get()) >= mostBytes,
    save: db.transaction((bin, afterDay, found) => {
      forgetRuns.run(bin, afterDay);
      forgetRows.run(bin, afterDay);
      for (const run of found.runs) addRun.run(bin, run.day, run.tracksFromDay, run.restsOn, run.surprises, run.state);
      for (const row of found.rows) addRow.run(bin, row.day, row.quantities);
    }) as RunCache['save'],
    drop: db.transaction((bin, gone) => {
      for (const run of gone) dropRun.run(bin, run.day, run.tracksFromDay);
    }) as RunCache['drop'],
    close: () => void db.close(),
  };
}
