/** What goes into an export, worked out from the store itself before a byte is written. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { TableShape } from '../../db/portable/shape.ts';
import type { Snapshot, Wanted } from '../../db/portable/snapshot.ts';
import { EXPORTED, LEFT_OUT } from './dictionary/registry.ts';
import type { TableWords } from './dictionary/types.ts';
import { EXPORT_FORMAT, type ExportHead } from './format.ts';

export interface TablePart {
  readonly words: TableWords;
  readonly shape: TableShape;
  readonly wanted: Wanted;
  readonly rows: number;
}

export interface PhotoPart {
  readonly id: string;
  readonly file: string;
  readonly sha256: string;
}

export interface Contents {
  readonly head: ExportHead;
  readonly tables: readonly TablePart[];
  readonly photos: readonly PhotoPart[];
}

export function contentsOf(snapshot: Snapshot, photoDir: string, now: Date): Contents {
  const hidden = snapshot.hiddenPhotos();
  const all = photosIn(snapshot).filter(({ file }) => !hidden.some((one) => one.file === file));
  const photos = all.filter(({ file }) => existsSync(join(photoDir, file)));
  const lost = all.filter((photo) => !photos.includes(photo));
  const staying = new Set([...hidden, ...lost].map(({ id }) => id));
  const tables = EXPORTED.map((words) => partOf(snapshot, words, staying));
  const [programme] = [...snapshot.rows({ table: 'programme', columns: ['name', 'is_demo'] })];
  if (programme === undefined) throw new RangeError('Cannot export as no programme has begun here: current value is none');
  const head: ExportHead = {
    format: EXPORT_FORMAT,
    schema: snapshot.schema,
    madeAt: now.toISOString(),
    programme: String(programme[0]),
    isDemo: programme[1] === 1,
    rows: Object.fromEntries(tables.map(({ words, rows }) => [words.table, rows])),
    photos: photos.length,
    photosLost: lost.length,
    leftOut: leftOut(),
  };
  return { head, tables, photos };
}

/** Tables with rows about a photo, by the column that names it. */
const PHOTO_COLUMN: Readonly<Record<string, string>> = {
  photo: 'id',
  photo_person: 'photo_id',
  season_photo: 'photo_id',
  published_season_photo: 'photo_id',
};

function partOf(snapshot: Snapshot, words: TableWords, stayingPhotos: ReadonlySet<string>): TablePart {
  const shape = snapshot.shape(words.table);
  const columns = shape.columns.map(({ name }) => name).filter((name) => words.leftOut?.[name] === undefined);
  // A row without its picture would be a promise that nobody can keep, and a photo that is hidden here is hidden from the zip too.
  const column = PHOTO_COLUMN[words.table];
  const without = column === undefined ? words.without : { column, values: [...stayingPhotos] };
  const wanted = { table: words.table, columns, without };
  return { words, shape, wanted, rows: snapshot.count(wanted) };
}

const photosIn = (snapshot: Snapshot): PhotoPart[] =>
  [...snapshot.rows({ table: 'photo', columns: ['id', 'file', 'sha256'] })].map(([id, file, sha256]) => ({
    id: String(id),
    file: String(file),
    sha256: String(sha256),
  }));

const HIDDEN_PHOTOS = { 'photo (hidden)': 'photos in which somebody has not consented, or whom nobody has named yet' };

/** Tables, columns and rows that stay behind, each with its reason. */
function leftOut(): Record<string, string> {
  const columns = EXPORTED.flatMap(({ table, leftOut = {} }) => Object.entries(leftOut).map(([name, why]) => [`${table}.${name}`, why]));
  const rows = EXPORTED.flatMap(({ table, without }) =>
    without === undefined ? [] : [[`${table} (${without.values.join(', ')})`, 'exports and returns of this machine']],
  );
  return { ...LEFT_OUT, ...HIDDEN_PHOTOS, ...Object.fromEntries([...columns, ...rows]) };
}
