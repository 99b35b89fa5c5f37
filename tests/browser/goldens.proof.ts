/**
 * Pictures of the pages that people look at most, kept beside this file so that a change of look is seen and chosen: board, wall, bin
 * page and log page, on light and on dark paper, at four widths. The clock stands still and the demonstration is made by it, so the same
 * program gives the same picture. `GOLDENS=new npm run proof -- goldens` keeps the pictures anew; what differs is put into `seen/`.
 */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Board } from '@middenry/contract';
import type { FastifyInstance } from 'fastify';
import type { Browser } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildApp } from '../../apps/api/src/app.ts';
import { readConfig } from '../../apps/api/src/config.ts';
import { movableClock } from '../../apps/api/src/context.ts';
import type { Store } from '../../apps/api/src/db/store.ts';
import { openDataFile } from '../../apps/api/src/start/data-dir.ts';
import { ensureDemo } from '../../apps/api/src/start/demonstration.ts';
import { mountWeb } from '../../apps/api/src/web/mount.ts';
import { makeDemo } from '../../seed/index.ts';
import { openBrowser, visit } from './harness.ts';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const KEPT_DIR = here('goldens');
const SEEN_DIR = here('goldens/seen');
const NOW = new Date('2026-11-25T09:30:00.000Z');
const WIDTHS: Readonly<Record<number, number>> = { 360: 1280, 768: 1024, 1440: 900, 1920: 1080 };
/** All pictures together, so that the repository stays light. */
const MOST_BYTES = 3_000_000;
/** Letters are drawn a little differently from one Chromium to the next: a pixel may be this much lighter or darker ... */
const MOST_SHIFT = 40;
/** ... and so many of them may be more than that. */
const MOST_SHARE = 0.005;
const isNew = process.env.GOLDENS === 'new';

let dataDir: string;
let store: Store;
let app: FastifyInstance;
let browser: Browser;
let origin: string;
let bin: string;
let cookie: string;
beforeAll(async () => {
  dataDir = mkdtempSync(join(tmpdir(), 'middenry-goldens-'));
  const config = readConfig({ DATA_DIR: dataDir }, []);
  const migrationsDir = here('../../migrations');
  await ensureDemo(config, migrationsDir, NOW, makeDemo);
  store = openDataFile(config, migrationsDir, NOW);
  app = await buildApp({ store, clock: movableClock(NOW), config });
  await mountWeb(app, { buildDir: here('../../apps/web/build') });
  origin = await app.listen({ host: '127.0.0.1', port: 0 });
  browser = await openBrowser();
  bin = await firstLook();
}, 600_000);
afterAll(async () => {
  await browser?.close();
  await app?.close();
  store?.sqlite.close();
  rmSync(dataDir, { recursive: true, force: true });
});

/** Works every bin out before a browser waits for it, and says which of them is worst off. */
async function firstLook(): Promise<string> {
  const headers = { origin, host: new URL(origin).host };
  const entered = await app.inject({ method: 'POST', url: '/api/session/demo', headers, payload: { as: 'coordinator' } });
  cookie = String(entered.headers['set-cookie']).split(';')[0]!;
  const { bins } = (await app.inject({ url: '/api/board', headers: { ...headers, cookie } })).json() as Board;
  return bins.find(({ band }) => band === 'act')!.id;
}

async function enter(width: number, colorScheme: 'light' | 'dark') {
  const viewport = { width, height: WIDTHS[width]! };
  const walk = await visit(browser, origin, {
    viewport,
    colorScheme,
    reducedMotion: 'reduce',
    locale: 'en-GB',
    timezoneId: 'Europe/London',
  });
  // The browser's own clock would drop a session of the standing clock's day.
  const [name = '', value = ''] = cookie.split('=');
  await walk.context.addCookies([{ name, value, url: origin }]);
  await walk.page.clock.setFixedTime(NOW);
  return walk;
}

const PAGES = {
  board: { path: () => '/', shows: '.board .tile', widths: [360, 768, 1440, 1920] },
  wall: { path: () => '/wall?inch=43&m=3&show=fit', shows: '.wall-grid .tile', widths: [1440, 1920] },
  bin: { path: () => `/bins/${bin}`, shows: '#history canvas', widths: [360, 768, 1440, 1920] },
  log: { path: () => `/bins/${bin}/log`, shows: '.key, .pick', widths: [360, 768, 1440, 1920] },
} as const;

/** Half as large and without colour: what is left are the shapes and the weights of a page. */
async function shapesOf(picture: Buffer, size: { readonly width: number; readonly height: number }): Promise<Buffer> {
  const [width, height] = [Math.round(size.width / 2), Math.round(size.height / 2)];
  return sharp(picture).greyscale().resize(width, height, { fit: 'fill' }).raw().toBuffer();
}

async function shareOff(one: Buffer, other: Buffer): Promise<number> {
  const size = await sharp(one).metadata();
  const [a, b] = await Promise.all([shapesOf(one, size), shapesOf(other, size)]);
  expect(a.length).toBe(b.length);
  let off = 0;
  for (let i = 0; i < a.length; i += 1) if (Math.abs(a[i]! - b[i]!) > MOST_SHIFT) off += 1;
  return off / a.length;
}

describe.each(['light', 'dark'] as const)('on %s paper', (paper) => {
  const cases = Object.entries(PAGES).flatMap(([name, { widths }]) => widths.map((width) => [name as keyof typeof PAGES, width] as const));
  test.each(cases)('%s at %d px looks as it was chosen to look', async (name, width) => {
    const walk = await enter(width, paper);
    await walk.page.goto(PAGES[name].path(), { waitUntil: 'load' });
    await walk.page.locator(PAGES[name].shows).first().waitFor({ state: 'attached' });
    await walk.page.evaluate(() => document.fonts.ready);
    const file = `${name}-${paper}-${width}.webp`;
    const seen = await sharp(await walk.page.screenshot({ animations: 'disabled', caret: 'hide' }))
      .webp({ quality: 70, effort: 6 })
      .toBuffer();
    await walk.close();
    const kept = join(KEPT_DIR, file);
    if (isNew) {
      mkdirSync(KEPT_DIR, { recursive: true });
      writeFileSync(kept, seen);
    }
    const off = await shareOff(readFileSync(kept), seen);
    if (off > MOST_SHARE) {
      mkdirSync(SEEN_DIR, { recursive: true });
      writeFileSync(join(SEEN_DIR, file), seen);
    }
    expect(off, `see tests/browser/goldens/seen/${file}`).toBeLessThanOrEqual(MOST_SHARE);
  });
});

test('all pictures together are light, and each page has one', () => {
  const files = (['light', 'dark'] as const).flatMap((paper) =>
    Object.entries(PAGES).flatMap(([name, { widths }]) => widths.map((width) => join(KEPT_DIR, `${name}-${paper}-${width}.webp`))),
  );
  expect(files.filter((file) => !existsSync(file))).toEqual([]);
  expect(files.reduce((sum, file) => sum + statSync(file).size, 0)).toBeLessThan(MOST_BYTES);
});
