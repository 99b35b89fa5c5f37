/** B22's twelve photos, in Chromium: each way a phone is held, 48 megapixels, and grain that no compression makes small. */
import type { Browser } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { flag, heldFlag } from '../api/photo-files.ts';
import { openBrowser, type Running, serve, visit, type Walk } from './harness.ts';
import { expectSmallAndBare, heic, isUpright, photoFolder, toldFlag, waitingOn } from './photo-phone.ts';

const WAYS = [1, 2, 3, 4, 5, 6, 7, 8];
const folder = photoFolder();
let server: Running;
let browser: Browser;
let walk: Walk;
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  walk = await visit(browser, server.origin, { viewport: { width: 360, height: 740 } });
  await walk.context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: server.origin } });
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
  folder.remove();
});

/** The flag as a camera of 48 megapixels would give it. */
const large = async () =>
  sharp(await flag().png().toBuffer())
    .resize(7998, 6000, { kernel: 'nearest' })
    .jpeg({ quality: 60 })
    .toBuffer();
const grain = () => {
  const noise = { type: 'gaussian', mean: 128, sigma: 60 } as const;
  return sharp({ create: { width: 2400, height: 1800, channels: 3, background: '#777', noise } })
    .png({ compressionLevel: 1 })
    .toBuffer();
};

describe('B22: twelve photos as cameras make them', () => {
  test('each is small, upright and bare before it waits; what cannot be opened is told in plain words', async () => {
    const { page, context } = walk;
    const { id } = (await (await context.request.get('/api/bins')).json()).items[0];
    await page.goto(`/bins/${id}/log?kind=check`);
    const held = await Promise.all(WAYS.map(async (way) => [`held-${way}.jpg`, await heldFlag(way)] as const));
    const good = [...held, ['48-megapixels.jpg', await large()], ['grain.png', await grain()], ['told.jpg', await toldFlag()]] as const;
    for (const [name, bytes] of good) {
      const before = (await waitingOn(page))[0]?.id;
      await folder.choose(page, name, bytes);
      const kept = await expectSmallAndBare(page, name, before);
      if (name !== 'grain.png') expect([name, await isUpright(kept)]).toEqual([name, true]);
    }
    await folder.choose(page, 'apart.heic', heic);
    await page.getByRole('alert').getByText('a form called HEIC').waitFor();
    expect(await waitingOn(page)).toHaveLength(1);
  });
});
