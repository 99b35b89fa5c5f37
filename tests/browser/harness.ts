/** A built server on a free loopback port with a data folder of its own, and a real Chromium to walk it with. */
import { cpSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { chromiumArgs, chromiumMissing, findChromium } from '../../scripts/chromium.mjs';
import { demoTemplate } from '../demo-template.ts';
import { type Running, type StartOptions, startServer } from './started.ts';

export type { Running } from './started.ts';

/** Left out, the data folder is a copy of the demonstration. */
type ServeOptions = Omit<StartOptions, 'dataDir'> & { readonly dataDir?: string };

export const serve = async (options: ServeOptions = {}): Promise<Running> =>
  startServer({ ...options, dataDir: options.dataDir ?? (await copyOfDemo()) });

async function copyOfDemo(): Promise<string> {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-browser-'));
  cpSync(await demoTemplate(), dir, { recursive: true });
  return dir;
}

let shared: Promise<Browser> | null = null;

/** A browser of the file's own by what it sees: one process serves the files of a run, and closing it closes what this file opened in it. */
export async function openBrowser(moreArgs: readonly string[] = []): Promise<Browser> {
  if (moreArgs.length > 0) return launched(moreArgs);
  if (!(await shared)?.isConnected()) shared = launched();
  const browser = await shared!;
  const mine: BrowserContext[] = [];
  const newContext = async (options?: BrowserContextOptions) => {
    const context = await browser.newContext(options);
    mine.push(context);
    return context;
  };
  const close = async () => void (await Promise.all(mine.splice(0).map((context) => context.close())));
  return Object.create(browser, { newContext: { value: newContext }, close: { value: close } });
}

function launched(moreArgs: readonly string[] = []): Promise<Browser> {
  const executablePath = findChromium();
  if (!executablePath) throw new Error(chromiumMissing);
  return chromium.launch({ executablePath, args: [...chromiumArgs, ...moreArgs], headless: true });
}

export interface Walk {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Requests that left the server's own address: must stay empty (C30). */
  readonly strangers: string[];
  /** Errors in the console and uncaught ones, policy violations among them (E9). */
  readonly complaints: string[];
  close(): Promise<void>;
}

/** A press before a page's scripts stand is the plain form's: whoever means to try the page with its scripts has to wait for them. */
function waitForScripts(page: Page): void {
  const goto = page.goto.bind(page);
  page.goto = async (address, how) => {
    const answer = await goto(address, how);
    const isPage = answer?.headers()['content-type']?.includes('html') && how?.waitUntil !== 'commit';
    if (isPage) await scriptsStand(page);
    return answer;
  };
}

/** A fresh visitor. */
export async function visit(browser: Browser, origin: string, options: BrowserContextOptions = {}): Promise<Walk> {
  const context = await browser.newContext({
    baseURL: origin,
    serviceWorkers: 'block',
    viewport: { width: 1440, height: 900 },
    ...options,
  });
  const walk = await walkIn(context, origin, { scripts: options.javaScriptEnabled !== false });
  return { ...walk, close: () => context.close() };
}

/** One more page of somebody who is here already: what scripts were fetched are fetched no more. Closing it leaves the others open. */
export async function walkIn(context: BrowserContext, origin: string, { scripts = true } = {}): Promise<Walk> {
  const page = await context.newPage();
  if (scripts) waitForScripts(page);
  const strangers: string[] = [];
  const complaints: string[] = [];
  page.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(origin) && !/^(data|blob|about):/.test(url)) strangers.push(url);
  });
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(`${page.url()}: ${message.text()}`);
  });
  page.on('pageerror', (error) => complaints.push(`${page.url()}: ${error.message}`));
  return { page, context, strangers, complaints, close: () => page.close() };
}

/** One line for each thing that axe finds, so that a failure can be read; `colours` asks only what another theme can change. */
export async function axeFaults(page: Page, only?: 'colours'): Promise<string[]> {
  // Legacy mode leaves out a second page per run, which only frames of other origins need; there are none.
  // Of rules that are kept it works out no selectors: nobody reads them, and they are most of its work.
  const axe = new AxeBuilder({ page }).setLegacyMode(true).options({ resultTypes: ['violations'] });
  const { violations } = await (only === 'colours' ? axe.withTags('cat.color') : axe).analyze();
  return violations.flatMap((fault) => fault.nodes.map((node) => `${fault.id}: ${fault.help}: ${node.target.join(' ')}`));
}

/** A press before the page's scripts stand is the plain form's, or nobody's. */
const scriptsStand = (page: Page): Promise<void> => page.locator('#svelte-announcer').waitFor({ state: 'attached' });

/** Tabs on until the focus is on what `selector` names: whoever has no mouse has no other way. */
export async function tabTo(page: Page, selector: string, most = 60): Promise<void> {
  for (let presses = 0; presses < most; presses++) {
    await page.keyboard.press('Tab');
    if (await page.evaluate((wanted) => document.activeElement?.matches(wanted), selector)) return;
  }
  throw new Error(`${most} presses of Tab did not lead to ${selector}`);
}

/** Widest thing beyond the window, in px; 0 when nothing scrolls sideways. */
export const sidewaysPx = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
