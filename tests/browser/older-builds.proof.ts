/** A phone that was last used two releases ago, and has notes of that time (criteria B23). */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, expect, test } from 'vitest';
import { RELEASE } from '../../packages/contract/src/index.ts';
import { type FaultyWay, faultyWayTo } from './faulty-way.ts';
import { type Running, serve } from './harness.ts';
import { KeptPhone } from './kept-phone.ts';
import { makeOlderBuild } from './older-build.ts';
import { atServer, onPhone } from './phone.ts';

const made: string[] = [];
let server: Running | undefined;
let way: FaultyWay | undefined;
let phone: KeptPhone | undefined;
afterAll(async () => {
  await phone?.throwAway();
  await way?.close();
  await server?.stop();
  for (const dir of made) rmSync(dir, { recursive: true, force: true });
});

const workerIsHere = (page: Page) => page.waitForFunction(() => navigator.serviceWorker.controller !== null, null, { timeout: 60_000 });
const buildsOn = (page: Page) => page.evaluate(async () => (await caches.keys()).length);

async function noteBy(page: Page, binId: string, note: string): Promise<void> {
  await page.goto(`/bins/${binId}/log?kind=note`);
  await page.locator('#svelte-announcer').waitFor({ state: 'attached' });
  await page.locator('textarea[name="note"]').fill(note);
  await page.locator('form.sheet .save button').click();
  await page.locator('.after-save[data-at="phone"]').waitFor();
}

test('B23: notes of the two releases before this one are sent; a page left open since then says that it is too old', async () => {
  const [before2, before1] = [RELEASE - 2, RELEASE - 1].map((release) => {
    const dir = makeOlderBuild(release);
    made.push(dir);
    return join(dir, 'apps/api/build/server.mjs');
  });
  server = await serve({ serverFile: before2!, keepData: true });
  const { dataDir } = server;
  way = await faultyWayTo(server.origin);
  phone = new KeptPhone(way.origin);
  const leftOpen = await phone.tab();
  const context = leftOpen.context();
  await context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: way.origin } });
  const binId = (await (await context.request.get('/api/bins')).json()).items[0].id;
  await leftOpen.goto('/waiting');
  await workerIsHere(leftOpen);
  way.way = 'no-batches';
  const page = await context.newPage();
  await noteBy(page, binId, 'of two releases ago');

  await server.stop();
  server = await serve({ serverFile: before1!, dataDir, keepData: true });
  way.to = server.origin;
  await page.goto('/waiting');
  const use = page.getByRole('button', { name: 'Use it now' });
  await use.waitFor({ timeout: 60_000 });
  await Promise.all([page.waitForEvent('load'), use.click()]);
  await noteBy(page, binId, 'of the release before');
  await page.close();

  await server.stop();
  server = await serve({ dataDir });
  way.to = server.origin;
  way.way = 'through';
  await leftOpen.bringToFront();
  await leftOpen.getByRole('button', { name: 'Send now' }).click();
  await leftOpen.getByText('These pages are too old. Load them again, and the notes are sent.').waitFor({ timeout: 60_000 });
  expect(await onPhone(leftOpen)).toEqual(['of two releases ago', 'of the release before']);
  await leftOpen.getByRole('button', { name: 'Load again' }).click();
  await expect.poll(() => onPhone(leftOpen), { timeout: 60_000, interval: 250 }).toEqual([]);
  expect(await atServer(context, binId, 'of ')).toEqual(['of two releases ago', 'of the release before']);
  const useNow = leftOpen.getByRole('button', { name: 'Use it now' });
  await useNow.waitFor({ timeout: 60_000 });
  await Promise.all([leftOpen.waitForEvent('load'), useNow.click()]);
  // Pages of two builds before may be open still, and their files are there for them.
  await expect.poll(() => buildsOn(leftOpen)).toBe(3);
});
