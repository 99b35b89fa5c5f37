/** Pages at the bin open from a cold start with no network, and carry nobody's data but one's own (criteria B17, B19, B26, H5, H21, E.2). */
import { gzipSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type FaultyWay, faultyWayTo } from './faulty-way.ts';
import { axeFaults, openBrowser, type Running, serve, sidewaysPx, visit, type Walk } from './harness.ts';
import { atServer, onPhone, putOnPhone, whoIsHere } from './phone.ts';

let server: Running;
let way: FaultyWay;
let browser: Browser;
let walk: Walk;
let page: Page;
let binId: string;
let personId: string;
let code: string;

/** A phone that was once on a page with a network, and has been closed. */
async function phoneOf(locale: string): Promise<Walk> {
  const phone = await visit(browser, way.origin, { serviceWorkers: 'allow', locale, viewport: { width: 360, height: 740 } });
  await phone.context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: way.origin } });
  await phone.page.goto('/waiting');
  await phone.page.waitForFunction(() => navigator.serviceWorker.controller !== null, null, { timeout: 15_000 });
  await phone.page.getByText(/What this phone carries is from|Lo que lleva este teléfono es de/).waitFor();
  await phone.page.close();
  await phone.context.setOffline(true);
  return phone;
}

beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  way = await faultyWayTo(server.origin);
  walk = await phoneOf('en-GB');
  personId = await whoIsHere(walk.context);
  const { items } = await (await walk.context.request.get('/api/bins')).json();
  [{ id: binId, code }] = items;
  page = await walk.context.newPage();
});
afterAll(async () => {
  await browser?.close();
  await way?.close();
  await server?.stop();
});

describe('B19: with no network, from a cold start', () => {
  test('the log form of a bin never looked at stands within 4 s, with what the phone carries, and says from when', async () => {
    const since = Date.now();
    await page.goto(`/bins/${binId}/log`);
    await page.getByRole('button', { name: /^Save/ }).waitFor();
    expect(Date.now() - since).toBeLessThan(4000);
    await page.getByText('No network here. What you see is from today').waitFor();
    expect(await page.getByText(code, { exact: true }).count()).toBeGreaterThan(0);
    expect(await sidewaysPx(page)).toBe(0);
  });

  test('what is noted waits there, survives a reload, and arrives once when the network is back', async () => {
    const before = (await atServer(walk.context, binId, 'cold')).length;
    await page.goto('/waiting');
    await page.getByText('What this phone carries').waitFor();
    await putOnPhone(page, [{ personId, binId, note: 'cold start' }]);
    await page.reload();
    await page.getByRole('heading', { name: '1 note waits on this phone.' }).waitFor();
    expect((await atServer(walk.context, binId, 'cold')).length).toBe(before);
    await walk.context.setOffline(false);
    await expect.poll(() => onPhone(page), { timeout: 10_000 }).toEqual([]);
    expect(await atServer(walk.context, binId, 'cold')).toEqual(['cold start']);
    await walk.context.setOffline(true);
  });

  test('H5: a page that needs a network leads to the bins and my next shift, without an end of waiting', async () => {
    for (const path of ['/season', `/bins/${binId}/what-if`]) {
      const since = Date.now();
      await page.goto(path);
      await page.getByText('That page needs a network. These work without one:').waitFor();
      expect(Date.now() - since, path).toBeLessThan(4000);
      expect(new URL(page.url()).pathname).toBe('/log');
    }
    expect(await page.locator('.labels a').count()).toBeGreaterThan(3);
    await page.getByRole('heading', { name: 'Your next shift' }).waitFor();
    await page.locator('.labels a').first().click();
    await page.getByRole('button', { name: /^Save/ }).waitFor();
  });
});

test('a made-up bin is ruined from a cold start with no network, and worked out here', async () => {
  await page.goto('/what-if');
  await page.getByLabel('Feed it', { exact: true }).selectOption('12');
  await page.getByLabel('Of what', { exact: true }).selectOption('m');
  await page.getByRole('button', { name: 'Let 7 days pass' }).click();
  await page.waitForURL(/story=0f12m&day=7$/);
  await expect.poll(() => page.locator('.bench-top .tell').textContent()).toMatch(/Day 7: wet/);
});

test('B28: a reader of Spanish reads Spanish without a network too', async () => {
  const spanish = await phoneOf('es-ES');
  const open = await spanish.context.newPage();
  await open.goto(`/bins/${binId}/log`);
  await open.getByText('Aquí no hay red.').waitFor();
  expect(await open.evaluate(() => document.documentElement.lang)).toBe('es');
  await spanish.close();
});

test('B26, E.2: the worker keeps at most 400 kB, files of the build and nothing that anybody said', async () => {
  const kept = await page.evaluate(async () => {
    const texts: Record<string, string> = {};
    for (const name of await caches.keys()) {
      const cache = await caches.open(name);
      for (const request of await cache.keys()) texts[new URL(request.url).pathname] = await (await cache.match(request))!.text();
    }
    return texts;
  });
  const paths = Object.keys(kept);
  expect(paths.filter((path) => !/^\/(_app\/immutable\/.+|fonts\/.+|shell\.html|mark\.svg|manifest\.webmanifest)$/.test(path))).toEqual([]);
  expect(paths.length).toBeGreaterThan(30);
  const bytes = paths.reduce((sum, path) => sum + gzipSync(kept[path]!).length, 0);
  expect(bytes).toBeGreaterThan(100_000);
  expect(bytes).toBeLessThanOrEqual(400_000);
  expect(kept['/shell.html']).not.toContain(personId);
});

