/** A programme as one zip, written while it is sent: neither tables nor photos ever lie in memory whole (criteria G2). */
import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { join } from 'node:path';
import { finished, Readable } from 'node:stream';
import yazl from 'yazl';
import { openSnapshot, type Snapshot, type Value } from '../../db/portable/snapshot.ts';
import { csvText } from '../csv.ts';
import { type Contents, contentsOf, type TablePart } from './contents.ts';
import { dataPackage, type WrittenFile } from './datapackage.ts';
import { CHECKSUMS_NAME, csvName, type ExportHead, HEAD_NAME, jsonName, PACKAGE_NAME, photoName, README_NAME } from './format.ts';
import { readmeText } from './readme.ts';

const ROWS_AT_ONCE = 500;
/** A quick squeeze: whoever waits for the file gains more from that than from its last per cent. */
const ZIP_LEVEL = 5;

export interface ExportFrom {
  /** The store's file; it may be in use. */
  readonly file: string;
  readonly photoDir: string;
  readonly now: Date;
}

export interface Export {
  readonly head: ExportHead;
  readonly stream: Readable;
}

/** Begins an export. The moment it shows is now, however long it takes to fetch. */
export function exportProgramme({ file, photoDir, now }: ExportFrom): Export {
  const snapshot = openSnapshot(file);
  try {
    const contents = contentsOf(snapshot, photoDir, now);
    return { head: contents.head, stream: zipOf(snapshot, contents, photoDir) };
  } catch (error) {
    snapshot.close();
    throw error;
  }
}

function zipOf(snapshot: Snapshot, contents: Contents, photoDir: string): Readable {
  const zip = new yazl.ZipFile();
  const written: WrittenFile[] = [];
  const stream = zip.outputStream as Readable;
  const mtime = new Date(contents.head.madeAt);
  /** Opened when its turn comes: by then everything before it is written, so the last ones can tell of all. */
  const add = (name: string, pieces: () => AsyncIterable<Buffer> | Iterable<Buffer>, isPicture = false) =>
    zip.addReadStreamLazy(name, { mtime, mode: 0o100644, compress: !isPicture, compressionLevel: isPicture ? 0 : ZIP_LEVEL }, (give) => {
      const piece = Readable.from(counted(name, pieces(), written), { objectMode: false });
      piece.once('error', (error) => stream.destroy(error));
      give(null, piece);
    });
  add(README_NAME, () => [Buffer.from(readmeText(contents))]);
  add(HEAD_NAME, () => [jsonBytes(contents.head)]);
  for (const part of contents.tables) {
    add(csvName(part.words.table), () => csvPieces(snapshot, part));
    add(jsonName(part.words.table), () => jsonPieces(snapshot, part));
  }
  for (const { file } of contents.photos) add(photoName(file), () => createReadStream(join(photoDir, file)), true);
  add(PACKAGE_NAME, () => [jsonBytes(dataPackage(contents, written))]);
  add(CHECKSUMS_NAME, () => [Buffer.from(written.map(({ name, sha256 }) => `${sha256}  ${name}\n`).join(''))]);
  zip.on('error', (error: Error) => stream.destroy(error));
  finished(stream, () => snapshot.close());
  zip.end();
  return stream;
}

const jsonBytes = (value: unknown): Buffer => Buffer.from(`${JSON.stringify(value, null, 2)}\n`);

async function* counted(name: string, pieces: AsyncIterable<Buffer> | Iterable<Buffer>, written: WrittenFile[]): AsyncGenerator<Buffer> {
  const hash = createHash('sha256');
  let bytes = 0;
  for await (const piece of pieces) {
    hash.update(piece);
    bytes += piece.length;
    yield piece;
  }
  written.push({ name, bytes, sha256: hash.digest('hex') });
}

function* csvPieces(snapshot: Snapshot, { wanted }: TablePart): Generator<Buffer> {
  yield Buffer.from(csvText([wanted.columns], 'data'));
  for (const rows of inLots(snapshot.rows(wanted))) yield Buffer.from(csvText(rows, 'data'));
}

/** A JSON list with a row on each line, so that it can be read line by line however long it is. */
function* jsonPieces(snapshot: Snapshot, { wanted }: TablePart): Generator<Buffer> {
  let before = '[\n';
  for (const rows of inLots(snapshot.rows(wanted))) {
    const lines = rows.map((row) => JSON.stringify(Object.fromEntries(wanted.columns.map((name, at) => [name, row[at]]))));
    yield Buffer.from(before + lines.join(',\n'));
    before = ',\n';
  }
  yield Buffer.from(before === '[\n' ? '[]\n' : '\n]\n');
}

function* inLots(rows: Iterable<Value[]>): Generator<Value[][]> {
  let lot: Value[][] = [];
  for (const row of rows) {
    lot.push(row);
    if (lot.length < ROWS_AT_ONCE) continue;
    yield lot;
    lot = [];
  }
  if (lot.length > 0) yield lot;
}
