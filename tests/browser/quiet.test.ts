/** A quiet board: colour belongs to the bins that need someone and to nothing else (A1, A2), and no state leans on it (A4). */
import type { Board } from '@middenry/contract';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openBrowser, type Running, serve, visit, type Walk } from './harness.ts';
import { type Bands, madeBoard } from './made-board.ts';
import { chromaOf, contrast, EYES, type Eye, luminanceTo, type Picture, readPicture } from './pixels.ts';

const QUIET_CHROMA = 0.04;
let server: Running;
let browser: Browser;
let walk: Walk;
let page: Page;
let real: Board;
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  walk = await visit(browser, server.origin);
  ({ page } = walk);
  await walk.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: server.origin } });
  real = await (await walk.context.request.get('/api/board')).json();
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

/** Sixty bins on the board, so many of them in trouble. */
async function show(bands: Bands): Promise<void> {
  await page.unroute('**/api/board');
  await page.route('**/api/board', (route) => route.fulfill({ json: madeBoard(real, 60, bands) }));
  // A page that listens is awake: from then on a press on a tab is answered by the browser itself.
  const awake = page.waitForResponse((response) => response.url().includes('/api/events') && response.ok());
  await page.goto('/more', { waitUntil: 'load' });
  await awake;
  await page.locator('nav.tabs a').first().click();
  await expect.poll(() => page.locator('.tile').count()).toBe(60);
  await page.mouse.move(0, 0);
  await page.evaluate(() => {
    (document.activeElement as HTMLElement | null)?.blur();
    scrollTo(0, 0);
  });
}

/** Pixels with more colour than ink and paper have: how many, and how many of them outside of what may have it. */
async function coloured(): Promise<{ all: number; outside: number }> {
  const boxes = await page
    .locator('.tile.is-act, .tile.is-watch, .count, .worst')
    .evaluateAll((found) => found.map((one) => one.getBoundingClientRect().toJSON() as DOMRect));
  const picture = await readPicture(await page.screenshot());
  const known = new Map<number, boolean>();
  const isLoud = (rgb: readonly [number, number, number]) => {
    const key = (rgb[0] << 16) | (rgb[1] << 8) | rgb[2];
    const loud = known.get(key) ?? chromaOf(rgb) > QUIET_CHROMA;
    known.set(key, loud);
    return loud;
  };
  let [all, outside] = [0, 0];
  for (let y = 0; y < picture.height; y += 1)
    for (let x = 0; x < picture.width; x += 1) {
      if (!isLoud(picture.at(x, y))) continue;
      all += 1;
      if (!boxes.some((b) => x >= b.left - 1 && x <= b.right + 1 && y >= b.top - 1 && y <= b.bottom + 1)) outside += 1;
    }
  return { all, outside };
}

describe.each(['light', 'dark'] as const)('on %s paper', (colorScheme) => {
  test.each([360, 1440])('A1: sixty settled bins have no colour at %d px', async (width) => {
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width, height: width === 360 ? 640 : 900 });
    await show({});
    expect(await coloured()).toEqual({ all: 0, outside: 0 });
  });

  // Each pencil is the same on every tile: on dark paper the fullest board tells it all.
  const boards: Bands[] = [{ act: 12, watch: 8 }, ...(colorScheme === 'light' ? [{ act: 1 }, { act: 2, watch: 3 }] : [])];
  test.each(boards)('A2: with %j colour is theirs and the summary’s', async (bands) => {
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width: 360, height: 640 });
    await show({ ...bands, unknown: 2 });
    const { all, outside } = await coloured();
    expect(all).toBeGreaterThan(100);
    expect(outside).toBe(0);
  });

  test('A4: any two states differ by their outline, to every eye', async () => {
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width: 360, height: 640 });
    await show({ act: 1, watch: 1, unknown: 1 });
    const bands = ['settled', 'watch', 'act', 'unknown'] as const;
    const marks = await Promise.all(bands.map((band) => page.locator(`.tile.is-${band} .mark`).first().screenshot().then(readPicture)));
    for (const eye of Object.keys(EYES) as Eye[]) {
      const masks = marks.map((mark) => outline(mark, eye));
      for (const [i, one] of masks.entries())
        for (const [j, other] of masks.entries())
          if (i < j) expect(overlap(one, other), `${bands[i]} and ${bands[j]} to ${eye}`).toBeLessThan(0.7);
    }
  });
});

/** Where a mark stands out from its tile by 3 to 1, as such an eye sees it. */
function outline(mark: Picture, eye: Eye): boolean[] {
  const ground = luminanceTo(eye, mark.at(0, 0));
  const side = Math.min(mark.width, mark.height);
  const points = Array.from(
    { length: side * side },
    (_, n) => contrast(luminanceTo(eye, mark.at(n % side, Math.floor(n / side))), ground) >= 3,
  );
  expect(points.filter(Boolean).length, `nothing to see for ${eye}`).toBeGreaterThan(5);
  return points;
}

/** Share of what either covers that both do. */
function overlap(a: readonly boolean[], b: readonly boolean[]): number {
  const both = a.filter((on, i) => on && b[i]).length;
  const either = Array.from({ length: Math.max(a.length, b.length) }, (_, i) => a[i] || b[i]).filter(Boolean).length;
  return both / either;
}
