/** A list from a spreadsheet, from choosing the file to undoing all of it, without a single script. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeFaults, openBrowser, type Running, serve, sidewaysPx, visit } from './harness.ts';

let server: Running;
let browser: Browser;
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

/** A food that only the list knows becomes one of our own; what was answered before is still there. */
async function addFood(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: `Add “${name}” as a food of our own` }).click();
  expect(await page.locator('#name').inputValue()).toBe(name);
  for (const [field, value] of Object.entries({ moistureFracWb: '80', carbonFracDb: '45', nitrogenFracDb: '2', bulkDensityKgM3: '500' }))
    await page.locator(`#${field}`).fill(value);
  await page.getByRole('button', { name: 'Add it', exact: true }).click();
  await page.waitForURL('**/import/*');
}

test('G6: without scripts a coordinator sees the rows, answers, takes them and undoes them', async () => {
  const walk = await visit(browser, server.origin, { viewport: { width: 360, height: 740 }, javaScriptEnabled: false });
  const { page } = walk;
  await walk.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: server.origin } });
  const [bin] = (await (await walk.context.request.get('/api/bins')).json()).items;
  await page.goto('/import');
  const text = `Date,Bin,Food,Weight\n3/4/2026,${bin.code},Apple,2\n5/6/2026,${bin.code},Mystery,1 bucket\n6/7/2026,Z9,Apple,2 kg\n`;
  await page.locator('#file').setInputFiles({ name: 'our log.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
  await page.getByRole('button', { name: 'Show me the rows' }).click();
  await page.getByRole('heading', { level: 1, name: 'No row can be taken yet.' }).waitFor();
  expect(await sidewaysPx(page)).toBeLessThanOrEqual(0);
  await page.locator('#dateOrder').selectOption('day-first');
  await page.locator('#unit').selectOption('lb');
  await page.getByLabel('How much does one "bucket" hold, in kg?').fill('7,5');
  await addFood(page, 'Mystery');
  expect(await page.getByLabel('Which food is "Mystery"?').count()).toBe(0);
  await page.getByRole('button', { name: 'Show me the rows again' }).click();
  await page.getByRole('heading', { level: 1, name: '2 rows can be taken.' }).waitFor();
  expect(await page.locator('table').first().locator('tbody tr').allInnerTexts()).toEqual([
    expect.stringMatching(/3 April 2026.*0\.91\skg/),
    expect.stringMatching(/5 June 2026.*7\.5\skg/),
  ]);
  await page.getByRole('button', { name: 'Take 2 rows' }).click();
  await page.getByRole('heading', { level: 1, name: '2 rows were taken.' }).waitFor();
  await page.getByRole('button', { name: 'Undo the whole list' }).click();
  await page.getByRole('heading', { level: 1, name: 'This list was undone.' }).waitFor();
  expect(walk.complaints).toEqual([]);
  await walk.close();
}, 120_000);

test('the rows of a list have no fault that axe finds', async () => {
  const walk = await visit(browser, server.origin, { viewport: { width: 360, height: 740 } });
  const { page } = walk;
  await walk.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: server.origin } });
  await page.goto('/import');
  const text = 'Date,Bin,Food,Weight\n25/04/26,T1,Apple,2\n5/6/26,Z9,Mystery,1 bucket\n';
  await page.locator('#file').setInputFiles({ name: 'our log.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
  await page.getByRole('button', { name: 'Show me the rows' }).click();
  await page.getByRole('heading', { level: 1, name: 'No row can be taken yet.' }).waitFor();
  expect(await axeFaults(page)).toEqual([]);
  if (process.env.PICTURES_DIR)
    for (const width of [360, 768, 1440]) {
      await page.setViewportSize({ width, height: 900 });
      await page.screenshot({ path: `${process.env.PICTURES_DIR}/import-${width}.png`, fullPage: true });
    }
  await walk.close();
}, 120_000);
