/** Links that somebody is handed: an invite, the reply link of a mail, a reader's board. Their secret is in no address that is sent (ASVS 14.2.1). */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { freshId } from '../cast.ts';
import { openBrowser, type Running, serve, visit, type Walk } from './harness.ts';

let server: Running;
let browser: Browser;
let lead: Walk;
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  lead = await visit(browser, server.origin);
  expect((await post('/api/session/demo', { as: 'coordinator' })).status()).toBe(201);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const post = (path: string, data: object) => lead.context.request.post(path, { data, headers: { origin: server.origin } });
const made = async (path: string, data: object = {}): Promise<string> => (await (await post(path, { id: freshId(), ...data })).json()).path;
const secretOf = (path: string) => path.split('#')[1]!;
const older = (path: string) => path.replace('#', '/');

/** Everything a page sends in which a proxy, a log or another site could find a secret: addresses and headers, not bodies. */
function addressesOf(page: Page): string[] {
  const seen: string[] = [];
  page.on('request', (request) => seen.push(`${request.method()} ${request.url()} ${JSON.stringify(request.headers())}`));
  return seen;
}

/** A mail to the volunteer of the demonstration about a shift on which they have a place. */
async function mailed(): Promise<string> {
  const sqlite = new Database(join(server.dataDir, 'demo.db'));
  const place = sqlite
    .prepare(
      `SELECT s.person_id AS personId, s.shift_id AS shiftId FROM sign_up s JOIN shift h ON h.id = s.shift_id
       WHERE s.given_back_at IS NULL AND h.cancelled_at IS NULL AND h.local_date > date('now', '+2 days') LIMIT 1`,
    )
    .get() as { personId: string; shiftId: string };
  const secret = freshId().replaceAll('-', '').padEnd(43, 'x');
  const [messageId, now] = [freshId(), new Date().toISOString()];
  sqlite
    .prepare(
      `INSERT INTO message (id, person_id, kind, shift_id, occasion, facts, made_at, urgent) VALUES (?, ?, 'reminder-day', ?, ?, '{}', ?, 0)`,
    )
    .run(messageId, place.personId, place.shiftId, messageId, now);
  sqlite
    .prepare(
      `INSERT INTO mail (id, kind, person_id, message_id, address, urgent, state, made_at, next_try_at, good_until, reply_hash)
       VALUES (?, 'message', ?, ?, 'otis@example.org', 0, 'handed-over', ?, ?, ?, ?)`,
    )
    .run(freshId(), place.personId, messageId, now, now, now, createHash('sha256').update(secret).digest('hex'));
  sqlite.close();
  return `/reply#${secret}`;
}

