import { existsSync, readFileSync, statfsSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Clock } from '../context.ts';
import { isBelievable } from '../db/clock-sense.ts';
import { BACKUP_DAYS, type BackupFile, dropOldBackups, listBackups, makeBackup } from '../db/keep/backup.ts';
import { drillBeside } from '../db/keep/beside.ts';
import { type ErasureList, erasuresInFolder, writeErasures } from '../db/keep/erasures.ts';
import { clearAway, daysBefore } from '../db/keep/retention.ts';
import { foldLog } from '../db/open-note.ts';
import { lastAuditId } from '../db/repositories/audit.ts';
import { lastChangeId } from '../db/repositories/change.ts';
import { photoFiles } from '../db/repositories/photo.ts';
import type { Store } from '../db/store.ts';
import { takeAwayNow } from '../photos/shelf.ts';
import type { Soundness } from './soundness.ts';

const LOOK_MS = 5 * 60_000;
const HOUR_MS = 3_600_000;
const DAY_HOURS = 24;
/** By so much more than time went on, somebody set the clock forward. */
const JUMP_HOURS = 6;
const DRILL_DAYS = 30;
const DRILL_OVERDUE_DAYS = 35;
const LOW_BYTES = 500 * 1024 * 1024;
const LOW_FRAC = 0.1;

interface Drill {
  readonly at: string;
  readonly ok: boolean;
  readonly words: string;
}

export interface KeeperStatus {
  readonly backups: readonly BackupFile[];
  /** Since when something is in no backup, to within a look; null: the newest holds all. */
  readonly changedSince: string | null;
  readonly lastDrill: Drill | null;
  readonly drillOverdue: boolean;
  readonly lastFault: string | null;
  readonly freeBytes: number;
  readonly storeBytes: number;
  readonly diskLow: boolean;
}

/** Looks after backups, drills and old rows by itself. */
export interface Keeper {
  /** Does whatever is due now; gives what it did. */
  look(): Promise<readonly string[]>;
  backUp(kind: 'hourly' | 'asked-for'): Promise<BackupFile>;
  /** Writes down beside the backups who was erased and what was withdrawn. */
  noteErasures(): void;
  /** What stands there of it; null: nothing. */
  knownErasures(): ErasureList | null;
  status(): KeeperStatus;
  start(): void;
  stop(): void;
}

export interface KeeperOptions {
  readonly store: Store;
  readonly clock: Clock;
  /** File of the store. */
  readonly file: string;
  readonly dir: string;
  readonly name: 'own' | 'demo';
  /** Where the photos lie. */
  readonly photoDir: string;
  readonly migrationsDir: string;
  /** The demonstration needs no hourly backup: it is made anew from its story. */
  readonly hourly: boolean;
  readonly soundness?: Soundness | undefined;
  /** A clock that nobody can set [ms]; left out, the other one is believed. */
  readonly uptimeMs?: (() => number) | undefined;
}

