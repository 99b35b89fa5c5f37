import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { chromiumArgs, chromiumMissing, findChromium } from '../scripts/chromium.mjs';
import { demoTemplate } from '../tests/demo-template.ts';
import { inTurn, table } from './measure.ts';
import { startOurs } from './server-process.ts';

/** A cheap phone is about four times slower than this machine, on a line with 150 ms to and fro, 1.6 Mbit/s down and 0.75 up. */
const SLOWER = 4;
const SLOW_LINE = { offline: false, latency: 150, downloadThroughput: (1.6e6 * 0.9) / 8, uploadThroughput: (0.75e6 * 0.9) / 8 };
const NO_LINE = { offline: true, latency: 0, downloadThroughput: 0, uploadThroughput: 0 };
const BARE =
  '<!doctype html><html lang="en"><meta name="viewport" content="width=device-width"><title>Bare</title><h1>A bare page</h1><button>Save</button></html>';
const REPEATS = { warmUps: 1, count: 1, rounds: 7 };

type Line = 'slow' | 'none' | 'full';

async function barePage(): Promise<{ readonly origin: string; close(): void }> {
  const server = createServer((_asked, answer) => void answer.setHeader('content-type', 'text/html').end(BARE));
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const close = () => {
    server.close();
    server.closeAllConnections();
  };
  return { origin: `http://127.0.0.1:${(server.address() as AddressInfo).port}`, close };
}

/** A new tab of a slow phone. */
async function slowTab(context: BrowserContext, line: Line): Promise<Page> {
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
  await session.send('Network.enable');
  if (line !== 'full') await session.send('Network.emulateNetworkConditions', line === 'slow' ? SLOW_LINE : NO_LINE);
  if (line === 'none') await context.setOffline(true);
  return page;
}

interface Opened {
  readonly context: BrowserContext;
  readonly address: string;
  readonly line: Line;
}

/** From the address to a page with its Save button, with its scripts where it has any. */
async function open({ context, address, line }: Opened, hasScripts: boolean): Promise<void> {
  const page = await slowTab(context, line);
  await page.goto(address, { waitUntil: 'commit' });
  await page.getByRole('button', { name: /^Save/ }).waitFor();
  if (hasScripts) await page.locator('#svelte-announcer').waitFor({ state: 'attached' });
  await page.close();
}

/** The log page of a bin on a slow phone: seen for the first time, seen before, and with no network, each as a ratio to a bare static page in one run. */
export async function benchPhone(): Promise<string> {
  const executablePath = findChromium();
  if (!executablePath) throw new Error(chromiumMissing);
  const dir = mkdtempSync(join(tmpdir(), 'middenry-bench-'));
  cpSync(await demoTemplate(), join(dir, 'ours'), { recursive: true });
  const [server, bare] = await Promise.all([startOurs(join(dir, 'ours')), barePage()]);
  const browser = await chromium.launch({ executablePath, args: chromiumArgs, headless: true });
  const phone = async (serviceWorkers: 'allow' | 'block') => {
    const context = await browser.newContext({ viewport: { width: 360, height: 740 }, locale: 'en-GB', serviceWorkers });
    await context.request.post(`${server.origin}/api/session/demo`, { data: { as: 'volunteer' }, headers: { origin: server.origin } });
    return context;
  };
  const once = async (address: string, hasScripts: boolean) => {
    const context = await phone('block');
    await open({ context, address, line: 'slow' }, hasScripts);
    await context.close();
  };
  try {
    const kept = await phone('allow');
    const { items } = await (await kept.request.get(`${server.origin}/api/bins`)).json();
    const log = `${server.origin}/bins/${items[0].id}/log`;
    const first = await kept.newPage();
    await first.goto(`${server.origin}/waiting`);
    await first.waitForFunction(() => navigator.serviceWorker.controller !== null, null, { timeout: 60_000 });
    await first.getByText('What this phone carries is from').waitFor({ timeout: 120_000 });
    await first.close();
    const works = {
      'bare page': () => once(bare.origin, false),
      'log page, first visit': () => once(log, true),
      'log page, visited before': async () => {
        await kept.setOffline(false);
        await open({ context: kept, address: log, line: 'slow' }, true);
      },
      'log page, no network': () => open({ context: kept, address: log, line: 'none' }, true),
    };
    const times = await inTurn(works, REPEATS);
    const floorMs = times['bare page'].medianMs;
    const rows = Object.entries(times).map(([name, { medianMs, p95Ms }]) => [name, medianMs, p95Ms, medianMs / floorMs]);
    const words = 'CPU 4 x slower; 150 ms to and fro, 1.6 Mbit/s down, 0.75 up. From the address to the Save button with its scripts.';
    return [table(['what', 'median ms', 'p95 ms', 'x bare page'], rows), '', words].join('\n');
  } finally {
    await browser.close();
    bare.close();
    await server.stop();
    rmSync(dir, { recursive: true, force: true });
  }
}