test('B19, H5: before anything was carried a cold start says so in plain words, and what to do', async () => {
  await page.goto('/waiting');
  await page.evaluate(async () => {
    const request = indexedDB.open('middenry');
    await new Promise((resolve) => {
      request.onsuccess = resolve;
    });
    const all = request.result.transaction(['pockets', 'facts'], 'readwrite');
    for (const name of ['pockets', 'facts']) all.objectStore(name).clear();
    await new Promise((resolve) => {
      all.oncomplete = resolve;
    });
    request.result.close();
  });
  await page.goto(`/bins/${binId}/log`);
  await page.getByRole('heading', { level: 1, name: 'The server does not answer.' }).waitFor();
  await page.getByText('Open this page once where there is a network. What you saved stays.').waitFor();
  expect(await sidewaysPx(page)).toBe(0);
});

test('H21: a shell whose chunks are gone is never served', async () => {
  await page.evaluate(async () => {
    for (const name of await caches.keys()) {
      const cache = await caches.open(name);
      const [gone] = (await cache.keys()).filter(({ url }) => url.includes('/immutable/nodes/'));
      await cache.delete(gone!);
    }
  });
  const failed = await page.goto(`/bins/${binId}/log`).then(
    () => 'a page',
    (error: Error) => error.message.split('\n')[0],
  );
  expect(failed).toContain('net::ERR');
});

test('H21: a part of an open page that is gone is told in plain words, what is typed stays, and so is a page that does not come', async () => {
  const open = await visit(browser, server.origin, { viewport: { width: 360, height: 740 } });
  await open.context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: server.origin } });
  await open.page.goto(`/bins/${binId}/log?kind=note`);
  await open.page.getByRole('status', { name: 'On this phone' }).waitFor({ state: 'attached' });
  await open.context.route('**/_app/immutable/**', (route) => route.fulfill({ status: 404 }));
  await open.page.locator('#note').fill('Typed before it was gone.');
  await open.page.locator('input[type=file]').setInputFiles({ name: 'a.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('x') });
  await open.page.getByText('A part of this page did not come. Load it again.').waitFor();
  expect(await open.page.locator('#note').inputValue()).toBe('Typed before it was gone.');
  expect([await axeFaults(open.page), await sidewaysPx(open.page)]).toEqual([[], 0]);
  await open.page.getByRole('link', { name: 'Check' }).click();
  await open.page.getByRole('heading', { level: 1, name: 'This page did not come.' }).waitFor();
  await open.context.unroute('**/_app/immutable/**');
  await open.page.getByRole('link', { name: 'Try again' }).click();
  await open.page.locator('input[name="smell"]').first().waitFor({ state: 'attached' });
  await open.page.goto(`/bins/${binId}/log?kind=note`);
  await expect.poll(() => open.page.locator('#note').inputValue()).toBe('Typed before it was gone.');
  await open.close();
});

describe('with the network again', () => {
  const offer = () => page.getByText('A newer Middenry is ready.');
  const builds = () => page.evaluate(async () => (await caches.keys()).length);
  const note = (text: string) => putOnPhone(page, [{ personId, binId, note: text }]);

  async function useNewer(): Promise<void> {
    await page.goto('/waiting');
    await offer().waitFor();
    await page.getByText('1 note on this phone, not sent yet.').waitFor();
    await Promise.all([page.waitForEvent('load'), page.getByRole('button', { name: 'Use it now' }).click()]);
  }

  test('B23, H21: a newer build is offered, never at the bin nor over what is typed; notes of two builds before it still go', async () => {
    await walk.context.setOffline(false);
    way.way = 'no-batches';
    await page.goto('/waiting');
    await note('of an older build');
    const before = await builds();
    way.worker = { buildsLater: 1 };
    await page.goto(`/bins/${binId}/log?kind=note`);
    await page.waitForFunction(async () => (await navigator.serviceWorker.getRegistration())?.waiting != null);
    expect(await offer().count()).toBe(0);
    await page.goto('/me');
    await offer().waitFor();
    await page.locator('main input[type="password"]').first().fill('half of it');
    await page.getByRole('button', { name: 'Use it now' }).click();
    await page.getByText('Save what you have typed first.').waitFor();
    await useNewer();
    way.worker = { buildsLater: 2 };
    await useNewer();
    expect(await builds()).toBe(before + 2);
    way.way = 'through';
    await page.getByRole('button', { name: 'Send now' }).click();
    await expect.poll(() => onPhone(page), { timeout: 10_000 }).toEqual([]);
    expect(await atServer(walk.context, binId, 'of an older build')).toEqual(['of an older build']);
  });

  test('H21: the worker that takes it off leaves no worker and no file behind, and every note', async () => {
    way.way = 'no-batches';
    way.worker = 'off';
    await note('stays');
    await page.goto('/more');
    const workers = () => page.evaluate(async () => (await navigator.serviceWorker.getRegistrations()).length);
    await expect.poll(workers, { timeout: 30_000 }).toBe(0);
    expect([await builds(), await onPhone(page)]).toEqual([0, ['stays']]);
    way.way = 'through';
    await page.goto('/waiting');
    await expect.poll(() => onPhone(page), { timeout: 10_000 }).toEqual([]);
    expect(await atServer(walk.context, binId, 'stays')).toEqual(['stays']);
  });
});