export function keeperOf(options: KeeperOptions): Keeper {
  const { store, clock, dir, name, migrationsDir, photoDir } = options;
  const drillFile = join(dir, `drill-${name}.json`);
  let lastFault: string | null = null;
  let running: Promise<BackupFile> | null = null;
  let timer: NodeJS.Timeout | undefined;
  const hoursSince = (at: string) => (clock.now().getTime() - Date.parse(at)) / HOUR_MS;
  // A clock that was put back must not stop the backups until it has caught up again.
  const isLongAgo = (at: string | undefined, hours: number) => at === undefined || hoursSince(at) < 0 || hoursSince(at) >= hours;
  const isSteady = steadiness(options);
  let lastMadeAt: string | undefined;

  const noteErasures = () => {
    try {
      writeErasures(store.sqlite, { dir, name, now: clock.now() });
      foldLog(store);
    } catch (error) {
      lastFault = (error as Error).message;
    }
  };
  // Two copies at once would only slow each other down; whoever asks meanwhile gets the one that runs.
  const backUp = (kind: 'hourly' | 'asked-for') => {
    running ??= makeBackup(store, { dir, name, kind, now: clock.now(), photoDir })
      .then((made) => {
        lastFault = null;
        lastMadeAt = made.manifest.madeAt;
        noteErasures();
        return made;
      })
      .catch((error: Error) => {
        lastFault = error.message;
        throw error;
      })
      .finally(() => {
        running = null;
      });
    return running;
  };
  const readDrill = (): Drill | null => (existsSync(drillFile) ? (JSON.parse(readFileSync(drillFile, 'utf8')) as Drill) : null);

  // When a change came stands in no row; what was done before this process is backed up at its start.
  let unkept: { readonly after: string; readonly since: string } | null = null;
  const changedSince = (newest: BackupFile | undefined): string | null => {
    if (!isChanged(newest)) unkept = null;
    else if (unkept?.after !== (newest?.file ?? '')) unkept = { after: newest?.file ?? '', since: clock.now().toISOString() };
    return unkept?.since ?? null;
  };
  const isChanged = (newest: BackupFile | undefined) => {
    if (newest === undefined) return true;
    const { lastChange, lastAudit } = newest.manifest.facts;
    return lastChangeId(store) !== lastChange || lastAuditId(store) !== lastAudit;
  };
  const look = async () => {
    const did: string[] = [];
    if (await options.soundness?.look()) did.push('read the whole store');
    // A copy of a damaged store would only push the sound ones out.
    if (options.soundness !== undefined && options.soundness.damage() !== null) return did;
    const newest = listBackups(dir, name)[0];
    changedSince(newest);
    // By a clock that somebody set, nothing is old.
    const mayDrop = isSteady() && isBelievable(clock.now());
    const cleared = mayDrop ? clearWithPhotos(options) : 0;
    if (cleared > 0) {
      did.push(`cleared ${cleared} old rows away`);
      noteErasures();
    }
    // A quiet programme is copied once a month too, or its last copies would grow old with what is no longer kept.
    const dueHours = isChanged(newest) ? 1 : DRILL_DAYS * DAY_HOURS;
    if (options.hourly && isLongAgo(newest?.manifest.madeAt, dueHours) && isLongAgo(lastMadeAt, dueHours)) {
      did.push(`backed up to ${(await backUp('hourly')).file}`);
      if (mayDrop) did.push(...dropOldBackups(dir, name, daysBefore(clock.now(), BACKUP_DAYS)).map((file) => `dropped ${file}`));
    }
    const last = readDrill();
    const backup = listBackups(dir, name)[0];
    if (backup !== undefined && isLongAgo(last?.at, DRILL_DAYS * DAY_HOURS)) {
      const result = { at: clock.now().toISOString(), ...(await drillBeside(backup.file, migrationsDir, clock.now())) };
      writeFileSync(drillFile, JSON.stringify(result));
      did.push(`drill: ${result.words}`);
    }
    return did;
  };
  return {
    look,
    backUp,
    noteErasures,
    knownErasures: () => erasuresInFolder(dir, name),
    status() {
      const last = readDrill();
      const { bavail, bsize, blocks } = statfsSync(dir.length > 0 && existsSync(dir) ? dir : options.file);
      const freeBytes = bavail * bsize;
      const backups = listBackups(dir, name);
      return {
        backups,
        changedSince: changedSince(backups[0]),
        lastDrill: last,
        drillOverdue: options.hourly && last !== null && hoursSince(last.at) > DRILL_OVERDUE_DAYS * DAY_HOURS,
        lastFault,
        freeBytes,
        storeBytes: statSync(options.file, { throwIfNoEntry: false })?.size ?? 0,
        diskLow: isLow(freeBytes, blocks * bsize),
      };
    },
    start() {
      // A fault is kept in the status; the next look tries again.
      const tick = () =>
        void look().catch((error: Error) => {
          lastFault = error.message;
        });
      tick();
      timer = setInterval(tick, LOOK_MS);
      timer.unref();
    },
    stop() {
      clearInterval(timer);
    },
  };
}

/** Below 500 MB or a tenth of the disk somebody should look (criteria F12). */
export const isLow = (freeBytes: number, diskBytes: number): boolean => freeBytes < LOW_BYTES || freeBytes < diskBytes * LOW_FRAC;

/** Old rows go, and then the files of those photos whose rows have gone. */
function clearWithPhotos({ store, clock, photoDir }: KeeperOptions): number {
  const before = photoFiles(store);
  const cleared = clearAway(store, clock.now());
  if (cleared === 0) return 0;
  const still = photoFiles(store);
  takeAwayNow(
    photoDir,
    [...before].filter((file) => !still.has(file)),
  );
  return cleared;
}

/**
 * Says whether the clock only went on since the last time; a day after somebody set it forward it is
 * believed again. What is kept for so many days would else be cleared away by a slip of the hand.
 */
function steadiness({ clock, uptimeMs }: KeeperOptions): () => boolean {
  if (uptimeMs === undefined) return () => true;
  let before = { clock: clock.now().getTime(), uptime: uptimeMs() };
  let believedFrom = Number.NEGATIVE_INFINITY;
  return () => {
    const now = { clock: clock.now().getTime(), uptime: uptimeMs() };
    const jumpMs = now.clock - before.clock - (now.uptime - before.uptime);
    if (jumpMs > JUMP_HOURS * HOUR_MS) believedFrom = now.uptime + DAY_HOURS * HOUR_MS;
    before = now;
    return now.uptime >= believedFrom;
  };
}
