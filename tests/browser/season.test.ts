/** The season as people read it: every cell knows the grams that it is rounded from, and they are those of the JSON and the CSV. */
import { parse } from 'csv-parse/sync';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeFaults, openBrowser, type Running, serve, visit, type Walk } from './harness.ts';

let server: Running;
let browser: Browser;
let walk: Walk;
let span: string;

beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  walk = await visit(browser, server.origin, { javaScriptEnabled: false });
  const headers = { origin: server.origin };
  await walk.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers });
  const { today } = await (await walk.context.request.get('/api/session')).json();
  span = `from=${Number(today.slice(0, 4)) - 1}-09-15&to=${today}`;
});
afterAll(async () => {
  await walk?.close();
  await browser?.close();
  await server?.stop();
});

const rowsOf = (caption: string, part: 'tbody' | 'tfoot') =>
  walk.page
    .locator('table', { has: walk.page.locator('caption', { hasText: new RegExp(`^\\s*${caption}\\s*$`) }) })
    .locator(`${part} tr`)
    .evaluateAll((rows) => rows.map((row) => [...row.querySelectorAll('data')].map(({ value }) => Number(value))));
const sums = (rows: number[][]) => rows[0]!.map((_, column) => rows.reduce((sum, row) => sum + row[column]!, 0));

test.each(['metric', 'us'])('D3: HTML, JSON and CSV add up to the same grams, units %s', async (units) => {
  const headers = { origin: server.origin };
  expect((await walk.context.request.patch('/api/programme', { data: { units }, headers })).status()).toBe(200);
  const season = await (await walk.context.request.get(`/api/season?${span}`)).json();
  const csv = await (await walk.context.request.get(`/api/season.csv?${span}`)).text();
  await walk.page.goto(`/season?${span}`);
  const { total } = season;
  const shown = [total.fedWeighedG, total.fedEstimatedG, total.harvestedG, total.minutes];
  expect(Math.min(...shown)).toBeGreaterThan(0);
  for (const caption of ['By month', 'By site', 'By bin']) {
    expect([caption, sums(await rowsOf(caption, 'tbody'))]).toEqual([caption, shown]);
    expect(await rowsOf(caption, 'tfoot')).toEqual([shown]);
  }
  const last = parse(csv, { columns: true, bom: true }).at(-1) as Record<string, string>;
  expect([last.fed_weighed_g, last.fed_estimated_g, last.harvested_g, last.minutes_given].map(Number)).toEqual(shown);
  const materials = sums(await rowsOf('By material', 'tbody'));
  expect(materials).toEqual([total.fedWeighedG, total.fedEstimatedG, total.beddingG]);
  expect(sums(await rowsOf('Where castings went', 'tbody'))).toEqual([total.harvestedG, 100]);
  const unit = units === 'us' ? 'lb' : 'kg';
  expect(await walk.page.locator('table', { hasText: 'Bedding' }).first().textContent()).toContain(`\u00a0${unit}`);
});

test('a season is given a name and loses it again, without scripts', async () => {
  const { page } = walk;
  await page.goto(`/season?${span}`);
  await page.getByRole('button', { name: 'Keep it' }).click();
  expect(await page.locator('.faults').textContent()).toContain('Write a name.');
  await page.locator('#name').fill('Worm year');
  await page.getByRole('button', { name: 'Keep it' }).click();
  await page.locator('.saved', { hasText: 'The season is kept.' }).waitFor();
  await page.goto('/season');
  await page.getByRole('link', { name: /^Worm year:/ }).click();
  expect(new URL(page.url()).search).toBe(`?${span}`);
  await page.getByRole('button', { name: 'Take the name away: Worm year' }).click();
  await page.locator('.saved', { hasText: 'The name is gone.' }).waitFor();
  expect(await page.getByRole('link', { name: /^Worm year:/ }).count()).toBe(0);
});

test('D1, D11: the season is one tap from the board, and has nothing for axe', async () => {
  const scripted = await visit(browser, server.origin);
  await scripted.context.addCookies(await walk.context.cookies());
  await scripted.page.goto('/');
  await scripted.page.getByRole('link', { name: 'Season', exact: true }).click();
  await scripted.page.getByRole('table', { name: 'In figures' }).waitFor();
  expect(await axeFaults(scripted.page)).toEqual([]);
  expect([scripted.complaints, scripted.strangers]).toEqual([[], []]);
  await scripted.close();
});
