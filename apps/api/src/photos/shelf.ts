/** Where photos lie: one folder beside the store, file names of our own, nothing half written under a name that counts. */
import { createHash, randomBytes } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, rmSync } from 'node:fs';
import { open, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { PHOTO_MOST_BYTES } from '@middenry/contract';
import type { Config } from '../config.ts';
import { syncToDisk } from '../db/keep/verify.ts';
import { photoFiles } from '../db/repositories/photo.ts';
import type { Store } from '../db/store.ts';
import { refuse } from '../refusal.ts';

export const photoDirOf = (config: Config): string => join(config.dataDir, config.own ? 'own-photos' : 'demo-photos');

export const TOO_LARGE = 'A photo is at most 8 MB.';

/** 128 bits that nobody can guess, and that say nothing of what was sent. */
const newName = (): string => `${randomBytes(16).toString('hex')}.jpg`;

export interface Received {
  readonly file: string;
  readonly sha256: string;
}

/**
 * Writes what comes in to a file of its own; the caller takes that file away again.
 *
 * @throws {Refusal} too-large, or bad-request when it ends too soon
 */
export async function receive(dir: string, body: Readable): Promise<Received> {
  mkdirSync(dir, { recursive: true, mode: 0o750 });
  const file = join(dir, `${newName()}.part`);
  const hash = createHash('sha256');
  const target = await open(file, 'wx', 0o640);
  let bytes = 0;
  try {
    for await (const piece of body as AsyncIterable<Buffer>) {
      bytes += piece.length;
      if (bytes > PHOTO_MOST_BYTES) throw refuse('too-large', { detail: TOO_LARGE });
      hash.update(piece);
      await target.writeFile(piece);
    }
    return { file, sha256: hash.digest('hex') };
  } catch (error) {
    await takeAway(file);
    throw cutShort(error) ? refuse('bad-request', { detail: 'The photo ended before it was whole.' }) : error;
  } finally {
    await target.close();
  }
}

const cutShort = (error: unknown): boolean =>
  ['ECONNRESET', 'ERR_STREAM_PREMATURE_CLOSE', 'ABORT_ERR'].includes(String((error as { code?: unknown }).code));

/** Lays a photo on the disk for good; gives its name. */
export async function lay(dir: string, bytes: Uint8Array): Promise<string> {
  const name = newName();
  const part = join(dir, `${name}.part`);
  try {
    await writeFile(part, bytes, { flag: 'wx', mode: 0o640, flush: true });
    await rename(part, join(dir, name));
  } catch (error) {
    await takeAway(part);
    throw error;
  }
  syncToDisk(dir);
  return name;
}

export const takeAway = (file: string): Promise<void> => rm(file, { force: true });

/** After their rows: whatever a sudden end leaves here, the next start sweeps away. */
export function takeAwayNow(dir: string, names: readonly string[]): void {
  for (const name of names) rmSync(join(dir, name), { force: true });
}

export const photoBytes = (dir: string, name: string): Promise<Buffer> => readFile(join(dir, name));

/** Clears away what a sudden end left behind: files half written, and files that no row names. Before the server listens only. */
export function sweep(store: Store, dir: string): number {
  if (!existsSync(dir)) return 0;
  const known = photoFiles(store);
  const stray = readdirSync(dir).filter((name) => !known.has(name));
  for (const name of stray) rmSync(join(dir, name), { force: true });
  return stray.length;
}
