/** A press that slides off, a correction that comes too late, and a phone that is new. */
import type { Browser, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { type Running, visit, type Walk } from './harness.ts';

interface Stage {
  readonly browser: Browser;
  readonly server: Running;
  readonly walk: Walk;
  readonly page: Page;
  readonly bin: { readonly id: string };
  readonly scan: (kind?: string) => Promise<unknown>;
  // biome-ignore lint/suspicious/noExplicitAny: answers of many shapes, each checked by the contract on its way out
  readonly read: (path: string) => Promise<any>;
}

/** The stage is asked for in each test: it stands only when they run. */
export function onePhone(stage: () => Stage): void {
  test('B4: what is pressed acts when the finger leaves it, and not when it slides off before', async () => {
    const { page, scan } = stage();
    await scan('check');
    const smell = page.locator('label.choice:has(input[value="rotten"])');
    await smell.scrollIntoViewIfNeeded();
    const box = (await smell.boundingBox())!;
    const chosen = () => page.locator('input[value="rotten"]').isChecked();
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    expect(await chosen()).toBe(false);
    await page.mouse.move(x, y + box.height * 3);
    await page.mouse.up();
    expect(await chosen()).toBe(false);
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.up();
    expect(await chosen()).toBe(true);
  });

  test('B25: whoever corrects a note that somebody corrected meanwhile is told, sees both, and overwrites nothing unseen', async () => {
    const { browser, server, walk, page, bin, read } = stage();
    const id = crypto.randomUUID().replace(/^(.{14})4/, '$17');
    await walk.context.request.post('/api/notes', {
      data: { id, binId: bin.id, happenedAt: new Date().toISOString(), note: 'As it was.' },
      headers: { origin: server.origin },
    });
    await page.goto(`/entries/${id}`);
    const lead = await visit(browser, server.origin);
    await lead.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: server.origin } });
    await lead.page.goto(`/entries/${id}`);
    await lead.page.locator('#note').fill('What the lead says.');
    await lead.page.getByRole('button', { name: 'Save the correction' }).click();
    await lead.page.getByText('Put right.').first().waitFor();
    await lead.close();

    await page.locator('#note').fill('What I say.');
    await page.getByRole('button', { name: 'Save the correction' }).click();
    await page.getByText('Somebody changed this while you were writing.').first().waitFor();
    expect(await page.locator('#note').inputValue()).toBe('What I say.');
    await page.getByText('What the lead says.').first().waitFor();
    await page.getByText('As it was.').first().waitFor();
    expect((await read(`/api/entries/${id}`)).note).toBe('What the lead says.');
    await page.getByRole('button', { name: 'Save the correction' }).click();
    await expect.poll(async () => (await read(`/api/entries/${id}`)).note).toBe('What I say.');
  });

  test('B29: a new phone comes in by a code that is pasted, with nothing to remember, and speaks as its owner does', async () => {
    const { browser, server, walk, bin } = stage();
    await walk.context.request.patch('/api/message-setting', { data: { language: 'es' }, headers: { origin: server.origin } });
    const made = await walk.context.request.post('/api/device-codes', { data: {}, headers: { origin: server.origin } });
    const { code } = await made.json();
    const phone = await visit(browser, server.origin, { viewport: { width: 360, height: 640 } });
    await phone.page.goto(`/sign-in/code?next=${encodeURIComponent(`/bins/${bin.id}/log`)}`);
    const field = phone.page.locator('#code');
    expect(await field.getAttribute('autocomplete')).toBe('one-time-code');
    await field.evaluate((input: HTMLInputElement, text) => {
      input.focus();
      document.execCommand('insertText', false, text);
    }, ` ${code}`);
    await field.press('Enter');
    await phone.page.getByRole('button', { name: /^Guardar/ }).waitFor();
    expect(await phone.page.locator('html').getAttribute('lang')).toBe('es');
    await walk.context.request.patch('/api/message-setting', { data: { language: 'en' }, headers: { origin: server.origin } });
    await phone.close();
  });
}