describe('an invite', () => {
  test('E5: a hundred scanners open it with scripts, and then a person comes in; no address ever held its secret', {
    timeout: 180_000,
  }, async () => {
    const link = await made('/api/invites', { name: 'Sorrel A.' });
    const walk = await visit(browser, server.origin, { viewport: { width: 360, height: 640 } });
    const { page } = walk;
    const addresses = addressesOf(page);
    for (let scan = 0; scan < 100; scan += 1) {
      await page.goto('about:blank');
      const looked = page.waitForResponse('**/api/invite-cards');
      await page.goto(link, { waitUntil: 'commit' });
      expect((await looked).status()).toBe(200);
    }
    await page.getByRole('button', { name: 'Come in' }).waitFor();
    expect(page.url()).toBe(`${server.origin}/join`);
    await page.getByRole('button', { name: 'Come in' }).click();
    await page.waitForURL(`${server.origin}/`);
    await page.goBack();
    expect(page.url()).not.toContain(secretOf(link));
    expect(addresses.filter((line) => line.includes('/api/invite-cards'))).toHaveLength(100);
    expect(addresses.filter((line) => line.includes(secretOf(link)))).toEqual([]);
    expect(walk.complaints).toEqual([]);
    await page.goto('about:blank');
    await page.goto(link);
    await page.getByRole('heading', { name: 'This invite cannot be used any more.' }).waitFor();
    await walk.close();
  });

  test('of the older form opens as well, with and without scripts, and leaves its secret neither in the bar nor in the history', async () => {
    const link = await made('/api/invites', { name: 'Tansy O.' });
    const walk = await visit(browser, server.origin);
    await walk.page.goto('/sign-in');
    await walk.page.goto(older(link), { waitUntil: 'commit' });
    await walk.page.getByRole('button', { name: 'Come in' }).waitFor();
    expect(walk.page.url()).toBe(`${server.origin}/join`);
    await walk.page.goBack();
    expect(walk.page.url()).toBe(`${server.origin}/sign-in`);
    await walk.close();
    const plain = await visit(browser, server.origin, { javaScriptEnabled: false });
    await plain.page.goto(older(link));
    await plain.page.getByRole('button', { name: 'Open' }).click();
    await plain.page.getByRole('button', { name: 'Come in' }).click();
    expect((await (await plain.context.request.get('/api/session')).json()).person.name).toBe('Tansy O.');
    await plain.close();
  });

  test('that lost its end is asked for in words, and can be pasted, with and without scripts', async () => {
    for (const javaScriptEnabled of [true, false]) {
      const link = await made('/api/invites', { name: 'Rowan E.' });
      const walk = await visit(browser, server.origin, { javaScriptEnabled });
      const { page } = walk;
      const addresses = addressesOf(page);
      await page.goto('/join');
      await page.getByText('a part of your link got lost').waitFor();
      await page.getByLabel('Paste the whole link here').fill(`${server.origin}${link.slice(0, -1)}`);
      await page.getByRole('button', { name: 'Open' }).click();
      await page.getByText('This is not the whole link.').first().waitFor();
      await page.getByLabel('Paste the whole link here').fill(`Come: ${server.origin}${link} .`);
      await page.getByRole('button', { name: 'Open' }).click();
      await page.getByRole('button', { name: 'Come in' }).click();
      await page.waitForURL(`${server.origin}/`);
      expect(addresses.filter((line) => line.includes(secretOf(link)))).toEqual([]);
      await walk.close();
    }
  });

  test('goes on in the language that is chosen on its page', async () => {
    const link = await made('/api/invites');
    const walk = await visit(browser, server.origin);
    const addresses = addressesOf(walk.page);
    await walk.page.goto(link);
    await walk.page.getByRole('button', { name: 'Come in' }).waitFor();
    await walk.page.getByRole('button', { name: 'Español' }).click();
    await walk.page.getByRole('button', { name: 'Entrar' }).waitFor();
    expect(walk.page.url()).toBe(`${server.origin}/join`);
    expect(addresses.filter((line) => line.includes(secretOf(link)))).toEqual([]);
    await walk.close();
  });
});

describe('the reply link of a mail', () => {
  test('gives the place back and stops mail by a press each; no address held its secret, and the older form works', async () => {
    const link = await mailed();
    const walk = await visit(browser, server.origin, { viewport: { width: 360, height: 640 } });
    const { page } = walk;
    const addresses = addressesOf(page);
    await page.goto(link);
    await page.getByRole('button', { name: "I can't come" }).click();
    await page.getByText('You do not have a place on this shift.').waitFor();
    expect(page.url().startsWith(`${server.origin}/reply`)).toBe(true);
    expect(addresses.filter((line) => line.includes(secretOf(link)))).toEqual([]);
    await walk.close();
    const plain = await visit(browser, server.origin, { javaScriptEnabled: false });
    await plain.page.goto(older(link));
    await plain.page.getByRole('button', { name: 'Open' }).click();
    await plain.page.getByText('You do not have a place on this shift.').waitFor();
    const stop = plain.page.getByRole('button', { name: 'No more mail' });
    if ((await stop.count()) > 0) await stop.click();
    await plain.page.getByText('You get no more mail.').waitFor();
    await plain.close();
  });
});

