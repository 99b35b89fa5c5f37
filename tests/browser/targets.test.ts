/** What fingers meet: sizes and gaps of everything that can be pressed (criteria B2), and sixty bins on one phone screen (A7). */
import { gzipSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openBrowser, type Running, serve, visit, type Walk } from './harness.ts';
import { targetsOf, tooNear, tooSmall } from './measure.ts';
import { PAPERS, sheetsOf } from './printed.ts';

const BIN_SIDE_PX = 56;
const ELSEWHERE_PX = 44;
const GAP_PX = 8;
/** The last is what the walk begins with and goes on with. */
const PHONES_PX = [320, 390, 360];

let server: Running;
let browser: Browser;
let walk: Walk;
const places: Record<string, string> = {};
const read = async (path: string) => (await walk.context.request.get(path)).json();

beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  walk = await visit(browser, server.origin, { viewport: { width: 360, height: 640 } });
  await walk.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: server.origin } });
  const [bin] = (await read('/api/board')).bins;
  Object.assign(places, { bin: bin.id, code: bin.code });
  places.shift = (await read('/api/shifts')).items[0].id;
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});
/** What is too small or too near on any phone's width, with the width it is so at. */
async function faultsOf(page: Page, leastPx: number, gapPx: number | null, fewest = 5): Promise<string[]> {
  const found: string[] = [];
  for (const width of PHONES_PX) {
    await page.setViewportSize({ width, height: 640 });
    const targets = await targetsOf(page);
    expect(targets.length).toBeGreaterThan(fewest);
    const near = gapPx === null ? [] : tooNear(targets, gapPx);
    found.push(...[...tooSmall(targets, leastPx), ...near].map((line) => `at ${width}: ${line}`));
  }
  return found;
}
const real = (path: string) => path.replace(/:(\w+)/, (_, name: string) => places[name]!);

describe('B2: at the bin', () => {
  test.each([
    '/log',
    '/find?code=ZZ9',
    '/bins/:bin/log',
    '/bins/:bin/log?kind=check',
    '/bins/:bin/log?kind=harvest',
    '/bins/:bin/log?kind=care',
  ])('everything on %s is 56 px and stands 8 px apart at 320, 360 and 390 px', async (path) => {
    await walk.page.goto(real(path), { waitUntil: 'load' });
    expect(await faultsOf(walk.page, BIN_SIDE_PX, GAP_PX)).toEqual([]);
  });
});

test('B2: everything at the end of a label is 56 px and stands 8 px apart for who has not signed in', async () => {
  const stranger = await visit(browser, server.origin, { viewport: { width: 360, height: 640 } });
  await stranger.page.goto(real('/b/:code'), { waitUntil: 'load' });
  // The ways in and the languages, and nothing more.
  expect(await faultsOf(stranger.page, BIN_SIDE_PX, GAP_PX, 2)).toEqual([]);
  await stranger.close();
});

describe('B2: elsewhere', () => {
  test.each([
    '/',
    '/?order=place',
    '/bins/:bin',
    '/shifts',
    '/shifts/:shift',
    '/season',
    '/season/climate',
    '/people',
    '/me',
    '/me/erase',
    '/me/when',
    '/messages',
    '/messages/group',
    '/rota',
    '/intake',
    '/bins/labels',
    '/more',
    '/castings',
    '/flags',
  ])('everything on %s is 44 px', async (path) => {
    await walk.page.goto(real(path), { waitUntil: 'load' });
    expect(await faultsOf(walk.page, ELSEWHERE_PX, null)).toEqual([]);
  });
});

