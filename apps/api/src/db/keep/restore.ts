import { randomUUID } from 'node:crypto';
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { migrate, refuseNewerSchema } from '../migrate.ts';
import { openStore } from '../open.ts';
import { closeInOrder, STORE_TAILS } from '../open-note.ts';
import { insertAudit } from '../repositories/audit.ts';
import { write } from '../store.ts';
import { type Again, againDetail, eraseAsKnown } from './erase-again.ts';
import { type ErasureList, erasuresBeside, erasuresIn } from './erasures.ts';
import { differences, type StoreFacts } from './facts.ts';
import { gatherPhotos, photosIn, poolOfBackup, torn } from './photos.ts';
import { manifestOf, type PhotoFact, readManifest, sha256Of, soundFacts, syncToDisk } from './verify.ts';

export interface RestoreOptions {
  readonly backup: string;
  readonly file: string;
  readonly migrationsDir: string;
  readonly copyDir: string;
  readonly now: Date;
  /** Where the restored store will look for its photos; left out, they stay where they are. */
  readonly photoDir?: string | undefined;
}

export interface Restored {
  readonly facts: StoreFacts;
  /** Where the store that was there before has gone. */
  readonly before: string | null;
  readonly photos: number;
  /** Photos that no folder held any more. */
  readonly photosLost: number;
  readonly again: Again;
}

/**
 * What a backup holds, once it has been shown to be what it was.
 *
 * @throws {Error} when it is damaged or not what its manifest says
 */
export function provenFacts(backup: string): StoreFacts {
  const facts = soundFacts(backup);
  if (!existsSync(manifestOf(backup))) return facts;
  const manifest = readManifest(backup);
  if (sha256Of(backup) !== manifest.sha256) throw new Error('the file is not the one that was backed up: its checksum differs');
  const differing = differences(facts, manifest.facts);
  if (differing.length > 0) throw new Error(`the file does not hold what it did: ${differing.join(', ')}`);
  return facts;
}

/** Puts a backup in the store's place; whatever was there is kept beside. The server must not be running. */
export function restore({ backup, file, migrationsDir, copyDir, now, photoDir }: RestoreOptions): Restored {
  const facts = provenFacts(backup);
  refuseNewerSchema(backup, migrationsDir);
  mkdirSync(dirname(file), { recursive: true });
  const part = `${file}.part`;
  for (const rest of [part, `${part}-wal`, `${part}-shm`]) rmSync(rest, { force: true });
  copyFileSync(backup, part);
  const again = makeReady(part, { migrationsDir, copyDir, now, known: knownOf({ backup, file, now }) });
  const photos = photosIn(part);
  const lost = photoDir === undefined ? [] : gatherFor(part, photoDir, { backup, photos });
  const before = setAside(file, copyDir, now);
  if (photoDir !== undefined) swapPhotos(photoDir, join(copyDir, `before-restore-${stampOf(now)}-photos`));
  renameSync(part, file);
  syncToDisk(dirname(file));
  return { facts, before, photos: photos.length - lost.length, photosLost: lost.length, again };
}

const stampOf = (now: Date): string => now.toISOString().replace(/[:.]/g, '-');

/** Puts the photos together beside those that are there; a row whose photo is lost goes, since it would show nothing. */
function gatherFor(
  part: string,
  photoDir: string,
  { backup, photos }: { readonly backup: string; readonly photos: readonly PhotoFact[] },
): readonly PhotoFact[] {
  const lost = gatherPhotos({ live: photoDir, pool: poolOfBackup(backup) }, `${photoDir}.part`, photos);
  const store = openStore({ file: part });
  try {
    write(store, () => {
      for (const { file } of lost) {
        const id = store.sql('SELECT id FROM photo WHERE file = ?').pluck().get(file);
        store.sql('DELETE FROM photo WHERE file = ?').run(file);
        // Lost and not taken off: another backup may still have it.
        store.sql('DELETE FROM photo_gone WHERE id = ?').run(id);
      }
    });
    store.sqlite.pragma('wal_checkpoint(TRUNCATE)');
  } finally {
    store.sqlite.close();
  }
  syncToDisk(part);
  return lost;
}

