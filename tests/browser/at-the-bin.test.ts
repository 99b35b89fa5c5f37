/** At the bin with a phone in one hand: taps counted for each task of B.2, what is announced, what a keyboard can do. */
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeFaults, openBrowser, type Running, serve, visit, type Walk } from './harness.ts';
import { onePhone } from './one-phone.ts';
import { sunAndWet } from './sun-and-wet.ts';

const MINUTE_MS = 60_000;

interface Noted {
  readonly id: string;
  readonly kind: string;
  readonly zone: number;
  readonly massKg: number;
  readonly beddingKg: number;
  readonly undoneAt: string | null;
  readonly smell: string | null;
  readonly items: readonly { readonly materialId: string; readonly massKg: number; readonly how: string }[];
}
let server: Running;
let browser: Browser;
let walk: Walk;
let page: Page;
let bin: { readonly id: string; readonly code: string };
const read = async (path: string) => (await walk.context.request.get(path)).json();
const newest = async (): Promise<Noted> => (await read(`/api/bins/${bin.id}/entries?limit=1`)).items[0];

beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  walk = await visit(browser, server.origin, { viewport: { width: 360, height: 640 }, hasTouch: true });
  page = walk.page;
  await walk.context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: server.origin } });
  bin = (await read('/api/board')).bins.find((one: { band: string }) => one.band === 'settled');
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

/** A finger that counts; digits of a number are counted apart, as the budgets have it. */
class Finger {
  taps = 0;
  digits = 0;
  async tap(target: Locator): Promise<void> {
    this.taps += 1;
    await target.tap();
  }
  async type(number: string): Promise<void> {
    for (const key of number) {
      this.digits += 1;
      await page.locator('.pad button', { hasText: key }).first().tap();
    }
  }
}
/** As the label's code brings one here. */
async function scan(kind = '', clean = true): Promise<Finger> {
  if (clean) await forgetTyped();
  await page.goto(`/bins/${bin.id}/log${kind === '' ? '' : `?kind=${kind}`}`, { waitUntil: 'load' });
  await page.locator('html.scripted').waitFor();
  return new Finger();
}
const radio = (name: string, n = 0) => page.locator(`label.choice:has(input[name="${name}"])`).nth(n);
const save = () => page.getByRole('button', { name: /^Save/ });
const savedText = async () => {
  await page.locator('.after-save[data-at="server"]').waitFor();
  return (await page.locator('.saved [role="status"]').textContent()) ?? '';
};