describe("B26: the scripts that a volunteer's phone really fetches, words and all", () => {
  // 90 kB is the criterion, for what the log form fetches to stand and be used; the other limits are ours, so that growth is
  // noticed: raised on 2026-11-26 from 96 and 98 kB, as groups on the board, the made-up bin and prints brought words and code of their own,
  // and again for refused photos, parts of a page that do not come, the pages about flags and people's data, and consents and reports with photos.
  test.each([
    ['en-GB', '/bins/:bin/log', 90_000, 96_000],
    ['es-ES', '/bins/:bin/log', 90_000, 96_000],
    ['es-ES', '/shifts', 104_000, 111_000],
    ['es-ES', '/', 109_000, 116_000],
  ])('in %s at %s weigh at most %i bytes at first, and %i with what carries notes', async (locale, path, firstBytes, allBytes) => {
    const phone = await visit(browser, server.origin, { locale, viewport: { width: 360, height: 640 } });
    await phone.context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: server.origin } });
    const sizes: Promise<number>[] = [];
    phone.page.on('response', (answer) => {
      if (answer.request().resourceType() === 'script') sizes.push(answer.body().then((body) => gzipSync(body).length));
    });
    const fetched = async () => (await Promise.all(sizes)).reduce((sum, size) => sum + size, 0);
    await phone.page.goto(real(path), { waitUntil: 'networkidle' });
    const first = await fetched();
    expect(sizes.length).toBeGreaterThan(5);
    // The words alone are some ten, so that less would mean that they were missed.
    expect(first).toBeGreaterThan(60_000);
    expect(first).toBeLessThanOrEqual(firstBytes);
    // What sends and carries notes starts a second after the page stands, and is counted too.
    await phone.page.locator('[role="status"][aria-label]').first().waitFor({ state: 'attached' });
    expect(await fetched()).toBeGreaterThan(first);
    expect(await fetched()).toBeLessThanOrEqual(allBytes);
    await phone.close();
  });
});

test('A7, D13: header, summary line and sixty bins fit one phone screen, in the order of their places, and four sheets of paper', async () => {
  const site = (await read('/api/sites')).items[0].id;
  const { today } = await read('/api/session');
  const there = (await read('/api/board')).bins.length as number;
  for (let n = there; n < 60; n += 1) {
    const answer = await walk.context.request.post('/api/bins', {
      headers: { origin: server.origin },
      data: {
        id: `0199f000-0000-7000-8000-${String(n).padStart(12, '0')}`,
        siteId: site,
        code: `Z${n}`,
        name: `Bin ${n}`,
        kind: 'tote',
        areaM2: 0.2,
        depthM: 0.35,
        zones: 2,
        startedOn: today,
        wormsKg: 0.5,
        bedWaterKg: 4,
        bed: [{ materialId: 'cardboard_corrugated', massKg: 2 }],
        placeOrder: n,
      },
    });
    expect(answer.status()).toBe(201);
  }
  // Sixty bins nobody has looked at yet: on a busy machine the first look is answered before all are worked out.
  const lacking = async () => {
    const board = await walk.context.request.get('/api/board');
    return board.ok() ? (await board.json()).waiting.length : 60;
  };
  await expect.poll(lacking, { timeout: 40_000, interval: 250 }).toBe(0);
  for (const width of [320, 360, 390]) {
    await walk.page.setViewportSize({ width, height: 640 });
    await walk.page.goto('/?order=place', { waitUntil: 'load' });
    const tiles = await walk.page
      .locator('.tile')
      .evaluateAll((all) => all.map((tile) => tile.getBoundingClientRect().toJSON() as DOMRect));
    expect(tiles).toHaveLength(60);
    const tabs = await walk.page.evaluate(() => document.querySelector('nav.tabs')?.getBoundingClientRect().top ?? innerHeight);
    expect(Math.max(...tiles.map((tile) => tile.bottom)), `last row at ${width}`).toBeLessThanOrEqual(tabs);
    expect(Math.min(...tiles.map((tile) => tile.width))).toBeGreaterThanOrEqual(46.5);
    expect(Math.min(...tiles.map((tile) => tile.height))).toBeGreaterThanOrEqual(43.5);
  }
  // D13: the same board on paper.
  await walk.page.goto('/', { waitUntil: 'load' });
  for (const paper of PAPERS) expect(await sheetsOf(walk.page, paper), paper).toBeLessThanOrEqual(4);
});
