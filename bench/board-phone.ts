/** The board on a slow phone, as ratios to a static page with the same content, and the scripts of each page. */
import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { chromiumArgs, chromiumMissing, findChromium } from '../scripts/chromium.mjs';
import { root } from '../scripts/lib.mjs';
import { table } from './measure.ts';

/** A slow 4G line as page-speed tools have it, and a processor four times slower. */
const SLOW_4G = { offline: false, latency: 150, downloadThroughput: 1_638_400 / 8, uploadThroughput: 768_000 / 8 };
const SLOWER = 4;
const ROUNDS = 5;
const PHONE = { viewport: { width: 360, height: 640 }, serviceWorkers: 'block' as const };

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

async function enter(browser: Browser, origin: string): Promise<BrowserContext> {
  const context = await browser.newContext({ baseURL: origin, ...PHONE });
  await context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin } });
  return context;
}

/** The same words and styles with no script and no server behind them. */
async function staticCopy(html: string): Promise<Server> {
  const bare = gzipSync(html.replaceAll(/<script[\s\S]*?<\/script>/g, '').replaceAll(/<link[^>]*rel="modulepreload"[^>]*>/g, ''));
  const client = join(root, 'apps/web/build/client');
  const server = createServer((request, reply) => {
    const path = (request.url ?? '/').split('?')[0] ?? '/';
    const kind = { css: 'text/css', woff2: 'font/woff2', svg: 'image/svg+xml' }[path.split('.').at(-1) ?? ''];
    if (kind === undefined) return reply.writeHead(200, { 'content-type': 'text/html', 'content-encoding': 'gzip' }).end(bare);
    const file = readFileSync(join(client, path));
    const packed = kind === 'font/woff2' ? file : gzipSync(file);
    reply.writeHead(200, { 'content-type': kind, ...(packed === file ? {} : { 'content-encoding': 'gzip' }) }).end(packed);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return server;
}

interface Felt {
  readonly lcpMs: number;
  readonly loadMs: number;
  /** From a press to the picture that answers it. */
  readonly pressMs: number;
  readonly kB: number;
}

/** One cold visit: nothing kept from the last one. */
async function visit(page: Page, address: string): Promise<Felt> {
  const session = await page.context().newCDPSession(page);
  await session.send('Network.enable');
  await session.send('Network.setCacheDisabled', { cacheDisabled: true });
  await session.send('Network.emulateNetworkConditions', SLOW_4G);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
  await page.addInitScript(() => {
    Object.assign(window, { felt: { lcpMs: 0, pressMs: 0 } });
    const felt = (window as unknown as { felt: { lcpMs: number; pressMs: number } }).felt;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) felt.lcpMs = entry.startTime;
    }).observe({ type: 'largest-contentful-paint', buffered: true });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) felt.pressMs = Math.max(felt.pressMs, entry.duration);
    }).observe({ type: 'event', durationThreshold: 16, buffered: true } as PerformanceObserverInit);
  });
  let bytes = 0;
  session.on('Network.loadingFinished', ({ encodedDataLength }) => {
    bytes += encodedDataLength;
  });
  await page.goto(address, { waitUntil: 'load' });
  // An event stream never ends, so there is no idle line to wait for; a second later the scripts stand.
  await page.waitForTimeout(1000);
  const loaded = await page.evaluate(() => {
    const [entry] = performance.getEntriesByType('navigation') as PerformanceNavigationTiming[];
    return { ...(window as unknown as { felt: { lcpMs: number } }).felt, loadMs: entry?.loadEventEnd ?? Number.NaN };
  });
  await page.locator('.select-some summary').click();
  await page.locator('.select-some button').waitFor();
  await page.waitForTimeout(500);
  const pressMs = await page.evaluate(() => (window as unknown as { felt: { pressMs: number } }).felt.pressMs);
  return { lcpMs: loaded.lcpMs, loadMs: loaded.loadMs, pressMs, kB: bytes / 1000 };
}

async function compare(browser: Browser, origin: string): Promise<string> {
  const context = await enter(browser, origin);
  const copy = await staticCopy(await (await context.request.get('/', { headers: { accept: 'text/html' } })).text());
  const floor = `http://127.0.0.1:${(copy.address() as AddressInfo).port}/`;
  const felt: { ours: Felt[]; floor: Felt[] } = { ours: [], floor: [] };
  for (let round = 0; round < ROUNDS; round += 1)
    for (const [name, address] of [
      ['floor', floor],
      ['ours', `${origin}/`],
    ] as const) {
      const page = await context.newPage();
      felt[name].push(await visit(page, address));
      await page.close();
    }
  copy.close();
  await context.close();
  const names = { lcpMs: 'largest paint, ms', loadMs: 'loaded, ms', pressMs: 'press to picture, ms', kB: 'over the line, kB' } as const;
  const rows = (Object.keys(names) as (keyof Felt)[]).map((key) => {
    const [own, bare] = [median(felt.ours.map((one) => one[key])), median(felt.floor.map((one) => one[key]))];
    return [names[key], bare, own, own / bare];
  });
  return table(['60 bins, slow 4G, CPU 4 x slower, cold', 'static page', 'ours', 'x'], rows);
}

/** What of scripts each page fetches at first, packed. */
async function scripts(browser: Browser, origin: string): Promise<string> {
  const context = await enter(browser, origin);
  const { bins } = await (await context.request.get('/api/board')).json();
  const rows: (string | number)[][] = [];
  for (const path of ['/', '/bins/:bin', '/bins/:bin/log', '/bins/:bin/what-if', '/shifts', '/season', '/me']) {
    const page = await context.newPage();
    const sizes: Promise<number>[] = [];
    page.on('response', (answer) => {
      if (answer.request().resourceType() === 'script') sizes.push(answer.body().then((body) => gzipSync(body).length));
    });
    await page.goto(path.replace(':bin', bins[0].id), { waitUntil: 'load' });
    await page.locator('#svelte-announcer').waitFor({ state: 'attached' });
    const all = await Promise.all(sizes);
    rows.push([path, all.length, all.reduce((sum, size) => sum + size, 0) / 1000]);
    await page.close();
  }
  await context.close();
  return table(['page, as a volunteer', 'scripts', 'kB, gzip'], rows);
}

export async function slowPhone(origin: string): Promise<string> {
  const executablePath = findChromium();
  if (!executablePath) return chromiumMissing;
  const browser = await chromium.launch({ executablePath, args: chromiumArgs, headless: true });
  try {
    return `${await compare(browser, origin)}\n\n${await scripts(browser, origin)}`;
  } finally {
    await browser.close();
  }
}