describe('B.2: taps from the label on', () => {
  test('a usual feeding, everything chosen by hand: five', async () => {
    const finger = await scan();
    await finger.tap(radio('amount'));
    await finger.tap(radio('count', 1));
    await finger.tap(radio('zone'));
    await finger.tap(radio('food', 1));
    await finger.tap(save());
    expect(await savedText()).toContain('zone 1');
    expect(finger.taps).toBeLessThanOrEqual(5);
    expect(await newest()).toMatchObject({ kind: 'feeding', zone: 1, undoneAt: null, items: [{ how: 'container' }] });
  });

  test('the same again as last time: two, and the button says what, how much and where before', async () => {
    const finger = await scan();
    const before = await newest();
    const said = (await page.locator('.same-again button').textContent()) ?? '';
    await finger.tap(page.locator('.same-again button'));
    expect(await page.locator('.same-again [role="status"]').textContent()).toContain('as last time');
    const zone = await page.locator('input[name="zone"]:checked').getAttribute('value');
    await finger.tap(save());
    await savedText();
    expect(finger.taps).toBeLessThanOrEqual(3);
    const again = await newest();
    expect(again.id).not.toBe(before.id);
    expect(again.items).toMatchObject(before.items.map(({ materialId, massKg, how }) => ({ materialId, massKg, how })));
    expect(again).toMatchObject({ beddingKg: before.beddingKg, zone: Number(zone) });
    expect(said).toContain(`zone ${zone}`);
  });

  test('undo: one after Save, and one more than ten minutes later', async () => {
    const finger = await scan();
    await finger.tap(page.locator('.same-again button'));
    await finger.tap(save());
    await savedText();
    const atOnce = new Finger();
    await atOnce.tap(page.getByRole('button', { name: 'Undo' }));
    await page.getByText('Undone').first().waitFor();
    expect(atOnce.taps).toBeLessThanOrEqual(2);
    expect((await newest()).undoneAt).not.toBeNull();

    await walk.context.request.post('/api/notes', {
      data: { id: crypto.randomUUID().replace(/^(.{14})4/, '$17'), binId: bin.id, happenedAt: new Date().toISOString(), note: 'The lid.' },
      headers: { origin: server.origin },
    });
    const later = await walk.context.newPage();
    await later.clock.install({ time: Date.now() + 11 * MINUTE_MS });
    await later.goto(`/bins/${bin.id}/log`, { waitUntil: 'load' });
    await later.locator('html.scripted').waitFor();
    const late = new Finger();
    await late.tap(later.locator('.just-noted button'));
    await later.locator('.just-noted').getByText('Undone').waitFor();
    expect(late.taps).toBeLessThanOrEqual(2);
    expect(await newest()).toMatchObject({ kind: 'note', undoneAt: expect.any(String) });
    await later.close();
  });

  test('a harvest weighed in its container: four beside the digits, and the empty container taken off', async () => {
    const { items } = await read(`/api/containers`);
    const finger = await scan();
    await finger.tap(page.getByRole('link', { name: 'Harvest' }));
    await page.locator('#weight').waitFor();
    await finger.type('2.5');
    await finger.tap(radio('tare', 1));
    const name = (await radio('tare', 1).locator('b').textContent()) ?? '';
    const tareKg = items.find((one: { name: string; tareKg: number }) => one.name === name && one.tareKg > 0).tareKg as number;
    expect(await page.locator('.weighs').textContent()).toMatch(/^2\.5.kg less/);
    await finger.tap(save());
    await savedText();
    expect(finger.taps).toBeLessThanOrEqual(6);
    expect(finger.digits).toBe(3);
    expect((await newest()).massKg).toBeCloseTo(2.5 - tareKg, 6);
  });

  test('a bad smell noted: three, so that four are left for the photo', async () => {
    const finger = await scan();
    await finger.tap(page.getByRole('link', { name: 'Check' }));
    await page.locator('input[name="smell"]').first().waitFor({ state: 'attached' });
    await finger.tap(page.locator('label.choice:has(input[value="rotten"])'));
    await finger.tap(save());
    await savedText();
    expect(finger.taps).toBeLessThanOrEqual(3);
    expect(await newest()).toMatchObject({ kind: 'check', smell: 'rotten' });
  });
});

describe('B8: what is not asked twice', () => {
  test('the unit and the food of the last note are there the next time', async () => {
    const finger = await scan();
    await finger.tap(radio('amount', (await page.locator('input[name="amount"]').count()) - 1));
    await finger.type('500');
    await finger.tap(page.locator('label.choice:has(input[name="unit"][value="g"])'));
    expect(await page.locator('#weight').inputValue()).toBe('500');
    expect(await page.locator('.weighs').textContent()).toMatch(/500.g = 0\.5.kg/);
    await finger.tap(radio('food', 1));
    const food = await page.locator('input[name="food"]:checked').inputValue();
    if ((await page.locator('input[name="zone"]:checked').count()) === 0) await finger.tap(radio('zone'));
    await finger.tap(save());
    await savedText();
    expect((await newest()).items).toMatchObject([{ massKg: 0.5, materialId: food }]);
    await scan();
    await expect.poll(() => page.locator('input[name="food"]:checked').inputValue()).toBe(food);
    expect(await page.locator('input[name="unit"]:checked').inputValue()).toBe('g');
  });
});

