/** Photos beside a backup: one folder for all backups of a store, since a photo never changes once it has its name. */
import { copyFileSync, existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { type PhotoFact, sha256Of, syncToDisk } from './verify.ts';

export const photoPoolOf = (backupDir: string, name: 'own' | 'demo'): string => join(backupDir, `${name}-photos`);

/** The folder that belongs to a backup, whatever of the two stores it is of. */
export const poolOfBackup = (backup: string): string => photoPoolOf(dirname(backup), basename(backup).startsWith('demo') ? 'demo' : 'own');

/** The photos that a store's file names. */
export function photosIn(file: string): PhotoFact[] {
  const sqlite = new Database(file, { readonly: true, fileMustExist: true });
  try {
    const known = sqlite.prepare("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = 'photo'").get();
    return known === undefined ? [] : (sqlite.prepare('SELECT file, bytes, sha256 FROM photo ORDER BY file').all() as PhotoFact[]);
  } finally {
    sqlite.close();
  }
}

const isWhole = (path: string, { bytes, sha256 }: PhotoFact): boolean =>
  existsSync(path) && statSync(path).size === bytes && sha256Of(path) === sha256;

/**
 * Copies into the pool what is not there yet, each read back; gives the photos that lie in it now.
 * One that was taken off while the backup was made is in no folder any more, and in no manifest.
 */
export async function poolPhotos(from: string, pool: string, wanted: readonly PhotoFact[]): Promise<PhotoFact[]> {
  if (wanted.length > 0) mkdirSync(pool, { recursive: true, mode: 0o750 });
  const pooled: PhotoFact[] = [];
  for (const photo of wanted) {
    const target = join(pool, photo.file);
    // Read whole again by the drill; each hour its size will do.
    const isThere = existsSync(target) && statSync(target).size === photo.bytes;
    if (isThere || copyWhole(join(from, photo.file), target, photo)) pooled.push(photo);
    // Somebody may be waiting for an answer.
    await setImmediate();
  }
  if (wanted.length > 0) syncToDisk(pool);
  return pooled;
}

function copyWhole(source: string, target: string, photo: PhotoFact): boolean {
  if (!existsSync(source)) return false;
  const part = `${target}.part`;
  try {
    copyFileSync(source, part);
    if (!isWhole(part, photo)) return false;
    syncToDisk(part);
    renameSync(part, target);
    return true;
  } finally {
    rmSync(part, { force: true });
  }
}

/** Photos of a manifest that are no longer in the pool as they were. */
export const torn = (pool: string, photos: readonly PhotoFact[]): PhotoFact[] =>
  photos.filter((photo) => !isWhole(join(pool, photo.file), photo));

/** A photo goes with the last backup that knows it. */
export function dropUnknownPhotos(pool: string, known: ReadonlySet<string>): void {
  if (!existsSync(pool)) return;
  for (const name of readdirSync(pool)) if (!known.has(name)) rmSync(join(pool, name), { force: true });
}

export interface PhotoFolders {
  /** Where the server keeps them. */
  readonly live: string;
  readonly pool: string;
}

/**
 * Puts together the folder that a restored store will look into, beside the one that is there.
 *
 * @returns Photos that are neither in the pool nor here still
 */
export function gatherPhotos({ live, pool }: PhotoFolders, into: string, wanted: readonly PhotoFact[]): PhotoFact[] {
  rmSync(into, { recursive: true, force: true });
  mkdirSync(into, { recursive: true, mode: 0o750 });
  const lost: PhotoFact[] = [];
  for (const photo of wanted) {
    const target = join(into, photo.file);
    const found = copyWhole(join(pool, photo.file), target, photo) || copyWhole(join(live, photo.file), target, photo);
    if (!found) lost.push(photo);
  }
  syncToDisk(into);
  return lost;
}
