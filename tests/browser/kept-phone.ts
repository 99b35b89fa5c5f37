/** A phone whose browser can die and come back: one profile on disk, and the processes that use it. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { chromiumArgs, chromiumMissing, findChromium } from '../../scripts/chromium.mjs';

const CLOSES_WITHIN_MS = 2000;
const DIES_WITHIN_MS = 6000;

export class KeptPhone {
  readonly #profile = mkdtempSync(join(tmpdir(), 'middenry-phone-'));
  readonly #origin: string;
  #context: BrowserContext | undefined;

  constructor(origin: string) {
    this.#origin = origin;
  }

  async context(): Promise<BrowserContext> {
    if (this.#context) return this.#context;
    const executablePath = findChromium();
    if (!executablePath) throw new Error(chromiumMissing);
    const viewport = { width: 360, height: 740 };
    const options = { executablePath, args: chromiumArgs, headless: true, baseURL: this.#origin, viewport, locale: 'en-GB' };
    const context = await chromium.launchPersistentContext(this.#profile, options);
    context.once('close', () => {
      this.#context = undefined;
    });
    this.#context = context;
    return context;
  }

  /** A new tab, the only one; the browser is started again where it died. */
  async tab(): Promise<Page> {
    const context = await this.context();
    const before = context.pages();
    const page = await context.newPage().catch(async () => (await this.#anew()).newPage());
    // A dead tab does not always answer.
    await Promise.race([Promise.all(before.map((other) => other.close().catch(() => undefined))), sleep(CLOSES_WITHIN_MS)]);
    return page;
  }

  /** Closes the browser in order, as a phone that is switched off does. */
  async switchOff(): Promise<void> {
    await this.#context?.close();
    this.#context = undefined;
  }

  /** Prepares a death without a word, of the tab's process or of the whole browser. @returns What kills it */
  async killer(of: 'renderer' | 'browser'): Promise<() => void> {
    const session = await (await this.context()).browser()!.newBrowserCDPSession();
    const { processInfo } = await session.send('SystemInfo.getProcessInfo');
    await session.detach();
    const ids = processInfo.filter(({ type }) => type === of).map(({ id }) => id);
    if (ids.length === 0) throw new Error(`Cannot kill the ${of} as it is not among ${processInfo.map(({ type }) => type)}`);
    return () => {
      for (const id of ids) process.kill(id, 'SIGKILL');
    };
  }

  /** Resolves when a tab of it, or all of it, has died; asked before the kill. */
  async dead(): Promise<void> {
    const context = this.#context;
    if (context === undefined) return;
    const closed = new Promise((resolve) => context.once('close', resolve));
    const crashes = context.pages().map((page) => new Promise((resolve) => page.once('crash', resolve)));
    await Promise.race([closed, ...crashes, sleep(DIES_WITHIN_MS)]);
  }

  async #anew(): Promise<BrowserContext> {
    await this.switchOff();
    return this.context();
  }

  async throwAway(): Promise<void> {
    await this.switchOff();
    rmSync(this.#profile, { recursive: true, force: true });
  }
}
