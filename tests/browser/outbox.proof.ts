/** At length, on a phone whose browser comes and goes: what was kept arrives, once, in its order and with its times. */
import type { BrowserContext, Page } from 'playwright-core';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type FaultyWay, faultyWayTo } from './faulty-way.ts';
import { type Running, serve } from './harness.ts';
import { KeptPhone } from './kept-phone.ts';
import { onPhone, putOnPhone, whoIsHere } from './phone.ts';

const HOUR_MS = 3_600_000;
let server: Running;
let way: FaultyWay;
let phone: KeptPhone;
let binId: string;
let personId: string;

beforeEach(async () => {
  server = await serve();
  way = await faultyWayTo(server.origin);
  phone = new KeptPhone(way.origin);
  const page = await phone.tab();
  const { request } = page.context();
  await request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: way.origin } });
  binId = (await (await request.get('/api/bins')).json()).items[0].id;
  personId = await whoIsHere(page.context());
  await page.goto('/waiting');
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null, null, { timeout: 60_000 });
  await page.getByText('What this phone carries is from').waitFor({ timeout: 120_000 });
}, 240_000);
afterEach(async () => {
  await phone?.throwAway();
  await way?.close();
  await server?.stop();
});

interface There {
  readonly note: string;
  readonly happenedAt: string;
  readonly receivedAt: string;
}

/** Everything of that name in the bin's log, however long it is, earliest first. */
async function allAtServer(context: BrowserContext, beginning: string): Promise<There[]> {
  const found: There[] = [];
  let before = new Date(Date.now() + HOUR_MS).toISOString();
  for (;;) {
    const { items } = await (await context.request.get(`/api/bins/${binId}/entries?limit=200&before=${before}`)).json();
    const notes = (items as There[]).filter(({ note }) => note?.startsWith(beginning));
    found.unshift(...notes.reverse());
    if (notes.length === 0 || items.length < 200) return found;
    before = items.at(-1).happenedAt;
  }
}

/** By the form, as a person does; resolves when the page says that it is saved. */
async function noteBy(page: Page, note: string): Promise<void> {
  await page.goto(`/bins/${binId}/log?kind=note`);
  await page.locator('#svelte-announcer').waitFor({ state: 'attached' });
  await page.locator('textarea[name="note"]').fill(note);
  await page.locator('form.sheet .save button').click();
  await page.locator('.after-save[data-at="phone"]').waitFor();
}

async function letAllGo(page: Page): Promise<void> {
  way.way = 'through';
  await page.goto('/waiting');
  await expect.poll(() => onPhone(page), { timeout: 60_000, interval: 250 }).toEqual([]);
}
const names = (name: string, count: number) => Array.from({ length: count }, (_, n) => `${name} ${String(n).padStart(4, '0')}`);

test('B12: 100 notes in 72 h with no network, the phone twice off: all arrive once, in their order and with their times', async () => {
  const all = names('away', 100);
  const since = Date.now();
  const clockOf = (n: number) => since - 72 * HOUR_MS + (n / all.length) * 72 * HOUR_MS;
  way.way = 'away';
  let page = await phone.tab();
  for (const [n, note] of all.entries()) {
    // Once switched off, once dead of an empty battery.
    if (n === 34) await phone.switchOff();
    if (n === 67) (await phone.killer('browser'))();
    if (n === 34 || n === 67) page = await phone.tab();
    await page.clock.setFixedTime(clockOf(n));
    await noteBy(page, note);
  }
  expect(await onPhone(page)).toEqual(all);
  page = await phone.tab();
  // The clock of a phone goes on; one that stood still would be corrected by the server (B24).
  await page.clock.setFixedTime(Date.now());
  await letAllGo(page);
  const there = await allAtServer(page.context(), 'away');
  expect(there.map(({ note }) => note)).toEqual(all);
  const wrongMs = there.map(({ happenedAt }, n) => Math.abs(Date.parse(happenedAt) - clockOf(n)));
  expect(Math.max(...wrongMs)).toBeLessThanOrEqual(60_000);
  console.log(`B12: ${there.length} arrived, once each; times off by at most ${Math.max(...wrongMs)} ms`);
});

test('B13: 1,000 answers lost after the server had committed: nothing lost, nothing twice', async () => {
  const all = names('lost', 1000);
  const since = Date.now() - 2 * all.length * 1000;
  const page = await phone.tab();
  await page.goto('/waiting');
  await page.getByText('What this phone carries').waitFor();
  for (const [n, note] of all.entries()) {
    way.way = 'lost-answers';
    await putOnPhone(page, [{ personId, binId, note, happenedAt: new Date(since + n * 1000).toISOString() }]);
    await expect.poll(() => way.lost, { timeout: 20_000, interval: 10 }).toBeGreaterThan(n);
    if (n % 40 !== 39) continue;
    way.way = 'through';
    await page.evaluate(() => dispatchEvent(new Event('online')));
    await expect.poll(() => onPhone(page), { timeout: 30_000, interval: 50 }).toEqual([]);
  }
  await letAllGo(page);
  expect((await allAtServer(page.context(), 'lost')).map(({ note }) => note)).toEqual(all);
  console.log(`B13: ${way.lost} answers lost, ${way.batches} batches, ${all.length} notes there once each`);
});

test('H1: a reload between keeping and sending, 50 times', async () => {
  const all = names('reload', 50);
  way.way = 'no-batches';
  const page = await phone.tab();
  for (const note of all) {
    await noteBy(page, note);
    await page.reload();
  }
  await letAllGo(page);
  const there = (await allAtServer(page.context(), 'reload')).map(({ note }) => note);
  expect(there).toEqual(all);
});
