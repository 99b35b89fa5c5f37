/** The main job from end to end, as a coordinator and a volunteer do it. */
import Papa from 'papaparse';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openBrowser, type Running, serve, visit, type Walk } from './harness.ts';
import { spanishWalks } from './spanish.ts';

let server: Running;
let browser: Browser;
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

async function enter(as: 'coordinator' | 'volunteer', phone = false): Promise<Walk> {
  const walk = await visit(browser, server.origin, phone ? { viewport: { width: 360, height: 640 } } : {});
  await walk.page.goto('/sign-in');
  await walk.page.getByRole('button', { name: `Look round as ${as}` }).click();
  await walk.page.waitForURL(`${server.origin}/`);
  return walk;
}

interface Seen {
  readonly id: string;
  readonly code: string;
  readonly band: string;
}
async function boardOf(walk: Walk): Promise<Seen[]> {
  const answer = await walk.context.request.get('/api/board');
  return (await answer.json()).bins as Seen[];
}

describe('a coordinator', () => {
  test('finds the worst bin on the board, reads why and what to do', async () => {
    const walk = await enter('coordinator');
    const { page } = walk;
    expect(await page.getByText('people and figures are invented').first().isVisible()).toBe(true);
    const trouble = (await boardOf(walk)).filter((bin) => bin.band === 'act').map((bin) => bin.code);
    const first = page.locator('[id="list"] a.label, .list a.label, a.label').first();
    const code = (await first.textContent())?.trim() ?? '';
    expect(trouble).toContain(code);
    await first.click();
    await page.waitForURL(/\/bins\//);
    const heading = await page.getByRole('heading', { level: 1 }).textContent();
    expect(heading?.trim().endsWith('.')).toBe(true);
    expect(await page.getByRole('heading', { name: 'Why' }).isVisible()).toBe(true);
    expect(await page.getByRole('heading', { name: 'What helps' }).isVisible()).toBe(true);
    expect(walk.complaints).toEqual([]);
    expect(walk.strangers).toEqual([]);
    await walk.close();
  });

  test('types a harvest, and the season CSV grows by exactly that much', async () => {
    const walk = await enter('coordinator');
    const { page } = walk;
    const today = ((await (await walk.context.request.get('/api/session')).json()) as { today: string }).today;
    const range = `from=${today.slice(0, 4)}-01-01&to=${today}`;
    const before = await harvestedIn(walk, range);
    const bin = (await boardOf(walk)).find((one) => one.band === 'settled');
    await page.goto(`/bins/${bin?.id}/log?kind=harvest`);
    await page.locator('#weight').fill('1.73');
    await page.getByRole('button', { name: /^Save/ }).click();
    await page.locator('.after-save[data-at="server"]').waitFor();
    const after = await harvestedIn(walk, range);
    expect(after.csvG - before.csvG).toBe(1730);
    expect(after.apiG).toBe(after.csvG);
    await page.goto(`/season?${range}`);
    const link = page.getByRole('link', { name: 'Save as a spreadsheet file (CSV)' });
    expect(await link.getAttribute('href')).toContain('/api/season.csv');
    await walk.close();
  });
});

/** Castings harvested, by the CSV's last row and by the API. */
async function harvestedIn(walk: Walk, range: string): Promise<{ csvG: number; apiG: number }> {
  const text = await (await walk.context.request.get(`/api/season.csv?${range}`)).text();
  const { data } = Papa.parse<string[]>(text.replace(/^\uFEFF/, ''), { skipEmptyLines: true });
  const column = data[0]!.findIndex((name) => /harvested|castings/i.test(name));
  expect(column).toBeGreaterThan(0);
  const season = await (await walk.context.request.get(`/api/season?${range}`)).json();
  return { csvG: Number(data.at(-1)![column]), apiG: season.total.harvestedG as number };
}

describe('a volunteer', () => {
  test('takes a place on a shift and gives it back', async () => {
    const walk = await enter('volunteer', true);
    const { page } = walk;
    await page.getByRole('link', { name: 'Shifts', exact: true }).click();
    await page.waitForURL(/\/shifts/);
    const mineBefore = await mine(walk);
    await page
      .getByRole('button', { name: /^Take it/ })
      .first()
      .click();
    await page
      .getByRole('button', { name: /Give it back/ })
      .first()
      .waitFor();
    await expect.poll(() => mine(walk)).toBe(mineBefore + 1);
    await page
      .getByRole('button', { name: /Give it back/ })
      .first()
      .click();
    await expect.poll(() => mine(walk)).toBe(mineBefore);
    expect(walk.complaints).toEqual([]);
    await walk.close();
  });

  test('logs far too much into a settled bin, and its band changes on the board', async () => {
    const walk = await enter('volunteer', true);
    const { page } = walk;
    const bin = (await boardOf(walk)).find((one) => one.band === 'settled')!;
    await page.goto(`/bins/${bin.id}/log`);
    await page.getByRole('radio', { name: /By weight/ }).check();
    await page.locator('#weight').fill('45');
    await page.getByRole('radio', { name: /^1/ }).first().check();
    await page.locator('input[name="food"]').first().check();
    await page.getByRole('button', { name: /^Save/ }).click();
    const sure = page.getByRole('button', { name: /^Yes/ });
    await Promise.race([sure.waitFor(), page.locator('.after-save[data-at="server"]').waitFor()]);
    if (await sure.isVisible()) await sure.click();
    await page.locator('.after-save[data-at="server"]').waitFor();
    const coordinator = await enter('coordinator');
    await expect.poll(async () => (await boardOf(coordinator)).find((one) => one.id === bin.id)?.band).not.toBe('settled');
    await coordinator.page.goto('/');
    const tile = coordinator.page.locator(`.tile:has(a[href="/bins/${bin.id}"])`).first();
    expect(await tile.getAttribute('class')).toMatch(/is-(act|watch)/);
    await coordinator.close();
    await walk.close();
  });
});

async function mine(walk: Walk): Promise<number> {
  const answer = await walk.context.request.get('/api/shifts?mine=true');
  return ((await answer.json()).items as unknown[]).length;
}

describe('a reader of Spanish', () => spanishWalks(() => ({ browser, server })));
