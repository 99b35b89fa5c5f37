import { createHash } from 'node:crypto';
import { PHOTO_EDGE } from '@middenry/contract';
import sharp from 'sharp';
import { refuse } from '../refusal.ts';

const MOST_PIXELS = 50_000_000;
const JPEG_QUALITY = 80;
const LONGEST_SECONDS = 20;
/** Whoever comes after so many is told to come back, since each waits for all before. */
const MOST_WAITING = 20;

// One picture is as large as the memory allows; nothing of it is worth keeping for the next.
sharp.cache(false);
sharp.concurrency(1);
// Whatever a file claims to be inside, only these three readers exist.
sharp.block({ operation: ['VipsForeignLoad'] });
sharp.unblock({ operation: ['VipsForeignLoadJpeg', 'VipsForeignLoadPng', 'VipsForeignLoadWebp'] });

export interface Developed {
  readonly bytes: Buffer;
  readonly width: number;
  readonly height: number;
  readonly sha256: string;
}

let waiting = 0;
let last: Promise<unknown> = Promise.resolve();

/**
 * Reads a picture whole and writes it anew: upright, at most 1600 px, and without a byte of what else
 * was in the file. One at a time, whatever the number of phones.
 *
 * @throws {Refusal} photo-unreadable, or unavailable when too many wait
 */
export async function develop(file: string): Promise<Developed> {
  if (waiting >= MOST_WAITING) throw refuse('unavailable');
  waiting += 1;
  const turn = last.then(() => developNow(file));
  last = turn.catch(() => undefined);
  try {
    return await turn;
  } finally {
    waiting -= 1;
  }
}

async function developNow(file: string): Promise<Developed> {
  try {
    const { data, info } = await sharp(file, { limitInputPixels: MOST_PIXELS, failOn: 'error', pages: 1 })
      .timeout({ seconds: LONGEST_SECONDS })
      // The way it was held stands in the metadata, which goes: so it is turned first.
      .autoOrient()
      .resize(PHOTO_EDGE, PHOTO_EDGE, { fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#ffffff' })
      .jpeg({ quality: JPEG_QUALITY })
      .toBuffer({ resolveWithObject: true });
    return { bytes: data, width: info.width, height: info.height, sha256: createHash('sha256').update(data).digest('hex') };
  } catch {
    throw refuse('photo-unreadable');
  }
}
