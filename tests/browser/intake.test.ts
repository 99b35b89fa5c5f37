/** Scraps on offer become amounts on the card of a shift. */
import type { Browser } from 'playwright-core';
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

test('a coordinator plans two offers, and the shift that feeds them shows the amounts', async () => {
  const walk = await visit(browser, server.origin, { viewport: { width: 360, height: 640 } });
  const { page } = walk;
  await walk.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: server.origin } });
  await page.goto('/intake');
  await page.locator('#from-1').fill('Cafe by the mill');
  await page.locator('#what-1').selectOption('coffee_grounds');
  await page.locator('#mass-1').fill('1,5');
  await page.locator('#from-2').fill('Bakery kitchen');
  await page.locator('#mass-2').fill('a lot');
  await page.getByRole('button', { name: 'Work out a plan' }).click();
  await page.getByText('Type a weight, such as 4.5.').first().waitFor();
  expect(await page.locator('#mass-1').inputValue()).toBe('1,5');
  await page.locator('#what-2').selectOption('lettuce');
  await page.locator('#mass-2').fill('2 kg');
  await page.getByRole('button', { name: 'Work out a plan' }).click();
  const plan = page.locator('#plan');
  await plan.getByRole('table').waitFor();
  const rows = await plan.locator('tbody tr').allInnerTexts();
  expect(rows.join(' ')).toMatch(/coffee|lettuce/i);
  expect(await axeFaults(page)).toEqual([]);
  expect(await sidewaysPx(page)).toBeLessThanOrEqual(0);
  await plan.getByRole('button', { name: 'Put the amounts on this shift' }).click();
  await plan.getByRole('link', { name: 'See the shift' }).click();
  await page.waitForURL(/\/shifts\//);
  await expect.poll(() => page.locator('main').textContent()).toMatch(/coffee|lettuce/i);
  expect(walk.complaints).toEqual([]);
  await walk.close();
}, 120_000);
