/** What is known of oneself, taken along or erased: taps counted from the board on, on a phone (criteria C27). */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser, type Running, serve, visit, type Walk } from './harness.ts';

const MOST_TAPS = 3;
const READY_MS = 60_000;
let server: Running;
let browser: Browser;
let walk: Walk;
let taps: number;
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  walk = await visit(browser, server.origin, { viewport: { width: 390, height: 844 }, acceptDownloads: true });
  await walk.context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: server.origin } });
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const tap = async (selector: string) => {
  taps += 1;
  await walk.page.locator(selector).first().click();
};
/** By More to the page about oneself. */
async function toMine(): Promise<void> {
  taps = 0;
  await walk.page.goto('/');
  await tap('nav.tabs a[href="/more"]');
  await walk.page.waitForURL('**/more');
  await tap('main a[href="/me"]');
  await walk.page.waitForURL('**/me');
}

test('C27: my data are mine in three taps, and ready within a minute', async () => {
  await toMine();
  const since = performance.now();
  const [download] = await Promise.all([walk.page.waitForEvent('download'), tap('main a[href$="/data.zip"]')]);
  expect(await download.failure()).toBeNull();
  expect(performance.now() - since).toBeLessThanOrEqual(READY_MS);
  expect(download.suggestedFilename()).toMatch(/^my-data-\d{4}-\d{2}-\d{2}\.zip$/);
  expect(taps).toBeLessThanOrEqual(MOST_TAPS);
});

test('C27: three taps lead to where I am asked once more who I am, and one more erases me', async () => {
  await toMine();
  await tap('main a[href="/me/erase"]');
  // The page before it asks for a password too, to change it.
  await walk.page.waitForURL('**/me/erase');
  await walk.page.getByLabel('Your password').waitFor();
  expect(taps).toBeLessThanOrEqual(MOST_TAPS);
  expect(await walk.page.locator('main form button[type=submit]').count()).toBe(1);
});
