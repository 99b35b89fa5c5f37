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

const NEW_ID = '0199f000-0000-7000-8000-000000000f01';
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
  const { harvests, weighedG, expectedG } = season.castings.expected;
  const expected = [harvests, weighedG, expectedG.mid, expectedG.low, expectedG.high];
  expect(harvests).toBeGreaterThan(0);
  expect(sums(await rowsOf('Weighed against expected', 'tbody'))).toEqual(expected);
  expect(await rowsOf('Weighed against expected', 'tfoot')).toEqual([expected]);
  const unit = units === 'us' ? 'lb' : 'kg';
  // Bars show a tenth of a unit each, so that their sum is off by less than a twentieth a bar.
  for (const part of ['site', 'bin']) {
    const bars = walk.page.getByRole('img', { name: new RegExp(`^Scraps by ${part}, in ${unit}\\.`) }).locator('.bar-sum');
    const texts = await bars.allTextContents();
    const gramsEach = units === 'us' ? 453.59237 : 1000;
    const shownG = texts.reduce((sum, text) => sum + Number.parseFloat(text) * gramsEach, 0);
    expect(Math.abs(shownG - total.fedWeighedG - total.fedEstimatedG)).toBeLessThanOrEqual((texts.length * gramsEach) / 20);
  }
  expect(await walk.page.locator('table', { hasText: 'Bedding' }).first().textContent()).toContain(`\u00a0${unit}`);
});

test('a season is given a name, another one and words, without scripts', async () => {
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
  await page.getByRole('link', { name: 'Change or publish: Worm year' }).click();
  await page.locator('#name').fill('Year of worms');
  await page.locator('#text-opening').fill('A dry spring.\n\nThen it <b>rained</b>.');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.locator('.saved', { hasText: 'Saved.' }).waitFor();
  await page.goto(`/season?${span}`);
  expect(await page.locator('.opening .said').allTextContents()).toEqual(['A dry spring.', 'Then it <b>rained</b>.']);
  await page.getByRole('link', { name: 'Change or publish: Year of worms' }).click();
});

test('D14: a published report keeps its numbers and words, and tells what changed since; its season loses its name', async () => {
  const { page } = walk;
  const kept = page.url();
  await page.getByRole('button', { name: 'Publish it' }).click();
  await page.locator('.saved', { hasText: 'It is published.' }).waitFor();
  const address = page.url();
  expect(await page.locator('#changed').textContent()).toContain('All totals are the same today.');
  const figures = page
    .getByRole('table', { name: 'In figures' })
    .locator('tr', { hasText: 'Castings, as weighed' })
    .locator('data')
    .first();
  const before = Number(await figures.getAttribute('value'));
  const { items } = await (await walk.context.request.get('/api/bins')).json();
  const data = { id: NEW_ID, binId: items[0].id, happenedAt: new Date().toISOString(), massKg: 1.25, destination: 'beds' };
  const headers = { origin: server.origin };
  expect((await walk.context.request.post('/api/harvests', { data, headers })).status()).toBe(201);
  await page.goto(address);
  const row = page.locator('#changed tr', { hasText: 'Castings, as weighed' });
  const values = await row.locator('data').evaluateAll((cells) => cells.map((cell) => Number((cell as HTMLDataElement).value)));
  expect(values).toEqual([before, before + 1250, 1250]);
  expect(await figures.getAttribute('value')).toBe(String(before));
  expect(await page.locator('.opening .said').first().textContent()).toBe('A dry spring.');
  const pdf = await page.getByRole('link', { name: 'Save to print (PDF)' }).getAttribute('href');
  expect((await (await walk.context.request.get(pdf!)).body()).subarray(0, 5).toString()).toBe('%PDF-');
  await page.goto(kept);
  await page.getByRole('button', { name: 'Take the name away: Year of worms' }).click();
  await page.locator('.saved', { hasText: 'The name is gone.' }).waitFor();
  expect(await page.getByRole('link', { name: /^Year of worms:/ }).count()).toBe(0);
  expect(await page.getByRole('link', { name: /^Year of worms, published/ }).count()).toBe(1);
});

test('D5: climate gases are left out until a coordinator takes a set, looks it up and says so; then the report prints by what', async () => {
  const { page } = walk;
  await page.goto(`/season?${span}`);
  await page.getByRole('link', { name: 'Count climate gases' }).click();
  await page.getByRole('link', { name: 'US EPA Emission Factors Hub, Table 9, food waste, 2026' }).click();
  await page.getByRole('button', { name: 'Count by these figures' }).click();
  const faults = await page.locator('.faults li').allTextContents();
  expect(faults).toEqual(['Write a whole number from 1 to 100.', 'Look the figures up first, then tick this.']);
  await page.locator('#landfillPercent').fill('80');
  await page.locator('#confirmed').check();
  await page.getByRole('button', { name: 'Count by these figures' }).click();
  await page.locator('.saved', { hasText: 'Climate gases are counted' }).waitFor();
  await page.goto(`/season?${span}`);
  const { climate } = await (await walk.context.request.get(`/api/season?${span}`)).json();
  const told = await rowsOf('Climate gases, lb CO2e', 'tbody');
  expect(told).toEqual([climate.landfillAvoidedG, climate.processG, climate.differenceG].map((line) => Object.values(line)));
  const leaf = await page.locator('#climate').textContent();
  for (const part of [climate.factors.source, 'Edition 2026', 'United States', '80\u00a0%', '749.57 (308.65 to 749.57)'])
    expect(leaf).toContain(part);
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
