import { createHash } from 'node:crypto';
import { closeSync, fsyncSync, openSync, readFileSync, readSync } from 'node:fs';
import Database from 'better-sqlite3';
import { factsOf, type StoreFacts } from './facts.ts';

export interface PhotoFact {
  readonly file: string;
  readonly bytes: number;
  readonly sha256: string;
}

const CHUNK_BYTES = 1024 * 1024;

/** What stands beside a backup. */
export interface Manifest {
  readonly madeAt: string;
  readonly kind: 'hourly' | 'asked-for';
  readonly sha256: string;
  readonly bytes: number;
  readonly facts: StoreFacts;
  /** The photos that lie beside all backups of this store; none in a backup of the time before there were any. */
  readonly photos?: readonly PhotoFact[];
}

export const manifestOf = (file: string): string => `${file}.json`;

export function readManifest(file: string): Manifest {
  return JSON.parse(readFileSync(manifestOf(file), 'utf8')) as Manifest;
}

/** Reads a file of any size piece by piece. */
export function sha256Of(file: string): string {
  const hash = createHash('sha256');
  const piece = Buffer.alloc(CHUNK_BYTES);
  const open = openSync(file, 'r');
  try {
    for (let bytes = readSync(open, piece); bytes > 0; bytes = readSync(open, piece)) hash.update(piece.subarray(0, bytes));
  } finally {
    closeSync(open);
  }
  return hash.digest('hex');
}

/** Makes sure that a file, or the names in a folder, are on the disk and not only on their way. */
export function syncToDisk(path: string): void {
  const open = openSync(path, 'r');
  try {
    fsyncSync(open);
  } finally {
    closeSync(open);
  }
}

export interface Proof {
  readonly facts: StoreFacts;
  readonly sha256: string;
}

/**
 * What a sound file holds, and its checksum.
 *
 * @throws {Error} saying what is wrong with it
 */
export const proofOf = (file: string): Proof => ({ facts: soundFacts(file), sha256: sha256Of(file) });

/**
 * Opens a file, checks it whole and gives what it holds.
 *
 * @throws {Error} saying what is wrong with it
 */
export function soundFacts(file: string): StoreFacts {
  return withSound(file, factsOf);
}

/**
 * Reads every page and every index of a file, and nothing more: for whoever waits.
 *
 * @throws {Error} saying what is wrong with it
 */
export const checkSound = (file: string): true => withSound(file, () => true);

function withSound<T>(file: string, work: (sqlite: Database.Database) => T): T {
  const sqlite = new Database(file, { readonly: true, fileMustExist: true });
  try {
    const verdict = sqlite.pragma('integrity_check', { simple: true });
    if (verdict !== 'ok') throw new Error(`integrity check says: ${verdict}`);
    const broken = sqlite.pragma('foreign_key_check') as unknown[];
    if (broken.length > 0) throw new Error(`${broken.length} rows point at nothing`);
    return work(sqlite);
  } finally {
    sqlite.close();
  }
}
