import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { Store } from '../store.ts';
import { copyAndProve } from './beside.ts';
import { lacking, leastFactsOf } from './facts.ts';
import { dropUnknownPhotos, photoPoolOf, photosIn, poolPhotos } from './photos.ts';
import { type Manifest, manifestOf, readManifest } from './verify.ts';

const NAME = /^(own|demo)-\d{4}-\d{2}-\d{2}T\d{2}-\d{2}-\d{2}-\d{3}Z\.db$/;

export interface BackupOptions {
  readonly dir: string;
  readonly name: 'own' | 'demo';
  readonly kind: Manifest['kind'];
  readonly now: Date;
  /** Where the photos lie; left out, there are none. */
  readonly photoDir?: string | undefined;
}

export interface BackupFile {
  readonly file: string;
  readonly manifest: Manifest;
}

/**
 * Copies the store while it is in use. The copy gets its name only after it was read back whole,
 * holds at least what was there when it was begun, and lies on the disk.
 *
 * @throws {Error} when any of that fails; nothing is then left behind
 */
export async function makeBackup(store: Store, { dir, name, kind, now, photoDir }: BackupOptions): Promise<BackupFile> {
  mkdirSync(dir, { recursive: true });
  const file = join(dir, `${name}-${now.toISOString().replace(/[:.]/g, '-')}.db`);
  const part = `${file}.part`;
  try {
    const least = leastFactsOf(store.sqlite);
    const { facts, sha256 } = await copyAndProve(store.sqlite.name, part);
    const missing = lacking(facts, least);
    if (missing.length > 0) throw new Error(`the copy lacks ${missing.join(', ')}`);
    const photos = photoDir === undefined ? [] : await poolPhotos(photoDir, photoPoolOf(dir, name), photosIn(part));
    const manifest: Manifest = { madeAt: now.toISOString(), kind, sha256, bytes: statSync(part).size, facts, photos };
    writeFileSync(manifestOf(part), JSON.stringify(manifest, null, 2));
    await syncBeside(manifestOf(part));
    renameSync(manifestOf(part), manifestOf(file));
    renameSync(part, file);
    await syncBeside(dir);
    return { file, manifest };
  } finally {
    for (const rest of [part, `${part}-journal`, `${part}-wal`, `${part}-shm`, manifestOf(part)]) rmSync(rest, { force: true });
  }
}

/** A disk that is busy may take its time; nobody's request waits for it. */
async function syncBeside(path: string): Promise<void> {
  const file = await open(path, 'r');
  try {
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Backups of this store, newest first; a file whose manifest is missing is none. */
export function listBackups(dir: string, name: 'own' | 'demo'): readonly BackupFile[] {
  if (!existsSync(dir)) return [];
  return readdirSync(dir)
    .filter((file) => NAME.test(file) && file.startsWith(`${name}-`) && existsSync(manifestOf(join(dir, file))))
    .sort()
    .reverse()
    .map((file) => ({ file: join(dir, file), manifest: readManifest(join(dir, file)) }));
}

const HOURLY = 24;
const DAILY = 14;
const WEEKLY = 11;

/** Which backups stay: the newest of each of the last 24 hours, 14 days and 11 weeks in which there was one. */
export function kept(backups: readonly BackupFile[]): ReadonlySet<string> {
  const stays = new Set<string>();
  const keepFirstOf = (most: number, periodOf: (madeAt: string) => string) => {
    const periods = new Set<string>();
    for (const { file, manifest } of backups) {
      const period = periodOf(manifest.madeAt);
      if (periods.has(period)) continue;
      if (periods.size === most) return;
      periods.add(period);
      stays.add(file);
    }
  };
  keepFirstOf(HOURLY, (at) => at.slice(0, 13));
  keepFirstOf(DAILY, (at) => at.slice(0, 10));
  keepFirstOf(WEEKLY, weekOf);
  return stays;
}

/** The Monday of an instant's week, in UTC. */
function weekOf(at: string): string {
  const day = new Date(`${at.slice(0, 10)}T00:00:00.000Z`);
  day.setUTCDate(day.getUTCDate() - ((day.getUTCDay() + 6) % 7));
  return day.toISOString().slice(0, 10);
}

/** Whoever was erased stands in no copy for longer than this (criteria C26). */
export const BACKUP_DAYS = 90;

/** @param notBefore An instant; older copies go too, but never the newest. Left out: only what `kept` lets go. */
export function dropOldBackups(dir: string, name: 'own' | 'demo', notBefore = ''): readonly string[] {
  const backups = listBackups(dir, name);
  const young = backups.filter(({ manifest }, at) => at === 0 || manifest.madeAt >= notBefore);
  const stays = kept(young);
  const dropped = backups.filter(({ file }) => !stays.has(file));
  for (const { file } of dropped) for (const one of [file, manifestOf(file)]) rmSync(one, { force: true });
  const known = backups.filter(({ file }) => stays.has(file)).flatMap(({ manifest }) => manifest.photos ?? []);
  dropUnknownPhotos(photoPoolOf(dir, name), new Set(known.map(({ file }) => file)));
  return dropped.map(({ file }) => basename(file));
}
