/** A phone whose browser can die and come back: one profile on disk, and the processes that use it. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { chromiumArgs, chromiumMissing, findChromium } from '../../scripts/chromium.mjs';

/** A browser in which a process has just died does not always answer. */
const ANSWERS_WITHIN_MS = 10_000;

async function within<T>(ms: number, work: Promise<T>): Promise<T> {
  const late = new AbortController();
  const cut = sleep(ms, undefined, { signal: late.signal }).then(() => Promise.reject(new Error(`Cannot wait longer than ${ms} ms`)));
  try {
    return await Promise.race([work, cut]);
  } finally {
    late.abort();
    cut.catch(() => undefined);
  }
}

function end(id: number): void {
  // Nobody's number would be everybody's.
  if (id <= 0) throw new RangeError(`Cannot end a process as its id is not known: current value is ${id}`);
  try {
    process.kill(id, 'SIGKILL');
  } catch {
    // It has ended by itself.
  }
}

export class KeptPhone {
  readonly #profile = mkdtempSync(join(tmpdir(), 'middenry-phone-'));
  readonly #origin: string;
  #context: BrowserContext | undefined;
  #browserPid = 0;

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
    [this.#browserPid = 0] = await this.#idsOf('browser');
    return context;
  }

  /** A new tab, the only one; the browser is started again where it died or no longer answers. */
  async tab(): Promise<Page> {
    const context = await this.context();
    const before = context.pages();
    const page = await within(ANSWERS_WITHIN_MS, context.newPage()).catch(async () => (await this.#anew()).newPage());
    await within(ANSWERS_WITHIN_MS, Promise.all(before.map((other) => other.close()))).catch(() => undefined);
    return page;
  }

  /** Closes the browser in order, as a phone that is switched off does. */
  async switchOff(): Promise<void> {
    const context = this.#context;
    if (context) await within(ANSWERS_WITHIN_MS, context.close()).catch(() => this.#die());
    this.#context = undefined;
  }

  /** Prepares a death without a word, of the tabs' processes or of the whole browser. @returns What kills it */
  async killer(of: 'renderer' | 'browser'): Promise<() => void> {
    const ids = of === 'browser' ? [this.#browserPid] : await this.#idsOf(of);
    return () => {
      for (const id of ids) end(id);
    };
  }

  /** Resolves when a tab of it, or all of it, has died; asked before the kill. */
  async dead(): Promise<void> {
    const context = this.#context;
    if (context === undefined) return;
    const closed = new Promise((resolve) => context.once('close', resolve));
    const crashes = context.pages().map((page) => new Promise((resolve) => page.once('crash', resolve)));
    await within(ANSWERS_WITHIN_MS, Promise.race([closed, ...crashes])).catch(() => undefined);
  }

  async #idsOf(type: string): Promise<number[]> {
    const session = await (await this.context()).browser()!.newBrowserCDPSession();
    const { processInfo } = await session.send('SystemInfo.getProcessInfo');
    await session.detach();
    const ids = processInfo.filter((one) => one.type === type).map(({ id }) => id);
    if (ids.length === 0) throw new Error(`Cannot kill the ${type} as there is none among ${processInfo.map((one) => one.type)}`);
    return ids;
  }

  async #die(): Promise<void> {
    const dead = this.dead();
    end(this.#browserPid);
    await dead;
    this.#context = undefined;
  }

  async #anew(): Promise<BrowserContext> {
    await this.#die();
    return this.context();
  }

  async throwAway(): Promise<void> {
    await this.switchOff();
    rmSync(this.#profile, { recursive: true, force: true });
  }
}
