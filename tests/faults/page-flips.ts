/** Pages of a store overwritten at random, and what comes of reading it then (criteria F11). */
import { closeSync, copyFileSync, openSync, readFileSync, rmSync, writeSync } from 'node:fs';
import Database from 'better-sqlite3';
import { factsOf } from '../../apps/api/src/db/keep/facts.ts';
import { soundFacts } from '../../apps/api/src/db/keep/verify.ts';

export type Flip = 'noise' | 'zeros' | 'another page' | 'a few bytes';
export const FLIPS: readonly Flip[] = ['noise', 'zeros', 'another page', 'a few bytes'];
const FEW_BYTES = 16;

export interface FlipResult {
  readonly flip: Flip;
  readonly page: number;
  /** The check of every night says so. */
  readonly found: boolean;
  /** The totals could be read and were not what they had been. */
  readonly wrongTotals: boolean;
}

/** Numbers below n from a seed (the generator of Park and Miller, 1988), so that a failure can be had again. */
export function seeded(seed: number): (n: number) => number {
  let state = seed;
  return (n) => {
    state = (state * 48_271) % 2_147_483_647;
    return state % n;
  };
}

/** Overwrites one page that is in use. The file must be whole, without a log beside it, and open nowhere. */
export function flipPage(file: string, flip: Flip, below: (n: number) => number): number {
  const bytes = readFileSync(file);
  const pageBytes = bytes.readUInt16BE(16);
  const inUse = pagesInUse(file);
  const page = inUse[below(inUse.length)] as number;
  const at = (page - 1) * pageBytes;
  const other = (inUse[below(inUse.length)] as number) - 1;
  const noise = Buffer.from(Array.from({ length: pageBytes }, () => below(256)));
  const written = {
    noise: () => ({ data: noise, at }),
    zeros: () => ({ data: Buffer.alloc(pageBytes), at }),
    'another page': () => ({ data: bytes.subarray(other * pageBytes, (other + 1) * pageBytes), at }),
    'a few bytes': () => ({ data: noise.subarray(0, FEW_BYTES), at: at + below(pageBytes - FEW_BYTES) }),
  }[flip]();
  const open = openSync(file, 'r+');
  writeSync(open, written.data, 0, written.data.length, written.at);
  closeSync(open);
  return page;
}

/** Free pages hold nothing, and nobody can tell that they changed. */
function pagesInUse(file: string): number[] {
  const sqlite = new Database(file, { readonly: true });
  try {
    return sqlite.prepare("SELECT pageno FROM dbstat WHERE pagetype <> 'overflow' ORDER BY pageno").pluck().all() as number[];
  } finally {
    sqlite.close();
  }
}

export function flipAndRead(sound: string, copy: string, flip: Flip, below: (n: number) => number): FlipResult {
  copyFileSync(sound, copy);
  try {
    const page = flipPage(copy, flip, below);
    return { flip, page, found: throws(() => soundFacts(copy)), wrongTotals: readsWrong(sound, copy) };
  } finally {
    rmSync(copy, { force: true });
  }
}

function throws(work: () => unknown): boolean {
  try {
    work();
    return false;
  } catch {
    return true;
  }
}

function readsWrong(sound: string, copy: string): boolean {
  const totalsOf = (file: string) => {
    const sqlite = new Database(file, { readonly: true });
    try {
      return JSON.stringify(factsOf(sqlite).totals);
    } finally {
      sqlite.close();
    }
  };
  const truth = totalsOf(sound);
  try {
    return totalsOf(copy) !== truth;
  } catch {
    return false;
  }
}