function swapPhotos(photoDir: string, aside: string): void {
  if (existsSync(photoDir)) renameSync(photoDir, aside);
  renameSync(`${photoDir}.part`, photoDir);
}

interface Ready extends Pick<RestoreOptions, 'migrationsDir' | 'copyDir' | 'now'> {
  readonly known: readonly ErasureList[];
}

/** Who was erased since: by the list beside the backup, and by the store that is there now, unless it is damaged or of long ago. */
function knownOf({ backup, file, now }: Pick<RestoreOptions, 'backup' | 'file' | 'now'>): ErasureList[] {
  const beside = erasuresBeside(backup);
  const here = existsSync(file) ? erasuresHere(file, now) : null;
  return [beside, here].filter((list) => list !== null);
}

function erasuresHere(file: string, now: Date): ErasureList | null {
  try {
    const store = openStore({ file });
    try {
      return { ...erasuresIn(store.sqlite), writtenAt: now.toISOString() };
    } finally {
      closeInOrder(store);
    }
  } catch {
    return null;
  }
}

/** Brings it to today's schema and ends whatever could open it: sessions, codes and open invites of the time of the backup. */
function makeReady(part: string, { migrationsDir, copyDir, now, known }: Ready): Again {
  const store = openStore({ file: part });
  try {
    migrate(store, { dir: migrationsDir, copyDir, now });
    const at = now.toISOString();
    const again = write(store, () => {
      store.sql('UPDATE sign_in_session SET ended_at = ? WHERE ended_at IS NULL').run(at);
      const counted = eraseAsKnown(store, known, now);
      const detail = againDetail(counted);
      store.sql('DELETE FROM device_code').run();
      store.sql('UPDATE invite SET revoked_at = ? WHERE used_at IS NULL AND revoked_at IS NULL').run(at);
      insertAudit(store, { at: now, personId: null, action: 'restored', subject: '', detail, requestId: randomUUID() });
      return counted;
    });
    store.sqlite.pragma('wal_checkpoint(TRUNCATE)');
    return again;
  } finally {
    store.sqlite.close();
    syncToDisk(part);
  }
}

/** The old store is folded together first, or its newest entries would stay behind in its log. */
function setAside(file: string, copyDir: string, now: Date): string | null {
  if (!existsSync(file)) return null;
  mkdirSync(copyDir, { recursive: true });
  const before = join(copyDir, `before-restore-${stampOf(now)}.db`);
  try {
    closeInOrder(openStore({ file }));
  } catch {
    // It may be the very damage that the restore is for; then its files are kept as they are.
  }
  for (const tail of STORE_TAILS) if (existsSync(file + tail)) renameSync(file + tail, before + tail);
  return before;
}

/** Restores a backup into a folder of its own and compares; what it says is for people. */
export function drill(backup: string, migrationsDir: string, now: Date): { readonly ok: boolean; readonly words: string } {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-drill-'));
  try {
    const file = join(dir, 'own.db');
    const { facts, again } = restore({ backup, file, migrationsDir, copyDir: dir, now });
    const restored = soundFacts(file);
    // Whoever was erased since the backup was made is missing, as they must be.
    const wanted: StoreFacts['totals'] = { ...facts.totals, people: facts.totals.people! - again.erased };
    const same = (['fedG', 'harvestedG', 'minutes', 'people', 'entries'] as const).filter((name) => restored.totals[name] !== wanted[name]);
    if (same.length > 0) return { ok: false, words: `After a restore these totals differ: ${same.join(', ')}.` };
    const photos = existsSync(manifestOf(backup)) ? (readManifest(backup).photos ?? []) : [];
    const bad = torn(poolOfBackup(backup), photos);
    if (bad.length > 0) return { ok: false, words: `${bad.length} of ${photos.length} photos beside the backups are missing or damaged.` };
    return { ok: true, words: `${facts.totals.entries} entries and ${facts.totals.people} people came back, all five totals equal.` };
  } catch (error) {
    return { ok: false, words: `The newest backup could not be restored: ${(error as Error).message}.` };
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}
