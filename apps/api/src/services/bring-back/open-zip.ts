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
      throw refuseFile(`Cannot read this file as a zip (${error.message}): fetch the export again.`);
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
  if (zip.entryCount > MOST_ENTRIES) throw refuseFile(`This zip holds ${zip.entryCount} files, which no export does: use another file.`);
  try {
    for await (const entry of zip.eachEntry()) {
      checkEntry(entry, entries);
      entries.set(entry.fileName, entry);
      bytes += entry.uncompressedSize;
    }
  } catch (error) {
    // The library refuses names that lead out of the zip; ours say so themselves.
    if (error instanceof BringBackRefusal) throw error;
    throw refuseFile(`This zip is not sound (${(error as Error).message}): fetch the export again.`);
  }
  if (bytes > MOST_BYTES) throw refuseFile('This zip would unpack to more than any export holds: use another file.');
  return entries;
}

function checkEntry(entry: yauzl.Entry, known: ReadonlyMap<string, yauzl.Entry>): void {
  const name = entry.fileName;
  if (!KNOWN_NAME.test(name))
    throw refuseFile(`This zip holds "${name.slice(0, 80)}", which no export does: use the file as it was fetched.`);
  if (known.has(name)) throw refuseFile(`This zip holds ${name} twice: use the file as it was fetched.`);
  if (entry.isEncrypted()) throw refuseFile(`In this zip ${name} is locked with a password: use the file as it was fetched.`);
  const isPacked = entry.uncompressedSize > RATIO_FROM_BYTES && entry.uncompressedSize > entry.compressedSize * MOST_RATIO;
  if (isPacked) throw refuseFile(`In this zip ${name} would unpack to far more than an export holds: use another file.`);
}

function reading(zip: yauzl.ZipFile, entries: ReadonlyMap<string, yauzl.Entry>): OpenZip {
  const read = (name: string): Promise<Readable> => {
    const entry = entries.get(name);
    if (entry === undefined) throw refuseFile(`This zip lacks ${name}: fetch the export again.`);
    return zip.openReadStreamPromise(entry);
  };
  const damaged = (name: string, error: unknown) =>
    refuseFile(`In this zip ${name} is damaged (${(error as Error).message}): fetch the export again.`);
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
      if (entry !== undefined && entry.uncompressedSize > mostBytes) throw refuseFile(`In this zip ${name} is too long: use another file.`);
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
