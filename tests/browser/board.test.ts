/** The board: flags seen and put aside (A17, A18). */
import type { Board } from '@middenry/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeFaults, openBrowser, type Running, serve, visit, type Walk } from './harness.ts';

let server: Running;
let browser: Browser;
let walk: Walk;
let page: Page;
let real: Board;
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  walk = await visit(browser, server.origin, { viewport: { width: 360, height: 640 } });
  ({ page } = walk);
  await walk.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: server.origin } });
  real = await (await walk.context.request.get('/api/board')).json();
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

test('A17, A18: a flag that was seen keeps its place; one put aside keeps its mark, is counted, and is taken up again', async () => {
  await page.goto('/', { waitUntil: 'load' });
  const first = page.locator('.worst > ol > .entry').first();
  const code = (await first.locator('.label').textContent())!.trim();
  const tile = page.locator('.tile', { has: page.locator('.code', { hasText: new RegExp(`^${code}$`) }) });
  await page.getByText('Nothing is put aside.').waitFor();
  await first.getByText('Seen, or put aside').click();
  await first.getByRole('button', { name: 'I have seen it' }).click();
  await first.getByText(/^Seen by .+ today, \d\d:\d\d/).waitFor();
  expect(await tile.getAttribute('class')).toContain('is-act');
  expect(await axeFaults(page)).toEqual([]);
  await first.getByLabel('Why put it aside?').fill('A fan is on its way');
  await first.getByRole('button', { name: 'Put it aside' }).click();
  await page.getByText('1 bin is put aside.').waitFor();
  expect(await tile.getAttribute('class')).toContain('is-act');
  await page.locator('.count .set-aside', { hasText: '1 put aside' }).waitFor();
  expect(await page.locator('.worst > ol > .entry .label', { hasText: new RegExp(`^${code}$`) }).count()).toBe(0);
  const apart = page.locator('.asides .entry');
  await apart.getByText('A fan is on its way').waitFor();
  expect(await axeFaults(page)).toEqual([]);
  await apart.getByRole('button', { name: /Take it up again/ }).click();
  await page.getByText('Nothing is put aside.').waitFor();
  const after = (await (await walk.context.request.get('/api/board')).json()) as Board;
  expect([after.aside, after.counts]).toEqual([0, real.counts]);
  expect(walk.complaints).toEqual([]);
});
