/** F24: however many photos come at once, one is in memory whole; counted by sharp's own counters, not timed. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { develop } from '../../apps/api/src/photos/develop.ts';

let dir: string;
let file: string;
beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'middenry-queue-'));
  file = join(dir, 'photo.jpg');
  const noise = {
    create: {
      width: 1200,
      height: 900,
      channels: 3 as const,
      background: '#556b2f',
      noise: { type: 'gaussian' as const, mean: 120, sigma: 40 },
    },
  };
  writeFileSync(file, await sharp(noise).jpeg().toBuffer());
});
afterAll(() => rmSync(dir, { recursive: true, force: true }));

/** The most pictures that sharp worked on at once. */
async function mostHeld(work: readonly Promise<unknown>[]): Promise<number> {
  let isDone = false;
  let most = 0;
  const all = Promise.all(work).finally(() => {
    isDone = true;
  });
  while (!isDone) {
    most = Math.max(most, sharp.counters().process);
    await setImmediate();
  }
  await all;
  return most;
}

test('F24: eight photos at once are read one after the other', async () => {
  const straight = Array.from({ length: 3 }, () => sharp(file).resize(400).toBuffer());
  // What the counters say where nobody queues.
  expect(await mostHeld(straight)).toBeGreaterThan(1);
  expect(await mostHeld(Array.from({ length: 8 }, () => develop(file)))).toBe(1);
});
