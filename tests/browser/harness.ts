/** A built server on a free loopback port with a data folder of its own, and a real Chromium to walk it with. */
import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { inject } from 'vitest';
import { chromiumArgs, chromiumMissing, findChromium } from '../../scripts/chromium.mjs';

const serverFile = fileURLToPath(new URL('../../apps/api/build/server.mjs', import.meta.url));
const STARTED_WITHIN_MS = 60_000;

export interface Running {
  readonly origin: string;
  readonly dataDir: string;
  /** Everything the server has printed so far. */
  printed(): string;
  stop(signal?: NodeJS.Signals): Promise<void>;
}

interface ServeOptions {
  /** Left out: a copy of the prepared demonstration. */
  readonly dataDir?: string;
  readonly flags?: readonly string[];
  readonly env?: Readonly<Record<string, string>>;
  readonly keepData?: boolean;
}

/** Starts the built server and waits for the address that it prints last. */
export async function serve(options: ServeOptions = {}): Promise<Running> {
  const dataDir = options.dataDir ?? copyOfDemo();
  const child = spawn(process.execPath, [serverFile, ...(options.flags ?? [])], {
    env: { PATH: process.env.PATH ?? '', PORT: '0', DATA_DIR: dataDir, ...options.env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const killAtExit = () => child.kill('SIGKILL');
  process.once('exit', killAtExit);
  let text = '';
  child.stderr.on('data', (chunk: Buffer) => {
    text += chunk.toString();
  });
  const origin = await addressFrom(child, (chunk) => {
    text += chunk;
    return text;
  });
  const stop = async (signal: NodeJS.Signals = 'SIGTERM') => {
    if (child.exitCode === null && child.signalCode === null) {
      const ended = new Promise((resolve) => child.once('exit', resolve));
      child.kill(signal);
      await ended;
    }
    process.off('exit', killAtExit);
    if (!options.keepData) rmSync(dataDir, { recursive: true, force: true });
  };
  return { origin, dataDir, printed: () => text, stop };
}

function copyOfDemo(): string {
  const dir = mkdtempSync(join(tmpdir(), 'middenry-browser-'));
  // Only the browser project prepares one.
  const prepared = inject('preparedDemo') as string | undefined;
  if (prepared) cpSync(prepared, dir, { recursive: true });
  return dir;
}

function addressFrom(child: ChildProcess, add: (chunk: string) => string): Promise<string> {
  return new Promise((resolve, reject) => {
    const late = setTimeout(() => reject(new Error(`The server printed no address within a minute:\n${add('')}`)), STARTED_WITHIN_MS);
    child.stdout?.on('data', (chunk: Buffer) => {
      const found = /middenry: (https?:\/\/\S+?)\/?\s*$/m.exec(add(chunk.toString()));
      if (!found) return;
      clearTimeout(late);
      resolve(found[1]!);
    });
    child.once('exit', (code) => {
      clearTimeout(late);
      reject(new Error(`The server ended with ${code} before it listened:\n${add('')}`));
    });
  });
}

export async function openBrowser(moreArgs: readonly string[] = []): Promise<Browser> {
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
  const page = await context.newPage();
  if (options.javaScriptEnabled !== false) waitForScripts(page);
  const strangers: string[] = [];
  const complaints: string[] = [];
  context.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(origin) && !/^(data|blob|about):/.test(url)) strangers.push(url);
  });
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(`${page.url()}: ${message.text()}`);
  });
  page.on('pageerror', (error) => complaints.push(`${page.url()}: ${error.message}`));
  return { page, context, strangers, complaints, close: () => context.close() };
}

/** One line for each thing that axe finds, so that a failure can be read; `colours` asks only what another theme can change. */
export async function axeFaults(page: Page, only?: 'colours'): Promise<string[]> {
  // Legacy mode leaves out a second page per run, which only frames of other origins need; there are none.
  const axe = new AxeBuilder({ page }).setLegacyMode(true);
  const { violations } = await (only === 'colours' ? axe.withTags('cat.color') : axe).analyze();
  return violations.flatMap((fault) => fault.nodes.map((node) => `${fault.id}: ${fault.help}: ${node.target.join(' ')}`));
}

/** A press before the page's scripts stand is the plain form's, or nobody's. */
const scriptsStand = (page: Page): Promise<void> => page.locator('#svelte-announcer').waitFor({ state: 'attached' });

/** Widest thing beyond the window, in px; 0 when nothing scrolls sideways. */
export const sidewaysPx = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