describe("a reader's board", () => {
  test('C16: keeps its secret behind the # through orders, filters, jumps and a reload, and shows nothing once taken back', async () => {
    const id = freshId();
    const link = (await (await post('/api/links', { id, kind: 'board' })).json()).path as string;
    const walk = await visit(browser, server.origin);
    const { page } = walk;
    const addresses = addressesOf(page);
    const isKept = () => expect.poll(() => new URL(page.url()).hash).toBe(`#${secretOf(link)}`);
    await page.goto(link);
    await page.locator('.tile').first().waitFor();
    await page.locator('a.count').click();
    await isKept();
    await page.getByRole('link', { name: 'By place' }).click();
    await page.waitForURL((url) => url.searchParams.get('order') === 'place');
    await isKept();
    await page.getByText('Show only some').click();
    await page.getByRole('group').getByLabel('act').check();
    await page.getByRole('button', { name: 'Show these' }).click();
    await page.waitForURL((url) => url.searchParams.get('band') === 'act');
    await isKept();
    await page.reload();
    await page.locator('.tile').first().waitFor();
    expect(addresses.filter((line) => line.includes(secretOf(link)))).toEqual([]);
    expect(walk.complaints).toEqual([]);
    await lead.context.request.delete(`/api/links/${id}`, { headers: { origin: server.origin } });
    await page.getByRole('link', { name: 'By place' }).click();
    await page.getByRole('heading', { name: 'This link shows nothing any more.' }).waitFor();
    await walk.close();
  });

  test('A10, C16: its wall starts again from its own address and from an older one, and says so when its link is taken back', async () => {
    const id = freshId();
    const link = (await (await post('/api/links', { id, kind: 'board' })).json()).path as string;
    const walk = await visit(browser, server.origin);
    const { page } = walk;
    const addresses = addressesOf(page);
    const said = '?inch=43&m=3&show=fit';
    await page.goto(`${older(link)}/wall${said}`, { waitUntil: 'commit' });
    await page.locator('.wall-grid .tile').first().waitFor();
    expect(page.url()).toBe(`${server.origin}/look/wall${said}#${secretOf(link)}`);
    // Only the older address, which this page left at once, was sent with it.
    expect(addresses.filter((line) => line.includes(secretOf(link))).map((line) => line.split(' ')[1])).toEqual([
      `${server.origin}${older(link)}/wall${said}`,
    ]);
    await page.clock.install();
    await page.reload();
    await page.locator('.wall-grid .tile').first().waitFor();
    await lead.context.request.delete(`/api/links/${id}`, { headers: { origin: server.origin } });
    const heard = page.waitForResponse('**/api/linked-boards');
    await page.clock.runFor(31_000);
    expect((await heard).status()).toBe(404);
    await expect.poll(() => page.locator('.wall-head.cut').count()).toBe(1);
    await walk.close();
  });

  test('two walls in one browser show each its own site', async () => {
    const { items: sites } = await (await lead.context.request.get('/api/sites')).json();
    const walk = await visit(browser, server.origin);
    const seen: string[] = [];
    for (const { id, name } of sites.slice(0, 2)) {
      const link = await made('/api/links', { kind: 'board', siteId: id });
      await walk.page.goto('about:blank');
      await walk.page.goto(link);
      await walk.page.locator('.tile').first().waitFor();
      expect(await walk.page.locator('.head .where b').textContent()).toBe(name);
      seen.push(name);
      expect(await walk.context.cookies()).toEqual([]);
    }
    expect(new Set(seen).size).toBe(2);
    await walk.close();
  });

  test('without scripts is shown by the pasted link', async () => {
    const link = await made('/api/links', { kind: 'board' });
    const plain = await visit(browser, server.origin, { javaScriptEnabled: false });
    await plain.page.goto(link);
    await plain.page.getByLabel('Paste the whole link here').fill(server.origin + link);
    await plain.page.getByRole('button', { name: 'Open' }).click();
    await plain.page.locator('.tile').first().waitFor();
    expect(plain.page.url()).not.toContain(secretOf(link));
    await plain.close();
  });
});

test('14.2.1: what a browser carries for the bin holds no handed address, and with no network it leads none on to another', async () => {
  const link = await made('/api/links', { kind: 'board' });
  const walk = await visit(browser, server.origin, { serviceWorkers: 'allow' });
  const { page } = walk;
  await walk.context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: server.origin } });
  await page.goto('/waiting');
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null, null, { timeout: 15_000 });
  await page.goto(link);
  await page.locator('.tile').first().waitFor();
  await page.goto(`${older(link)}?again`, { waitUntil: 'commit' });
  await page.locator('.tile').first().waitFor();
  const kept = await page.evaluate(async () => {
    const caches_ = await Promise.all((await caches.keys()).map(async (name) => (await caches.open(name)).keys()));
    return caches_.flat().map(({ url }) => url);
  });
  expect(kept.length).toBeGreaterThan(10);
  expect(kept.filter((url) => url.includes(secretOf(link)))).toEqual([]);
  const addresses = addressesOf(page);
  await walk.context.setOffline(true);
  await expect(page.goto(older(link))).rejects.toThrow(/ERR_INTERNET_DISCONNECTED/);
  expect(addresses.filter((line) => line.includes('wanted='))).toEqual([]);
  await walk.close();
});
