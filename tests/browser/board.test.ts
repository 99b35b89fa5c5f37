/** The board: flags seen and put aside (A17, A18), one cause over many bins (A.2), what is selected, held still (A11) and zoomed (A20). */
import type { Board } from '@middenry/contract';
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { uuid7 } from '../../apps/web/src/lib/shared/uuid7.ts';
import { axeFaults, openBrowser, type Running, serve, sidewaysPx, visit, type Walk } from './harness.ts';
import { madeBoard } from './made-board.ts';
import { targetsOf, tooSmall } from './measure.ts';
import { drawn } from './pixels.ts';

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

/** A board as made here, reached by a press on its tab, so that the page itself asks for it. */
async function show(board: Board): Promise<void> {
  await page.route('**/api/board', (route) => route.fulfill({ json: board }));
  await page.goto('/more');
  await page.locator('nav.tabs a').first().click();
  await expect.poll(() => page.locator('.tile').count()).toBe(board.bins.length);
}

/** Sixty bins, fourteen of which turn hot on the same day. */
function hotWeek(): Board {
  const board = madeBoard(real, 60, { act: 6, watch: 12, unknown: 2 });
  const flag = real.bins.find(({ flags }) => flags.length > 0)!.flags[0]!;
  let hot = 0;
  const bins = board.bins.map((bin) => {
    if ((bin.band !== 'act' && bin.band !== 'watch') || hot === 14) return bin;
    hot += 1;
    return { ...bin, flags: [{ ...flag, signal: 'hot' as const, band: bin.band, zone: null, holdsNow: true, sinceOn: real.today }] };
  });
  return { ...board, bins };
}

test('A.2: fourteen bins that one hot day reached are one row, each still marked in its place and one press away', async () => {
  await show(hotWeek());
  const rows = page.locator('.worst > ol > .entry');
  expect(await rows.count()).toBe(1 + 4 + 2);
  const group = rows.filter({ hasText: '14 bins are too warm.' });
  expect(await group.locator('.group-bins a.label').count()).toBe(14);
  expect(await page.locator('.tile.is-act, .tile.is-watch').count()).toBe(18);
  await group.getByText('One by one').click();
  expect(await group.locator('.entry .what:visible').count()).toBe(14);
  expect(await axeFaults(page)).toEqual([]);
  expect(tooSmall(await targetsOf(page), 44)).toEqual([]);
  expect(await sidewaysPx(page)).toBe(0);
  await page.unroute('**/api/board');
});

test('F27: bins that are not worked out yet are named, and nothing is called quiet meanwhile', async () => {
  const settled = real.bins.find(({ band }) => band === 'settled')!;
  const waiting = real.bins.slice(0, 2).map(({ id, code, name, siteId, siteName }) => ({ id, code, name, siteId, siteName }));
  const quiet = page.getByText('Nothing needs you today.');
  const counts = { act: 0, watch: 0, unknown: 0, settled: 1 };
  await show({ ...real, counts, aside: 0, bins: [settled], waiting: [] });
  expect(await quiet.count()).toBeGreaterThan(0);
  for (const bins of [[settled], []]) {
    await page.unroute('**/api/board');
    await show({ ...real, counts: { ...counts, settled: bins.length }, aside: 0, bins, waiting });
    const said = `2 bins are being worked out. Not known yet today: ${waiting[0]!.code} and ${waiting[1]!.code}.`;
    await page.getByRole('status').filter({ hasText: said }).waitFor();
    expect(await quiet.count()).toBe(0);
    expect(await axeFaults(page)).toEqual([]);
  }
  await page.unroute('**/api/board');
});

test('what is selected stands in the address, is said, outlives a word on a flag, and works without scripts', async () => {
  const plain = await visit(browser, server.origin, { javaScriptEnabled: false, storageState: await walk.context.storageState() });
  await plain.page.goto('/?order=place');
  await plain.page.getByText('Show only some').click();
  await plain.page.getByLabel('act', { exact: true }).check();
  await plain.page.getByRole('button', { name: 'Show these' }).click();
  const address = new URL(plain.page.url());
  expect([address.searchParams.getAll('band'), address.searchParams.get('order')]).toEqual([['act'], 'place']);
  await plain.close();
  const { siteId } = real.bins.find(({ band }) => band === 'act')!;
  const there = real.bins.filter((bin) => bin.siteId === siteId);
  await page.goto(`/?site=${siteId}&band=act`);
  expect(await page.locator('.tile').count()).toBe(there.length);
  const entries = page.locator('.worst > ol > .entry');
  expect(await entries.count()).toBe(there.filter(({ band }) => band === 'act').length);
  await page.getByText(`You see only: ${there[0]!.siteName}; act.`).waitFor();
  await entries.first().getByText('Seen, or put aside').click();
  await entries.first().getByRole('button', { name: 'I have seen it' }).click();
  await entries
    .first()
    .getByText(/^Seen by /)
    .waitFor();
  expect(new URL(page.url()).search).toBe(`?site=${siteId}&band=act`);
  await page.getByRole('link', { name: 'Show all' }).click();
  await expect.poll(() => page.locator('.tile').count()).toBe(real.bins.length);
});