describe('B11: with no network', () => {
  test('a note is saved on this phone and says so, can be taken back there, and goes out by itself', async () => {
    const finger = await scan();
    const before = await newest();
    await walk.context.setOffline(true);
    await finger.tap(page.locator('.same-again button'));
    await finger.tap(save());
    const after = page.locator('.after-save[data-at="phone"]');
    expect(await after.locator('[role="status"]').textContent()).toContain('Saved on this phone.');
    await page.getByRole('button', { name: 'Undo' }).tap();
    await page.getByText('Undone').first().waitFor();
    await page.getByRole('button', { name: 'Log something else here' }).tap();
    await finger.tap(page.locator('.same-again button'));
    await finger.tap(save());
    await after.waitFor();
    await walk.context.setOffline(false);
    await savedText();
    expect((await read(`/api/bins/${bin.id}/entries?limit=2`)).items.map((one: Noted) => one.id)[1]).toBe(before.id);
  });

  test('what is half typed is there again after the page was gone', async () => {
    const finger = await scan('check');
    await finger.tap(page.locator('label.choice:has(input[value="sour"])'));
    await page
      .locator('details', { has: page.locator('#note') })
      .locator('summary')
      .tap();
    await page.locator('#note').fill('Under the lid.');
    await expect.poll(() => drafts()).toContain('Under the lid.');
    await scan('check', false);
    await page.locator('.just-noted', { hasText: 'not saved yet' }).waitFor();
    expect(await page.locator('#note').inputValue()).toBe('Under the lid.');
    expect(await page.locator('input[value="sour"]').isChecked()).toBe(true);
    await page.getByRole('button', { name: 'Start anew' }).tap();
    await expect.poll(() => page.locator('#note').inputValue()).toBe('');
    expect(await drafts()).not.toContain('Under the lid.');
  });
});
/** Nothing of the test before is half typed. */
async function forgetTyped(): Promise<void> {
  await page.goto('/robots.txt');
  await page.evaluate(async () => {
    // Opened before the page made it, it would be made empty.
    if (!(await indexedDB.databases()).some(({ name }) => name === 'middenry')) return;
    const request = indexedDB.open('middenry');
    await new Promise((resolve) => {
      request.onsuccess = resolve;
    });
    const { transaction } = request.result.transaction('drafts', 'readwrite').objectStore('drafts').clear();
    await new Promise((resolve) => {
      transaction!.oncomplete = resolve;
    });
    request.result.close();
  });
}
/** All that is half typed on this phone, as one text. */
const drafts = () =>
  page.evaluate(async () => {
    const { result } = await new Promise<IDBOpenDBRequest>((resolve) => {
      const request = indexedDB.open('middenry');
      request.onsuccess = () => resolve(request);
    });
    const all = result.transaction('drafts').objectStore('drafts').getAll();
    await new Promise((resolve) => {
      all.onsuccess = resolve;
    });
    result.close();
    return JSON.stringify(all.result);
  });

describe('B2, B3, B5: in the sun and in wet hands', () => sunAndWet({ page: () => page, scan }));

onePhone(() => ({ browser, server, walk, page, bin, scan, read }));

describe('B10, B27: what is said, and what a keyboard can do', () => {
  const reach = async (wanted: string) => {
    for (let n = 0; n < 60; n += 1) {
      await page.keyboard.press('Tab');
      if (await page.evaluate((selector) => document.activeElement?.matches(selector) ?? false, wanted)) return;
    }
    throw new Error(`The keyboard does not reach ${wanted}`);
  };

  test('a feeding by keyboard alone; what is wrong takes the focus, what is saved is announced', async () => {
    await scan();
    await reach('.save button');
    await page.keyboard.press('Enter');
    const summary = page.locator('.faults');
    await summary.waitFor();
    expect(await summary.evaluate((box) => box === document.activeElement)).toBe(true);
    expect(await page.title()).toMatch(/^Error:/);
    expect(await axeFaults(page)).toEqual([]);
    const fault = (await summary.locator('li').first().textContent())?.trim() ?? '';
    expect(await page.locator('#amount-fault').textContent()).toContain(fault);
    await reach('input[name="amount"]');
    await page.keyboard.press('Space');
    await reach('input[name="zone"]');
    await page.keyboard.press('Space');
    await reach('.save button');
    await page.keyboard.press('Enter');
    expect(await savedText()).toContain('Saved');
    expect(await page.title()).not.toMatch(/^Error:/);
    expect(await axeFaults(page)).toEqual([]);
  });

  test('a number that is unclear, and one that is far too large, are asked back, each state clean for axe', async () => {
    await scan('harvest');
    await page.locator('#weight').fill('1,500 kg');
    await save().click();
    await page.locator('.faults').waitFor();
    expect(await axeFaults(page)).toEqual([]);
    await page.getByRole('button', { name: '1,500 kg', exact: true }).click();
    expect(await page.locator('#weight').inputValue()).toBe('1500');
    await scan();
    await page.locator('label.choice:has(input[name="amount"][value="weight"])').click();
    await page.locator('#weight').fill('400 kg');
    await page.locator('input[name="zone"]').first().check();
    await save().click();
    const yes = page.getByRole('button', { name: /^Yes, 400/ });
    await yes.waitFor();
    expect(await yes.evaluate((button) => button === document.activeElement)).toBe(true);
    expect(await axeFaults(page)).toEqual([]);
  });
});
