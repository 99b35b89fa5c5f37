/** Room kept back on the disk, so that a coordinator can still put things right when nobody else can write (criteria F12). */
import { closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync, statfsSync, writeSync } from 'node:fs';
import { join } from 'node:path';

const RESERVE_BYTES = 5 * 1024 * 1024;
/** Beside the reserve this much must be free, or the next few entries would only fill the disk again. */
const SPARE_BYTES = 3 * 1024 * 1024;

export interface Room {
  /** The disk was full and still is: what was kept back is for coordinators alone. */
  isTight(): boolean;
  /** The store found no room: gives back what was kept. */
  giveBack(): void;
}

const freeBytesOf = (dir: string): number => {
  const { bavail, bsize } = statfsSync(dir);
  return bavail * bsize;
};

/** Keeps five megabytes back in the data folder, and makes that file anew as soon as there is room again. */
export function roomOf(dir: string, freeBytes: () => number = () => freeBytesOf(dir)): Room {
  const file = join(dir, 'room.reserve');
  const keepBack = () => freeBytes() >= RESERVE_BYTES + SPARE_BYTES && reserve(file);
  let isKept = existsSync(file) || keepBack();
  return {
    isTight() {
      isKept ||= keepBack();
      return !isKept;
    },
    giveBack() {
      rmSync(file, { force: true });
      isKept = false;
    },
  };
}

/** Gives whether the room could be had; a file with holes in it would keep nothing back. */
function reserve(file: string): boolean {
  const part = `${file}.part`;
  try {
    const open = openSync(part, 'w');
    try {
      writeSync(open, Buffer.alloc(RESERVE_BYTES, 'room '));
      fsyncSync(open);
    } finally {
      closeSync(open);
    }
    renameSync(part, file);
    return true;
  } catch {
    rmSync(part, { force: true });
    return false;
  }
}