test('A11: a board held still stays as it was, says how old it is, and catches up when it goes on', async () => {
  const bin = real.bins.find(({ band }) => band === 'settled')!;
  const other = await walk.context.newPage();
  const tileOn = (on: Page) => on.locator(`.tile:has(a[href="/bins/${bin.id}"])`);
  for (const on of [page, other]) {
    const listening = on.waitForResponse((response) => response.url().includes('/api/events') && response.ok());
    await on.goto('/');
    await listening;
  }
  await page.getByRole('button', { name: 'Pause' }).click();
  await page.locator('.hold-still', { hasText: /Paused since \d\d:\d\d\. +(New this minute|\d+.minutes? old)\./ }).waitFor();
  const smell = { id: uuid7(), binId: bin.id, happenedAt: new Date().toISOString(), smell: 'rotten' };
  const answer = await walk.context.request.post('/api/checks', { data: smell, headers: { origin: server.origin } });
  expect(answer.status()).toBe(201);
  // The board beside it has heard of it by then.
  await expect.poll(() => tileOn(other).getAttribute('class'), { timeout: 10_000 }).toContain('is-act');
  expect(await tileOn(page).getAttribute('class')).toContain('is-settled');
  await page.getByRole('button', { name: 'Go on' }).click();
  await expect.poll(() => tileOn(page).getAttribute('class'), { timeout: 10_000 }).toContain('is-act');
  await other.close();
});

/** Bins side by side in the first row, words that are cut, and what runs out of the page sideways. */
const laidOut = async (on: Page) => ({
  beside: await on
    .locator('.tile')
    .evaluateAll((tiles) => tiles.filter((tile) => tile.getBoundingClientRect().top === tiles[0]?.getBoundingClientRect().top).length),
  cut: await on
    .locator('.tile a, .count, .worst')
    .evaluateAll((all) =>
      all.filter((one) => one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 1).map((one) => one.textContent),
    ),
  sideways: await sidewaysPx(on),
});

test('A20: at four times its size the grid is a list; with letters twice as large nothing of it is cut', async () => {
  await show(hotWeek());
  await page.setViewportSize({ width: 320, height: 256 });
  expect(await laidOut(page)).toEqual({ beside: 1, cut: [], sideways: 0 });
  await page.setViewportSize({ width: 360, height: 640 });
  expect((await laidOut(page)).beside).toBe(6);
  await page.evaluate(() => {
    document.documentElement.style.fontSize = '200%';
  });
  const { beside, ...rest } = await laidOut(page);
  expect(beside).toBeLessThanOrEqual(3);
  expect(rest).toEqual({ cut: [], sideways: 0 });
  await page.unroute('**/api/board');
});

test('A12, A13: each trend in the list is 80 x 16 px at least, says in words what it shows, and figures keep two digits, a unit and a day', async () => {
  await page.goto('/');
  const trends = page.locator('.worst .trend .spark');
  expect(await trends.count()).toBe(await page.locator('.worst .entry:not(.entry-well)').count());
  for (const { box, says } of await trends.evaluateAll((all) =>
    all.map((one) => ({ box: one.getBoundingClientRect().toJSON() as DOMRect, says: one.getAttribute('aria-label') ?? '' })),
  )) {
    expect(box.width).toBeGreaterThanOrEqual(80);
    expect(box.height).toBeGreaterThanOrEqual(16);
    expect(says).toMatch(/, 8 weeks: .*\d.*(%|days?|°C|kg|g), (rising|falling|level), (above|below|within) the usual$/);
  }
  const facts = await page.locator('.worst .four dd, .worst .trend b, .worst .since').allTextContents();
  expect(facts.length).toBeGreaterThan(20);
  const NB = '\u00a0';
  const withoutDates = facts.join(' | ').replaceAll(/\d+ (Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sept?|Oct|Nov|Dec)\b/g, '');
  const figures = withoutDates.match(/\d[^ |]*/g) ?? [];
  expect(figures.length).toBeGreaterThan(10);
  // A zero that only holds a place is no digit that says something.
  const said = (figure: string) =>
    figure
      .split(NB)[0]!
      .replace(/\D/g, '')
      .replace(/^0+|0+$/g, '');
  expect(figures.filter((figure) => said(figure).length > 2 || !/^[\d.,]+\u00a0\S/.test(figure))).toEqual([]);
});

