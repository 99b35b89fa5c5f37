/** The board on a slow phone, as ratios to a static page with the same content, and the scripts of each page. */
import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { type Browser, type BrowserContext, chromium, type Page, type Response } from 'playwright-core';
import { chromiumArgs, chromiumMissing, findChromium } from '../scripts/chromium.mjs';
import { root } from '../scripts/lib.mjs';
import { table } from './measure.ts';

/** A slow 4G line as page-speed tools have it, and a processor four times slower. */
const SLOW_4G = { offline: false, latency: 150, downloadThroughput: 1_638_400 / 8, uploadThroughput: 768_000 / 8 };
const SLOWER = 4;
const ROUNDS = 5;
/** Presses of each visit: so many that a quarter of all of them is more than chance. */
const PRESSES = 5;
/** What of scripts a page fetches does not hang on how many bins there are: told once. */
const SCRIPTS_AT = 60;
const PHONE = { viewport: { width: 360, height: 640 }, serviceWorkers: 'block' as const };

const atShare = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * share))] ?? Number.NaN;
const median = (values: readonly number[]): number => atShare(values, 0.5);

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
  /** From each press to the picture that answers it; the first as soon as the page can be pressed. */
  readonly pressesMs: readonly number[];
  readonly kB: number;
}

/** What `watchPage` leaves on the page's window. */
interface Watched {
  lcpMs: number;
  /** The longest event of each press, by the browser's number of it. */
  presses: Record<string, number>;
}

/** Runs in the page before its own scripts. */
function watchPage(): void {
  const felt: Watched = { lcpMs: 0, presses: {} };
  Object.assign(window, { felt });
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) felt.lcpMs = entry.startTime;
  }).observe({ type: 'largest-contentful-paint', buffered: true });
  new PerformanceObserver((list) => {
    for (const { interactionId: id, duration } of list.getEntries() as (PerformanceEntry & { readonly interactionId: number })[])
      if (id > 0) felt.presses[id] = Math.max(felt.presses[id] ?? 0, duration);
  }).observe({ type: 'event', durationThreshold: 16, buffered: true } as PerformanceObserverInit);
}

/** One cold visit: nothing kept from the last one. */
async function visit(page: Page, address: string): Promise<Felt> {
  const session = await page.context().newCDPSession(page);
  await session.send('Network.enable');
  await session.send('Network.setCacheDisabled', { cacheDisabled: true });
  await session.send('Network.emulateNetworkConditions', SLOW_4G);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
  await page.addInitScript(watchPage);
  let bytes = 0;
  session.on('Network.loadingFinished', ({ encodedDataLength }) => {
    bytes += encodedDataLength;
  });
  await page.goto(address, { waitUntil: 'load' });
  const summary = page.locator('.select-some summary');
  for (let n = 0; n < PRESSES; n += 1) {
    await summary.click();
    // The picture that answers, and the browser's account of it, which comes later.
    await page.waitForTimeout(500);
  }
  const { loadMs, felt } = await page.evaluate(() => {
    const [entry] = performance.getEntriesByType('navigation') as PerformanceNavigationTiming[];
    return { felt: (window as unknown as { felt: Watched }).felt, loadMs: entry?.loadEventEnd ?? Number.NaN };
  });
  return { lcpMs: felt.lcpMs, loadMs, pressesMs: Object.values(felt.presses), kB: bytes / 1000 };
}

/** All presses of all visits; one that the browser did not account for would flatter, so it is an error. */
function pressesOf(visits: readonly Felt[]): number[] {
  const all = visits.flatMap(({ pressesMs }) => pressesMs);
  if (all.length !== ROUNDS * PRESSES) throw new Error(`${all.length} of ${ROUNDS * PRESSES} presses were accounted for`);
  return all;
}

async function compare(browser: Browser, origin: string, bins: number): Promise<string> {
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
  const reads: Readonly<Record<string, (all: readonly Felt[]) => number>> = {
    'largest paint, ms': (all) => median(all.map(({ lcpMs }) => lcpMs)),
    'loaded, ms': (all) => median(all.map(({ loadMs }) => loadMs)),
    'first press to picture, ms': (all) => median(all.map(({ pressesMs }) => pressesMs[0] ?? Number.NaN)),
    [`press to picture, 75 of 100 of ${ROUNDS * PRESSES}, ms`]: (all) => atShare(pressesOf(all), 0.75),
    'press to picture, the worst, ms': (all) => atShare(pressesOf(all), 1),
    'over the line, kB': (all) => median(all.map(({ kB }) => kB)),
  };
  const rows = Object.entries(reads).map(([name, read]) => [name, read(felt.floor), read(felt.ours), read(felt.ours) / read(felt.floor)]);
  return table([`${bins} bins, slow 4G, CPU 4 x slower, nothing kept`, 'static page', 'ours', 'x'], rows);
}

/** What of scripts each page fetches at first, packed. */
async function scripts(browser: Browser, origin: string): Promise<string> {
  const context = await enter(browser, origin);
  const { bins } = await (await context.request.get('/api/board')).json();
  const rows: (string | number)[][] = [];
  for (const path of ['/', '/bins/:bin', '/bins/:bin/log', '/bins/:bin/what-if', '/shifts', '/season', '/me']) {
    const page = await context.newPage();
    const sizes: Promise<number>[] = [];
    const weigh = (answer: Response) => {
      if (answer.request().resourceType() === 'script') sizes.push(answer.body().then((body) => gzipSync(body).length));
    };
    page.on('response', weigh);
    await page.goto(path.replace(':bin', bins[0].id), { waitUntil: 'load' });
    await page.locator('#svelte-announcer').waitFor({ state: 'attached' });
    // What comes later belongs to what carries notes, and would be cut off by closing the page.
    page.off('response', weigh);
    const all = await Promise.all(sizes);
    rows.push([path, all.length, all.reduce((sum, size) => sum + size, 0) / 1000]);
    await page.close();
  }
  await context.close();
  return table(['page, as a volunteer', 'scripts', 'kB, gzip'], rows);
}

export async function slowPhone(origin: string, bins: number): Promise<string> {
  const executablePath = findChromium();
  if (!executablePath) return chromiumMissing;
  const browser = await chromium.launch({ executablePath, args: chromiumArgs, headless: true });
  try {
    const felt = await compare(browser, origin, bins);
    return bins > SCRIPTS_AT ? felt : `${felt}\n\n${await scripts(browser, origin)}`;
  } finally {
    await browser.close();
  }
}
