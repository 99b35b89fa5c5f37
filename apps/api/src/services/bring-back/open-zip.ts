/** A zip from anywhere, opened without trusting a word of it (criteria G11). */
import { createHash } from 'node:crypto';
import type { Readable } from 'node:stream';
import yauzl from 'yauzl';
import { KNOWN_NAME } from '../export/format.ts';
import { BringBackRefusal, refuseFile } from './refusal.ts';

const MOST_ENTRIES = 200_000;
/** Text of ours shrinks twenty times at most; what shrinks more is made to burst. */
const MOST_RATIO = 200;
const RATIO_FROM_BYTES = 1024 * 1024;
const MOST_BYTES = 64 * 1024 ** 3;

export interface OpenZip {
  readonly names: readonly string[];
  /** Pieces of a file, never more of them than the zip's own list says. */
  read(name: string): Promise<Readable>;
  /** SHA-256 of a file, in hexadecimal. */
  hash(name: string): Promise<string>;
  /** All of a file that may only be short. */
  text(name: string, mostBytes: number): Promise<string>;
  close(): void;
}

/** @throws {BringBackRefusal} when it is no zip, or holds a name, a size or a number of files that no export has */
export async function openZip(file: string): Promise<OpenZip> {
  const zip = await yauzl
    .openPromise(file, { lazyEntries: true, autoClose: false, strictFileNames: true, validateEntrySizes: true })
    .catch((error: Error) => {
      throw refuseFile((w) => w.noZip(error.message));
    });
  try {
    const entries = await entriesOf(zip);
    return reading(zip, entries);
  } catch (error) {
    zip.close();
    throw error;
  }
}

async function entriesOf(zip: yauzl.ZipFile): Promise<Map<string, yauzl.Entry>> {
  const entries = new Map<string, yauzl.Entry>();
  let bytes = 0;
  if (zip.entryCount > MOST_ENTRIES) throw refuseFile((w) => w.tooMany(String(zip.entryCount)));
  try {
    for await (const entry of zip.eachEntry()) {
      checkEntry(entry, entries);
      entries.set(entry.fileName, entry);
      bytes += entry.uncompressedSize;
    }
  } catch (error) {
    // The library refuses names that lead out of the zip; ours say so themselves.
    if (error instanceof BringBackRefusal) throw error;
    throw refuseFile((w) => w.notSound((error as Error).message));
  }
  if (bytes > MOST_BYTES) throw refuseFile((w) => w.tooLarge());
  return entries;
}

function checkEntry(entry: yauzl.Entry, known: ReadonlyMap<string, yauzl.Entry>): void {
  const name = entry.fileName;
  if (!KNOWN_NAME.test(name)) throw refuseFile((w) => w.strangeFile(name.slice(0, 80)));
  if (known.has(name)) throw refuseFile((w) => w.twice(name));
  if (entry.isEncrypted()) throw refuseFile((w) => w.locked(name));
  const isPacked = entry.uncompressedSize > RATIO_FROM_BYTES && entry.uncompressedSize > entry.compressedSize * MOST_RATIO;
  if (isPacked) throw refuseFile((w) => w.bomb(name));
}

function reading(zip: yauzl.ZipFile, entries: ReadonlyMap<string, yauzl.Entry>): OpenZip {
  const read = (name: string): Promise<Readable> => {
    const entry = entries.get(name);
    if (entry === undefined) throw refuseFile((w) => w.lacks(name));
    return zip.openReadStreamPromise(entry);
  };
  const damaged = (name: string, error: unknown) => refuseFile((w) => w.damaged(name, (error as Error).message));
  return {
    names: [...entries.keys()],
    read,
    async hash(name) {
      const hash = createHash('sha256');
      const pieces = await read(name);
      try {
        for await (const piece of pieces) hash.update(piece as Buffer);
      } catch (error) {
        throw damaged(name, error);
      }
      return hash.digest('hex');
    },
    async text(name, mostBytes) {
      const entry = entries.get(name);
      if (entry !== undefined && entry.uncompressedSize > mostBytes) throw refuseFile((w) => w.tooLong(name));
      const pieces: Buffer[] = [];
      const stream = await read(name);
      try {
        for await (const piece of stream) pieces.push(piece as Buffer);
      } catch (error) {
        throw damaged(name, error);
      }
      return Buffer.concat(pieces).toString('utf8');
    },
    close: () => zip.close(),
  };
}
