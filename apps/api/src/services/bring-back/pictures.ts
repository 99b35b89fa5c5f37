/** Photos of an export, laid beside the store that is being filled. */
import { createHash } from 'node:crypto';
import { createWriteStream, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import type Database from 'better-sqlite3';
import { HEAD_BYTES, kindOf } from '../../photos/kind.ts';
import { photoName } from '../export/format.ts';
import type { OpenZip } from './open-zip.ts';
import { refuseFile } from './refusal.ts';

interface PhotoRow {
  readonly file: string;
  readonly bytes: number;
  readonly sha256: string;
}

/** @throws {BringBackRefusal} when a picture is missing, is not the one of its row, or belongs to no row */
export async function layPhotos(sqlite: Database.Database, zip: OpenZip, dir: string): Promise<number> {
  const rows = sqlite.prepare('SELECT file, bytes, sha256 FROM photo ORDER BY file').all() as PhotoRow[];
  const named = new Set(rows.map(({ file }) => photoName(file)));
  const stray = zip.names.find((name) => name.startsWith('photos/') && !named.has(name));
  if (stray !== undefined) throw refuseFile((w) => w.strayPicture(stray));
  mkdirSync(dir, { recursive: true, mode: 0o750 });
  for (const row of rows) await layPhoto(zip, dir, row);
  return rows.length;
}

async function layPhoto(zip: OpenZip, dir: string, row: PhotoRow): Promise<void> {
  const name = photoName(row.file);
  const hash = createHash('sha256');
  let bytes = 0;
  let head = Buffer.alloc(0);
  await pipeline(
    await zip.read(name),
    async function* look(pieces: AsyncIterable<Buffer>) {
      for await (const piece of pieces) {
        hash.update(piece);
        bytes += piece.length;
        if (head.length < HEAD_BYTES) head = Buffer.concat([head, piece.subarray(0, HEAD_BYTES)]);
        yield piece;
      }
    },
    createWriteStream(join(dir, row.file), { flags: 'wx', mode: 0o640, flush: true }),
  );
  if (bytes !== row.bytes || hash.digest('hex') !== row.sha256 || kindOf(head) !== 'jpeg') throw refuseFile((w) => w.otherPicture(name));
}
