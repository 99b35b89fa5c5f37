/** What the model says of a bin, on its page: what is, what comes, why, what helps, what to look at; and what a check teaches it. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { addDays } from '../../apps/web/src/lib/format/days.ts';
import { uuid7 } from '../../apps/web/src/lib/shared/uuid7.ts';
import { axeFaults, openBrowser, type Running, serve, sidewaysPx, tabTo, visit, type Walk } from './harness.ts';
import { drawn } from './pixels.ts';

interface Told {
  readonly id: string;
  readonly band: string;
  readonly zones: number;
}

let server: Running;
let browser: Browser;
let walk: Walk;
let bins: Told[] = [];
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  walk = await visit(browser, server.origin);
  await send('/api/session/demo', { as: 'coordinator' });
  // The first answers after a start lack the bins that are not stepped through their whole log yet.
  const look = async (): Promise<{ bins?: Told[]; waiting?: unknown[] }> => read('/api/board');
  let board = await look();
  for (let tries = 0; tries < 8 && board.waiting?.length !== 0; tries++) board = await look();
  bins = board.bins ?? [];
}, 120_000);
afterAll(async () => {
  await walk?.close();
  await browser?.close();
  await server?.stop();
});

const read = async (path: string) => (await walk.context.request.get(path, { timeout: 60_000 })).json();
async function send(path: string, data: object): Promise<void> {
  const answer = await walk.context.request.post(path, { data, headers: { origin: server.origin } });
  expect(answer.ok(), `${path}: ${answer.status()}`).toBe(true);
}
const settled = () => bins.find(({ band }) => band === 'settled')!;

test('a squeeze that runs, noted at a settled bin, moves its band on a board that nobody touches', async () => {
  const bin = settled();
  const listening = walk.page.waitForResponse((response) => response.url().includes('/api/events') && response.ok());
  await walk.page.goto('/');
  await listening;
  await walk.page.evaluate(() => document.documentElement.setAttribute('data-untouched', 'yes'));
  const tile = walk.page.locator(`.tile:has(a[href="/bins/${bin.id}"])`).first();
  expect(await tile.getAttribute('class')).toContain('is-settled');
  const check = { squeeze: 'trickle', smell: null, worms: null, bedTempC: null, ph: null, leftover: [], visitors: [], note: '' };
  await send('/api/checks', { id: uuid7(), binId: bin.id, happenedAt: new Date().toISOString(), ...check });
  await expect.poll(() => tile.getAttribute('class'), { timeout: 10_000 }).toMatch(/is-(act|watch)/);
  expect(await walk.page.evaluate(() => document.documentElement.getAttribute('data-untouched'))).toBe('yes');
  await walk.page.goto(`/bins/${bin.id}`);
  await walk.page.getByText('A squeeze gave a trickle').first().waitFor();
});

test('a page shows the fan with a table of every day to come, why, and what helps with before and after', async () => {
  const { page } = walk;
  const bin = (await read('/api/board')).bins.find(({ band }: Told) => band === 'act');
  const outlook = await read(`/api/bins/${bin.id}/outlook`);
  await page.goto(`/bins/${bin.id}`, { waitUntil: 'load' });
  await page.locator('#history summary').click();
  expect(await page.locator('#history tbody tr').filter({ hasText: '(expected)' }).count()).toBe(outlook.forecast.length - 1);
  expect(await page.locator('#history tbody tr', { hasText: 'to be fed' }).count()).toBe(
    new Set(outlook.planned.map(({ on }: { on: string }) => on)).size,
  );
  expect(await page.locator('#history canvas').count()).toBe(1);
  expect(await page.locator('.reasons li').count()).toBeGreaterThan(0);
  expect(await page.locator('.helps tbody .nums').first().textContent()).toMatch(/%.*→.*%/);
  // One cause is told once: a flag that another speaks for has no line of its own.
  const others = outlook.flags.filter((flag: { band: string; partOf: string | null }) => flag.band !== 'settled' && flag.partOf === null);
  expect(await page.locator('#also li').count()).toBe(others.length - 1);
  expect(walk.complaints).toEqual([]);
});

test('a remedy pressed is noted as care; for a lead it goes among the duties of the next shift', async () => {
  const { page } = walk;
  await page.setViewportSize({ width: 360, height: 740 });
  const shown: string[] = [];
  for (const { id } of bins.filter(({ band }) => band === 'act')) {
    await page.goto(`/bins/${id}`, { waitUntil: 'load' });
    if ((await page.locator('form[action="?/did"]').count()) > 0) shown.push(id);
  }
  expect(shown.length, 'no flag has a remedy that is noted at once').toBeGreaterThan(0);
  const bin = shown[0]!;
  await page.goto(`/bins/${bin}`, { waitUntil: 'load' });
  expect(await sidewaysPx(page)).toBe(0);
  const before = (await read(`/api/bins/${bin}/entries`)).items[0].id;
  await page.locator('form[action="?/plan"] button').first().click();
  await page.waitForURL(/planned=/);
  const shift = await read(`/api/shifts/${new URL(page.url()).searchParams.get('planned')}`);
  expect(shift.duties.filter(({ binId }: { binId: string }) => binId === bin).length).toBeGreaterThan(0);
  await page.goto(`/bins/${bin}`, { waitUntil: 'load' });
  await page.locator('form[action="?/did"] button').first().click();
  await page.waitForURL(/did=1/);
  const [newest] = (await read(`/api/bins/${bin}/entries`)).items;
  expect(newest.kind).toBe('care');
  expect(newest.id).not.toBe(before);
  await page.locator(`#entry-${newest.id}`).waitFor();
  expect(walk.complaints).toEqual([]);
  await page.setViewportSize({ width: 1440, height: 900 });
});

test('A14: by keys alone the worst bin is found, opened from the list, and its best remedy pressed', async () => {
  const { page } = walk;
  await page.goto('/', { waitUntil: 'load' });
  const worst = page.locator('.worst > ol > .entry').first();
  const remedy = (await worst.locator('.help').first().textContent())!;
  await tabTo(page, 'a.skip');
  await page.keyboard.press('Enter');
  await tabTo(page, '.worst > ol > .entry:first-child a.label', 120);
  await page.keyboard.press('Enter');
  await page.waitForURL(/\/bins\/[\w-]+$/);
  await page.locator('.helps').first().waitFor();
  const best = (await page.locator('.helps th.best').first().textContent())!.trim();
  expect(remedy).toContain(best);
  await tabTo(page, '.helps tbody tr:first-child .acts button, .helps tbody tr:first-child .acts a', 120);
  expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toContain(best);
  await page.keyboard.press('Enter');
  await page.waitForURL(/did=1|planned=|\/log\?/);
});

test('where there is doubt a page names the one look that takes most of it away', async () => {
  const { page } = walk;
  const told = await Promise.all(bins.map(async ({ id }) => ({ id, outlook: await read(`/api/bins/${id}/outlook`) })));
  const doubtful = told.find(({ outlook }) => outlook.flags.some(({ ask }: { ask: object | null }) => ask !== null));
  expect(doubtful, 'no bin of the demonstration is in doubt').toBeDefined();
  await page.goto(`/bins/${doubtful!.id}`, { waitUntil: 'load' });
  expect(await page.locator('#ask .ask-look').textContent()).toMatch(/(Look|Squeeze|Smell|Dig).*clear up \d+.% of the doubt/s);
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await axeFaults(page)).toEqual([]);
  }
});

test('A14, A17, A18: by keys alone a flag is explained on the bin page, seen, put aside and taken up again', async () => {
  const { page } = walk;
  const bin = (await read('/api/board')).bins.find(({ band }: Told) => band === 'act');
  await page.goto(`/bins/${bin.id}`, { waitUntil: 'load' });
  const flag = page.locator('.with-flag').first();
  await flag.locator('.flag-say summary').focus();
  await page.keyboard.press('Enter');
  await flag.getByRole('button', { name: 'I have seen it' }).focus();
  await page.keyboard.press('Enter');
  await flag.getByText(/^Seen by .+ today, \d\d:\d\d/).waitFor();
  await flag.getByLabel('Why put it aside?').focus();
  await page.keyboard.type('A fan is on its way');
  await page.keyboard.press('Enter');
  await flag.getByText(/^Put aside by .+ until /).waitFor();
  expect(await axeFaults(page)).toEqual([]);
  // The mark stays as it is: only the list lets the bin rest.
  expect(await page.locator('.stake').getAttribute('class')).toContain('is-act');
  await flag.getByRole('button', { name: /Take it up again/ }).focus();
  await page.keyboard.press('Enter');
  await flag.getByText(/^Put aside by/).waitFor({ state: 'detached' });
  expect(new URL(page.url()).pathname).toBe(`/bins/${bin.id}`);
  await flag.getByRole('link', { name: /^What this means/ }).focus();
  await page.keyboard.press('Enter');
  await page.waitForURL(/\/flags#[a-z-]+$/);
  const told = await page.locator(`[id="${new URL(page.url()).hash.slice(1)}"]`).textContent();
  for (const part of ['Why', 'Leads to', 'What to do', 'How soon', 'Who', 'Said from', 'Over ', 'First so for'])
    expect(told).toContain(part);
  expect(await page.locator('.leaf').count()).toBe(12);
  await page.setViewportSize({ width: 360, height: 740 });
  expect([await axeFaults(page), await sidewaysPx(page)]).toEqual([[], 0]);
  await page.setViewportSize({ width: 1440, height: 900 });
});

test('A4, A11: with forced colours the mark, the fan and the drawing still stand out, and with less motion nothing moves', async () => {
  const { page } = walk;
  const bin = (await read('/api/board')).bins.find(({ band }: Told) => band === 'act');
  await page.emulateMedia({ forcedColors: 'active', reducedMotion: 'reduce', colorScheme: 'dark' });
  await page.goto(`/bins/${bin.id}`, { waitUntil: 'load' });
  await page.locator('#history canvas').scrollIntoViewIfNeeded();
  expect(await page.evaluate(() => document.getAnimations().length)).toBe(0);
  for (const [what, by, least] of [
    ['.state .mark', 3, 5],
    ['#history canvas', 3, 500],
    ['.above svg', 3, 500],
    ['.helps .pic svg', 3, 20],
  ] as const)
    expect(await drawn(page.locator(what).first(), by), what).toBeGreaterThan(least);
  await page.emulateMedia({ forcedColors: 'none', reducedMotion: 'no-preference', colorScheme: 'light' });
});

test('a site says who comes this week, what is due and what is short; what is set once is folded away, and opens where it was refused', async () => {
  const { page } = walk;
  const { today } = await read('/api/session');
  const [{ id: siteId }] = (await read('/api/sites')).items;
  const to = addDays(today, 6);
  const shifts = (await read(`/api/shifts?from=${today}&to=${to}&siteId=${siteId}`)).items;
  const duties = (await read(`/api/duties?siteId=${siteId}&days=7`)).items;
  expect(shifts.length + duties.length).toBeGreaterThan(0);
  // Bedding that is used and of which hardly any is left runs short.
  const stock = (await read(`/api/bedding-stock?siteId=${siteId}`)).items;
  await page.goto(`/sites/${siteId}`, { waitUntil: 'load' });
  expect(await page.locator('#comes .lines > li').count()).toBe(shifts.length);
  for (const name of shifts.flatMap(({ signUps }: { signUps: { name: string }[] }) => signUps.map((one) => one.name)))
    expect(await page.locator('#comes').textContent()).toContain(name);
  expect(await page.locator('#due .jobs > li').count()).toBe(Math.min(8, duties.length));
  const soon = addDays(today, 28);
  const short = stock.filter(({ runsOutOn }: { runsOutOn: string | null }) => runsOutOn !== null && runsOutOn <= soon);
  expect(await page.locator('#short .lines > li').count()).toBe(short.length);
  const fold = page.locator('.leaf-fold');
  expect(await fold.evaluate((one: HTMLDetailsElement) => one.open)).toBe(false);
  await fold.locator('summary').first().focus();
  await page.keyboard.press('Enter');
  await page.getByLabel('Paste the lines here').fill('no day, no warmth');
  await page.getByRole('button', { name: 'Take them in' }).click();
  await page.locator('#readings .fault').waitFor();
  expect(await axeFaults(page)).toEqual([]);
});

test('A20: with letters twice as large nothing runs out of the page sideways', async () => {
  const { page } = walk;
  const wide: string[] = [];
  for (const path of ['/', `/bins/${bins[0]!.id}`, `/bins/${bins[0]!.id}/log`, `/bins/${bins[0]!.id}/log?kind=check`, '/season']) {
    await page.goto(path, { waitUntil: 'load' });
    await page.evaluate(() => {
      document.documentElement.style.fontSize = '200%';
      for (const details of document.querySelectorAll('details')) details.open = true;
    });
    for (const width of [320, 360, 768, 1440]) {
      await page.setViewportSize({ width, height: 800 });
      // A chart draws itself anew after the window has changed.
      const fits = await expect
        .poll(() => sidewaysPx(page), { timeout: 2000 })
        .toBeLessThanOrEqual(0)
        .then(
          () => true,
          () => false,
        );
      if (!fits) wide.push(`${path} at ${width}: ${await sidewaysPx(page)} px`);
    }
  }
  expect(wide).toEqual([]);
});