/** Whether all of it stands in the window, above the tabs at the foot. */
const inSight = (one: Locator): Promise<boolean> =>
  one.evaluate((node) => {
    const { top, bottom } = node.getBoundingClientRect();
    return top >= 0 && bottom <= (document.querySelector('nav.tabs')?.getBoundingClientRect().top ?? innerHeight);
  });

test('A8: the worst bin and its remedy are in sight after two taps, and so is the log that explains it', async () => {
  await page.goto('/');
  const worst = page.locator('.worst > ol > .entry').first();
  const remedy = worst.locator('.help').first();
  expect(await inSight(remedy)).toBe(false);
  await page.locator('.count').click();
  const code = (await worst.locator('.label').textContent())!.trim();
  const helps = (await remedy.textContent())!.replace(/\s+/g, ' ');
  expect(helps).toMatch(/^\s*Today: .{10,}\./);
  await worst.locator('.label').click();
  await page.waitForURL('**/bins/*');
  await page.getByRole('heading', { level: 1 }).waitFor();
  expect(await page.locator('main').textContent()).toContain(code);
  const firstWords = /Today: ([^.,]+)/.exec(helps)![1]!;
  expect((await page.locator('main').textContent())!.replace(/\s+/g, ' ')).toContain(firstWords);
  await page.getByRole('heading', { name: 'Its log' }).waitFor();
  expect(await page.locator('[id^="entry-"]').count()).toBeGreaterThan(0);
});

/** What holds the focus, as a listener would hear it. */
const focused = (on: Page): Promise<string> =>
  on.evaluate(() => {
    const one = document.activeElement;
    return `${one?.localName} ${one?.getAttribute('aria-label') ?? one?.textContent ?? ''}`.replace(/\s+/g, ' ').trim().slice(0, 60);
  });

test('every task of the board can be done by keys alone, and what holds the focus is seen to', async () => {
  await page.goto('/');
  await page.locator('.count').focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => new URL(page.url()).hash).toBe('#list');
  const walked: string[] = [];
  const unseen: string[] = [];
  for (let step = 0; step < 14; step += 1) {
    await page.keyboard.press('Tab');
    walked.push(await focused(page));
    const outline = await page.evaluate(() => Number.parseFloat(getComputedStyle(document.activeElement!).outlineWidth));
    if (!(outline >= 2)) unseen.push(walked.at(-1)!);
  }
  expect(unseen).toEqual([]);
  const at = (what: RegExp) => walked.findIndex((one) => what.test(one));
  const order = [
    at(/^a By place/),
    at(/^summary Show only some/),
    at(/^button Pause/),
    at(/^a \w+, act/),
    at(/^summary Seen, or put aside/),
  ];
  expect(
    order.every((place) => place >= 0),
    walked.join(' | '),
  ).toBe(true);
  expect([...order].sort((a, b) => a - b)).toEqual(order);
  const flag = page.locator('.worst > ol > .entry').first();
  await flag.locator('.flag-say summary').focus();
  await page.keyboard.press('Enter');
  await flag.getByLabel('Why put it aside?').focus();
  await page.keyboard.type('A fan is on its way');
  await page.keyboard.press('Enter');
  await page.getByText('1 bin is put aside.').waitFor();
  await page.getByRole('button', { name: /Take it up again/ }).focus();
  await page.keyboard.press('Enter');
  await page.getByText('Nothing is put aside.').waitFor();
});

test('A4, A11: with forced colours each mark and code still stands out, and nothing on the board moves by itself', async () => {
  await page.emulateMedia({ forcedColors: 'active', reducedMotion: 'reduce' });
  await show(madeBoard(real, 60, { act: 1, watch: 1, unknown: 1 }));
  for (const band of ['settled', 'watch', 'act', 'unknown'] as const) {
    const tile = page.locator(`.tile.is-${band}`).first();
    expect(await drawn(tile.locator('.mark'), 3), `mark of ${band}`).toBeGreaterThan(5);
    expect(await drawn(tile.locator('.code'), 4.5), `code of ${band}`).toBeGreaterThan(5);
  }
  expect(await page.evaluate(() => document.getAnimations().length)).toBe(0);
  await page.emulateMedia({ forcedColors: 'none', reducedMotion: 'no-preference' });
  await page.unroute('**/api/board');
});
