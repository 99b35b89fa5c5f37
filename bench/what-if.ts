/** How smoothly the what-if follows a held slider in a real browser slowed down four times. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type CDPSession, chromium, type Page } from 'playwright-core';
import { chromiumArgs, chromiumMissing, findChromium } from '../scripts/chromium.mjs';
import { table } from './measure.ts';
import { startOurs } from './server-process.ts';

const SLOWER = 4;
const MOVES = 120;
const LONGEST_FRAME_MS = 50;

interface Watched {
  /** Between one frame and the next [ms]. */
  readonly frames: readonly number[];
  /** Tasks of the page itself that took 50 ms or more. */
  readonly longTasks: readonly number[];
  /** From a move of the slider to the fan drawn anew [ms]. */
  readonly answers: readonly number[];
}

/** Watches frames, long tasks and the fan inside the page while the slider is held and moved. */
async function drag(page: Page): Promise<Watched> {
  const slider = page.locator('#mass ~ input[type="range"]');
  const box = await slider.boundingBox();
  if (box === null) throw new Error('the page has no slider for the food');
  // What runs our TypeScript names functions by a helper that a page does not have.
  await page.evaluate('globalThis.__name = (made) => made');
  await page.evaluate(() => {
    const seen = { frames: [] as number[], longTasks: [] as number[], answers: [] as number[] };
    Object.assign(window, { seen });
    let last = performance.now();
    let moved = 0;
    const frame = (now: number) => {
      seen.frames.push(now - last);
      last = now;
      requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
    new PerformanceObserver((list) => {
      for (const task of list.getEntries()) seen.longTasks.push(task.duration);
    }).observe({ type: 'longtask' });
    const fan = document.querySelector('.fan svg.broad path.line');
    document.querySelector('#mass ~ input[type="range"]')?.addEventListener('input', () => {
      moved ||= performance.now();
    });
    new MutationObserver(() => {
      if (moved > 0) seen.answers.push(performance.now() - moved);
      moved = 0;
    }).observe(fan as Element, { attributes: true, attributeFilter: ['d'] });
  });
  const y = box.y + box.height / 2;
  await page.mouse.move(box.x + 2, y);
  await page.mouse.down();
  for (let i = 0; i < MOVES; i += 1)
    await page.mouse.move(box.x + 2 + (box.width - 4) * (0.5 - 0.5 * Math.cos((6 * Math.PI * i) / MOVES)), y);
  await page.mouse.up();
  await page.waitForTimeout(500);
  return page.evaluate(() => (window as unknown as { seen: Watched }).seen);
}

const at = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? Number.NaN;

async function measured(page: Page, session: CDPSession, address: string, slower: number): Promise<readonly (string | number)[]> {
  await page.goto(address, { waitUntil: 'load' });
  await page.locator('#mass ~ input[type="range"]').press('PageUp');
  await page.waitForTimeout(1500);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slower });
  const { frames, longTasks, answers } = await drag(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 1 });
  const over = frames.filter((ms) => ms > LONGEST_FRAME_MS).length;
  return [
    `${slower}`,
    frames.length,
    at(frames, 0.5),
    at(frames, 0.95),
    Math.max(...frames),
    over,
    longTasks.length,
    at(answers, 0.5),
    at(answers, 0.95),
  ];
}

/** Frame times while a slider is held, as it is and four times slower, with what a browser fetches for it. */
export async function benchWhatIf(): Promise<string> {
  const executablePath = findChromium();
  if (!executablePath) return chromiumMissing;
  const dataDir = mkdtempSync(join(tmpdir(), 'middenry-what-if-'));
  const server = await startOurs(dataDir);
  const browser = await chromium.launch({ executablePath, args: chromiumArgs, headless: true });
  try {
    const context = await browser.newContext({ baseURL: server.origin, viewport: { width: 1280, height: 900 }, serviceWorkers: 'block' });
    await context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: server.origin } });
    const bins = (await (await context.request.get('/api/bins')).json()) as { items: { id: string; code: string; zones: number }[] };
    const bin = bins.items.reduce((a, b) => (b.zones > a.zones ? b : a));
    const members = await context.request.get(`/api/bins/${bin.id}/ensemble`);
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    const rows = [];
    for (const slower of [1, SLOWER]) rows.push(await measured(page, session, `/bins/${bin.id}/what-if`, slower));
    const head = [
      'CPU slower by',
      'frames',
      'median ms',
      '95 %',
      'worst',
      'over 50 ms',
      'long tasks',
      'fan after a move, median ms',
      '95 %',
    ];
    return `${bin.zones} zones; the members are ${(await members.body()).length} bytes before compression.\n\n${table(head, rows)}`;
  } finally {
    await browser.close();
    await server.stop();
    rmSync(dataDir, { recursive: true, force: true });
  }
}
