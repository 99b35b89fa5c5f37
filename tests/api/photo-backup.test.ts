import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { dropOldBackups, makeBackup } from '../../apps/api/src/db/keep/backup.ts';
import { drill, restore } from '../../apps/api/src/db/keep/restore.ts';
import { photoDirOf } from '../../apps/api/src/photos/shelf.ts';
import { BINS, type Cast, freshId, MIGRATIONS_DIR, openCast } from '../cast.ts';
import { makePhoto, SMALL_JPEG } from './hostile/photo-samples.ts';

let cast: Cast;
let dir: string;
let photoDir: string;
const ids = [freshId(), freshId()] as const;
beforeEach(async () => {
  cast = await openCast();
  dir = join(cast.dir, 'backups');
  photoDir = photoDirOf(cast.app.middenry.config);
  for (const id of ids) makePhoto(cast, id, BINS.tote);
});
afterEach(() => cast.close());

const pool = () => join(dir, 'own-photos');
const nameOf = (id: string) => `${id.replaceAll('-', '')}.jpg`;
const back = () => makeBackup(cast.store, { dir, name: 'own', kind: 'hourly', now: cast.clock.at, photoDir });
const atHour = (hour: number) => {
  cast.clock.at = new Date(Date.UTC(2026, 10, 25, hour));
};

describe('F7: photos and backups', () => {
  it('lie beside them once, named with their hashes in each manifest', async () => {
    const { manifest } = await back();
    expect(manifest.photos?.map(({ file, bytes }) => [file, bytes])).toEqual(ids.map((id) => [nameOf(id), SMALL_JPEG.length]));
    for (const id of ids) expect(readFileSync(join(pool(), nameOf(id))).equals(SMALL_JPEG)).toBe(true);
    atHour(12);
    await back();
    expect(readdirSync(pool()).sort()).toEqual(ids.map(nameOf).sort());
  });

  it('a photo that was taken off is gone from the pool with the last backup that knew it', async () => {
    for (let hour = 0; hour < 24; hour += 1) {
      atHour(hour);
      if (hour === 1) await cast.call('volunteer', 'DELETE', `/api/photos/${ids[0]}`);
      await back();
    }
    dropOldBackups(dir, 'own');
    expect(readdirSync(pool())).toContain(nameOf(ids[0]));
    cast.clock.at = new Date(Date.UTC(2026, 10, 26, 0));
    await back();
    dropOldBackups(dir, 'own');
    expect(readdirSync(pool())).toEqual([nameOf(ids[1])]);
  });

  it('F10: come back with a restore, whatever happened to them since, and what was there is kept aside', async () => {
    const { file: backup } = await back();
    rmSync(join(photoDir, nameOf(ids[0])));
    writeFileSync(join(photoDir, nameOf(ids[1])), 'spoilt since');
    const done = restore({
      ...{ backup, file: join(cast.dir, 'again', 'own.db'), migrationsDir: MIGRATIONS_DIR, copyDir: dir, now: cast.clock.at, photoDir },
    });
    expect([done.photos, done.photosLost]).toEqual([2, 0]);
    for (const id of ids) expect(readFileSync(join(photoDir, nameOf(id))).equals(SMALL_JPEG)).toBe(true);
    const aside = readdirSync(dir).find((name) => name.startsWith('before-restore') && name.endsWith('-photos'))!;
    expect(readFileSync(join(dir, aside, nameOf(ids[1])), 'utf8')).toBe('spoilt since');
  });

  it('lost everywhere: its row goes too, and is counted', async () => {
    const { file: backup } = await back();
    for (const folder of [photoDir, pool()]) rmSync(join(folder, nameOf(ids[0])));
    const file = join(cast.dir, 'again', 'own.db');
    const done = restore({ backup, file, migrationsDir: MIGRATIONS_DIR, copyDir: dir, now: cast.clock.at, photoDir });
    expect([done.photos, done.photosLost]).toEqual([1, 1]);
    const sqlite = new Database(file, { readonly: true });
    expect(sqlite.prepare('SELECT id FROM photo').pluck().all()).toEqual([ids[1]]);
    sqlite.close();
  });

  it('the drill finds a photo beside the backups that is damaged', async () => {
    const { file: backup } = await back();
    expect(drill(backup, MIGRATIONS_DIR, cast.clock.at).ok).toBe(true);
    writeFileSync(join(pool(), nameOf(ids[0])), Buffer.alloc(SMALL_JPEG.length));
    expect(drill(backup, MIGRATIONS_DIR, cast.clock.at)).toEqual({
      ok: false,
      words: '1 of 2 photos beside the backups are missing or damaged.',
    });
    expect(existsSync(join(photoDir, nameOf(ids[0])))).toBe(true);
  });
});
