/** The screen on a wall: large enough to read from where people stand (A9), and never a quiet picture that nobody renews (A10). */
import type { Board } from '@middenry/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { letterPx } from '../../apps/web/src/lib/wall/letters.ts';
import { axeFaults, openBrowser, type Running, serve, sidewaysPx, visit, type Walk } from './harness.ts';
import { madeBoard } from './made-board.ts';

const GLASS = { widthPx: 1920, heightPx: 1080 };
let server: Running;
let browser: Browser;
let walk: Walk;
let page: Page;
let real: Board;
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  walk = await visit(browser, server.origin, { viewport: { width: GLASS.widthPx, height: GLASS.heightPx } });
  ({ page } = walk);
  await walk.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: server.origin } });
  real = await (await walk.context.request.get('/api/board')).json();
  await page.clock.install();
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

/** The screen asks each half minute; this is what it hears. */
async function hear(board: Board): Promise<void> {
  await page.unroute('**/api/board');
  await page.route('**/api/board', (route) => route.fulfill({ json: board }));
  const heard = page.waitForResponse('**/api/board');
  await page.clock.runFor(31_000);
  await heard;
  await expect.poll(() => page.locator('.wall-grid .tile').count()).toBeGreaterThan(0);
}

/** What stands outside of what holds it. */
const cutOff = (on: Page): Promise<string[]> =>
  on.evaluate(() => {
    const found: string[] = [];
    for (const tile of document.querySelectorAll('.wall-grid .tile')) {
      const whole = tile.getBoundingClientRect();
      for (const part of tile.querySelectorAll('.code, .word, .mark, .spark')) {
        const box = part.getBoundingClientRect();
        // A line of words is as wide as its letters, whatever box it was given.
        const words = document.createRange();
        words.selectNodeContents(part);
        const across = part.matches('.code, .word') ? words.getBoundingClientRect() : box;
        const fits = across.left >= whole.left - 1 && across.right <= whole.right + 1 && box.top >= whole.top - 1;
        if (!fits || box.bottom > whole.bottom + 1) found.push(`${tile.textContent}: ${part.getAttribute('class')}`);
      }
    }
    for (const entry of document.querySelectorAll('.wall-list .wall-entry'))
      if (entry.getBoundingClientRect().bottom > innerHeight + 1) found.push(`list: ${entry.textContent}`);
    return found;
  });

test('A9: setting up says how high letters must be, what does not fit, and offers fewer a page', async () => {
  await page.goto('/wall');
  await page.getByRole('button', { name: 'Work it out' }).click();
  await expect.poll(() => page.locator('.fault').count()).toBe(2);
  await page.getByLabel(/corner to corner/).fill('32');
  await page.getByLabel(/How far off/).fill('5');
  await page.getByRole('button', { name: 'Work it out' }).click();
  await page.getByText(/Letters must be 29.mm high/).waitFor();
  await page
    .getByRole('link', { name: /a page$|Show the wall/ })
    .first()
    .click();
  await page.locator('.wall-grid').waitFor();
  const code = page.locator('.wall-grid .code').first();
  const sizePx = await code.evaluate((node) => Number.parseFloat(getComputedStyle(node).fontSize));
  expect(sizePx).toBe(letterPx(5, { ...GLASS, diagonalInch: 32 }));
  expect(await cutOff(page)).toEqual([]);
});

test('A8, A9: sixty bins on 43 inches read from 3 m, the five worst and how many more', async () => {
  await page.goto('/wall?inch=43&m=3&show=fit');
  await hear(madeBoard(real, 60, { act: 4, watch: 5, unknown: 3 }));
  const tiles = await page
    .locator('.wall-grid .tile')
    .evaluateAll((all) => all.map((tile) => tile.getBoundingClientRect().toJSON() as DOMRect));
  expect(tiles).toHaveLength(60);
  expect(Math.min(...tiles.map(({ width }) => width))).toBeGreaterThanOrEqual(178);
  expect(Math.min(...tiles.map(({ height }) => height))).toBeGreaterThanOrEqual(146);
  expect(await page.locator('.wall-entry').count()).toBe(5);
  await page.getByText('and 7 more').waitFor();
  expect(await cutOff(page)).toEqual([]);
  expect(await sidewaysPx(page)).toBe(0);
  expect(await axeFaults(page)).toEqual([]);
});

test('A9: what does not fit on one page goes on further ones, which turn by themselves and can be held', async () => {
  await page.goto('/wall?inch=32&m=5&show=fit');
  await hear(madeBoard(real, 60, { act: 2 }));
  const first = () => page.locator('.wall-grid .code').first().textContent();
  expect(await cutOff(page)).toEqual([]);
  const was = await first();
  await page.clock.runFor(21_000);
  expect(await first()).not.toBe(was);
  await page.getByRole('button', { name: 'Pause' }).click();
  const held = await first();
  await page.clock.runFor(41_000);
  expect(await first()).toBe(held);
  await page.getByText(/^Paused since/).waitFor();
});

test('A10: with the server gone it says so within a minute of five, full width, and nothing on it is settled', async () => {
  await page.unroute('**/api/board');
  await page.goto('/wall?inch=43&m=3&show=fit');
  await page.locator('.tile.is-settled').first().waitFor();
  const since = await page.locator('.wall-says').textContent();
  await server.stop();
  await page.clock.runFor(4 * 60_000 + 50_000);
  expect(await page.locator('.wall-head.cut').count()).toBe(0);
  expect(await page.locator('.wall-age').textContent()).toMatch(/^4.minutes old$/);
  await page.clock.runFor(60_000);
  const told = page.locator('.wall-head.cut');
  expect(await told.textContent()).toContain(`Not live since ${/\d\d:\d\d/.exec(since ?? '')?.[0]}`);
  expect((await told.boundingBox())?.width).toBe(GLASS.widthPx);
  expect(await page.locator('.tile.is-settled').count()).toBe(0);
  expect(await page.locator('.tile.is-unknown').count()).toBeGreaterThan(0);
});
