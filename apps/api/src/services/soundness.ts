/** Watches whether the store is sound; where it is not, nothing more is written until a backup is back (criteria F11). */
import { copyFileSync, existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Clock } from '../context.ts';
import { listBackups } from '../db/keep/backup.ts';
import { check as checkBeside, prove } from '../db/keep/beside.ts';

const HOUR_MS = 3_600_000;
const CHECK_HOURS = 1;
/** What a disk does by itself no file tells: after so long even an untouched one is read again. */
const KNOWN_MS = 60_000;

export interface Damage {
  readonly since: string;
  /** What the check or the store said. */
  readonly words: string;
  /** Name of the copy of the damaged file; null where it could not be made. */
  readonly keptAs: string | null;
  /** Name of the newest backup, which was read back whole when it was made. */
  readonly newestBackup: string | null;
}

export interface Soundness {
  /** Null as long as nothing is wrong. */
  damage(): Damage | null;
  /** When the whole file was last read and found sound; null before the first time. */
  lastSoundAt(): string | null;
  /** Checks the whole file once an hour, and again at once after a start that follows a bad check. */
  look(): Promise<boolean>;
  /**
   * Whether all that was read until now came from a sound file: asked after the reading, of a check that began later, or
   * of one since which no byte of the file was written. False: it is damaged, and nothing that was read may be told.
   */
  sure(): Promise<boolean>;
  /** The store itself said that it is damaged. */
  found(words: string): void;
}

export interface SoundnessOptions {
  readonly clock: Clock;
  readonly file: string;
  readonly backupDir: string;
  readonly name: 'own' | 'demo';
  /** Reads the file whole; left out: in a thread of its own. */
  readonly check?: ((file: string) => Promise<void>) | undefined;
}

export function soundnessOf({ clock, file, backupDir, name, check = checkBeside }: SoundnessOptions): Soundness {
  const noteFile = `${file}.checked`;
  const opened = inodeOf(file);
  let damage: Damage | null = null;
  const found = (words: string) => {
    damage ??= {
      since: clock.now().toISOString(),
      words,
      keptAs: keepCopy(file, clock.now()),
      newestBackup: newestOf(backupDir, name),
    };
  };
  let known: Known | null = null;
  let running: Promise<void> | null = null;
  let next: Promise<void> | null = null;
  const checkNow = async () => {
    const began: Known = { writing: writingOf(file), atMs: performance.now() };
    // What looks like damage once may be a file that another program held for a moment.
    await check(file)
      .catch(() => check(file))
      .then(
        () => {
          known = began;
        },
        (error: Error) => found(error.message),
      );
  };
  /** Whoever comes while one is running waits for the next, as that one began too early for them; all of them for the same. */
  const checkSoon = (): Promise<void> => {
    if (next !== null) return next;
    const mine: Promise<void> = (running ?? Promise.resolve()).then(() => {
      running = mine;
      next = null;
      return checkNow();
    });
    next = mine;
    return mine;
  };
  const damageNow = (): Damage | null => {
    // What is written into a file without a name is kept by nobody.
    if (damage === null && inodeOf(file) !== opened) found('the file is no longer in its place');
    return damage;
  };
  return {
    async sure() {
      if (!isKnown(known, file)) await checkSoon();
      return damageNow() === null;
    },
    damage: damageNow,
    lastSoundAt: () => (existsSync(noteFile) ? readFileSync(noteFile, 'utf8') : null),
    found,
    async look() {
      if (damage !== null || hoursSinceChecked(noteFile, clock) < CHECK_HOURS) return false;
      try {
        await prove(file, { mayBeLeft: true });
        writeFileSync(noteFile, clock.now().toISOString());
      } catch (error) {
        found((error as Error).message);
      }
      return true;
    },
  };
}

interface Known {
  /** How the files stood when the check began. */
  readonly writing: string;
  /** By a clock that nobody can set. */
  readonly atMs: number;
}

const isKnown = (known: Known | null, file: string): boolean =>
  known !== null && performance.now() - known.atMs < KNOWN_MS && writingOf(file) === known.writing;

/** Differs once anybody has written into the store or its log. */
function writingOf(file: string): string {
  return ['', '-wal']
    .map((tail) => statSync(file + tail, { bigint: true, throwIfNoEntry: false }))
    .map((stat) => (stat === undefined ? 'none' : [stat.ino, stat.size, stat.mtimeNs, stat.ctimeNs].join(' ')))
    .join(', ');
}

/** A clock that went back counts as long gone by: one check too many harms nobody. */
function hoursSinceChecked(noteFile: string, clock: Clock): number {
  const at = existsSync(noteFile) ? Date.parse(readFileSync(noteFile, 'utf8')) : Number.NaN;
  const hours = (clock.now().getTime() - at) / HOUR_MS;
  return hours >= 0 ? hours : Number.POSITIVE_INFINITY;
}

/** Which file lies under this name; undefined for none, or for a disk that cannot say. */
function inodeOf(file: string): bigint | undefined {
  try {
    return statSync(file, { bigint: true }).ino;
  } catch {
    return undefined;
  }
}

function newestOf(backupDir: string, name: 'own' | 'demo'): string | null {
  const newest = listBackups(backupDir, name)[0];
  return newest === undefined ? null : basename(newest.file);
}

/** Whatever can still be read out of it may be wanted, so it stays under a name of its own. */
function keepCopy(file: string, now: Date): string | null {
  const copy = join(file, '..', `damaged-${now.toISOString().replace(/[:.]/g, '-')}.db`);
  try {
    for (const tail of ['', '-wal']) if (existsSync(file + tail)) copyFileSync(file + tail, copy + tail);
    return basename(copy);
  } catch {
    return null;
  }
}
