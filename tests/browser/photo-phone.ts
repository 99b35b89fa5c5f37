/** A phone that takes photos: what waits on it, and pictures as cameras make them (criteria B22). */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { expect } from 'vitest';
import { comment, flag, iptc, markersOf, SECRETS, withSegments, xmp } from '../api/photo-files.ts';

const EDGE_PX = 1600;
const MOST_BYTES = 400_000;
const SEEN_WITHIN_MS = 20_000;

interface Waiting {
  readonly id: string;
  readonly entryId: string;
  readonly alt: string;
  readonly kind: string;
  readonly bytes: Buffer;
}

/** A folder of photos to choose from. */
export function photoFolder() {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-photos-'));
  const choose = async (page: Page, name: string, bytes: Buffer) => {
    writeFileSync(join(dir, name), bytes);
    await page.locator('input[type=file]').setInputFiles(join(dir, name));
  };
  return { choose, remove: () => rmSync(dir, { recursive: true, force: true }) };
}

/** The photos that wait on this phone, as they would be sent. */
export async function waitingOn(page: Page): Promise<Waiting[]> {
  const all = await page.evaluate(async () => {
    // To open it first would make it, without the stores that the page makes.
    if (!(await indexedDB.databases()).some(({ name }) => name === 'middenry-photos')) return [];
    const request = indexedDB.open('middenry-photos');
    const db = await new Promise<IDBDatabase>((resolve) => {
      request.onsuccess = () => resolve(request.result);
    });
    const read = db.transaction('photos').objectStore('photos').getAll();
    await new Promise((resolve) => {
      read.onsuccess = resolve;
    });
    db.close();
    return Promise.all(
      (read.result as { id: string; entryId: string; alt: string; kind: string; picture: Blob }[]).map(
        async ({ id, picture, entryId, alt, kind }) => ({
          ...{ id, entryId, alt, kind },
          bytes: [...new Uint8Array(await picture.arrayBuffer())],
        }),
      ),
    );
  });
  return all.map((one) => ({ ...one, bytes: Buffer.from(one.bytes) }));
}

/** Puts a second photo beside the one that waits, refused for a reason of its own. */
export const refusedTwin = (page: Page, code: string): Promise<void> =>
  page.evaluate(async (why) => {
    const request = indexedDB.open('middenry-photos');
    const db = await new Promise<IDBDatabase>((resolve) => {
      request.onsuccess = () => resolve(request.result);
    });
    const store = db.transaction('photos', 'readwrite').objectStore('photos');
    const read = store.getAll();
    await new Promise((resolve) => {
      read.onsuccess = resolve;
    });
    const [first] = read.result;
    const put = store.put({ ...first, id: `${first.id.slice(0, -12)}ffffffffffff`, problem: { ...first.problem, code: why } });
    await new Promise((resolve) => {
      put.onsuccess = resolve;
    });
    db.close();
  }, code);

/** The flag with everything in it that a phone may tell: place, names, a comment. */
export const toldFlag = async (): Promise<Buffer> =>
  withSegments(
    await flag()
      .withExif({ IFD0: { Copyright: SECRETS[0]! }, IFD3: { GPSLatitude: '51/1 28/1 39/1' } })
      .jpeg()
      .toBuffer(),
    xmp,
    iptc,
    comment,
  );

/** Waits for this photo to be the one that waits, and holds it against B22. */
export async function expectSmallAndBare(page: Page, name: string, before: string | undefined): Promise<Buffer> {
  await expect
    .poll(async () => (await waitingOn(page)).map(({ id }) => id), { timeout: SEEN_WITHIN_MS })
    .toEqual([expect.not.stringMatching(before ?? 'none')]);
  const kept = (await waitingOn(page))[0]!.bytes;
  const { format, width, height } = await sharp(kept).metadata();
  expect([name, format, Math.max(width, height) <= EDGE_PX, kept.length <= MOST_BYTES]).toEqual([name, 'jpeg', true, true]);
  // APP2 is the colour profile that Chromium writes into whatever it draws; the server leaves that out as well.
  expect([name, markersOf(kept).filter((marker) => marker >= 0xe1 && marker <= 0xfe && marker !== 0xe2)]).toEqual([name, []]);
  expect([name, SECRETS.filter((secret) => kept.includes(secret))]).toEqual([name, []]);
  return kept;
}

/** Red at its left, blue at its right. */
export async function isUpright(bytes: Buffer): Promise<boolean> {
  const { data, info } = await sharp(bytes).raw().toBuffer({ resolveWithObject: true });
  const isRed = (x: number, y: number) => data[(y * info.width + x) * info.channels]! > 128;
  const right = info.width - 4;
  return info.width > info.height && isRed(3, 3) && isRed(3, info.height - 4) && !isRed(right, 3) && !isRed(right, info.height - 4);
}

export const heic = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypheic\0\0\0\0mif1heic'), Buffer.alloc(500)]);
