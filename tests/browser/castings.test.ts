/** From the bin into the store and out of it again. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeFaults, openBrowser, type Running, serve, visit, type Walk } from './harness.ts';

let server: Running;
let browser: Browser;
let walk: Walk;
let page: Page;
let binId: string;
const read = async (path: string) => (await walk.context.request.get(path)).json();

beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  walk = await visit(browser, server.origin, { viewport: { width: 360, height: 640 } });
  page = walk.page;
  await walk.context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: server.origin } });
  binId = (await read('/api/board')).bins.find((one: { band: string }) => one.band === 'settled').id;
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

test('a harvest in two buckets with its moisture lies in the store, and some of it is given out and taken back', async () => {
  await page.goto(`/bins/${binId}/log?kind=harvest`, { waitUntil: 'load' });
  await page.locator('#weight').fill('2.5 kg');
  await page.getByRole('button', { name: 'Another bucket' }).click();
  await page.locator('input[name="bucket"]').waitFor({ state: 'attached' });
  await page.locator('#weight').fill('1.25 kg');
  await page.getByText('How wet, sieved, when ready').click();
  await page.locator('#harvestSqueeze').selectOption('damp');
  expect(await axeFaults(page)).toEqual([]);
  await page.getByRole('button', { name: /^Save/ }).click();
  await page.locator('.after-save[data-at="server"]').waitFor();
  expect((await read(`/api/bins/${binId}/entries?limit=1`)).items[0]).toMatchObject({
    massKg: 3.75,
    buckets: [{ massKg: 2.5 }, { massKg: 1.25 }],
    moisture: { squeeze: 'damp' },
  });
  const stores = async (): Promise<{ siteId: string; readyKg: number }[]> => (await read('/api/castings-stock')).items;
  const { siteId, readyKg: before } = (await stores()).find((site) => site.readyKg > 1.5)!;
  const readyKg = async () => (await stores()).find((site) => site.siteId === siteId)?.readyKg;
  await page.goto('/castings');
  await page.locator('#siteId').selectOption(siteId);
  await page.locator('#mass').fill('1.5');
  await page.locator('#destination').selectOption('class');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.waitForURL(/done=saved/);
  expect(await readyKg()).toBeCloseTo(before - 1.5, 6);
  await page
    .getByRole('button', { name: /^Take back/ })
    .first()
    .click();
  await page.waitForURL(/done=undone/);
  expect(await readyKg()).toBeCloseTo(before, 6);
  expect(await axeFaults(page)).toEqual([]);
});
