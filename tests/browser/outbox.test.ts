/** What waits on the phone is sent, and only then leaves it; no network is needed to keep it (criteria B14-B18, H1-H5). */
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { axeFaults, openBrowser, type Running, serve, sidewaysPx, visit, type Walk } from './harness.ts';
import { atServer, carried, onPhone, putOnPhone, whoIsHere } from './phone.ts';

let server: Running;
let browser: Browser;
let walk: Walk;
let binId: string;
let personId: string;
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});
beforeEach(async () => {
  walk = await visit(browser, server.origin, { viewport: { width: 360, height: 740 } });
  await enter('volunteer');
  binId = (await (await walk.context.request.get('/api/bins')).json()).items[0].id;
  await walk.page.goto('/waiting');
  await walk.page.getByText('What this phone carries is from').waitFor();
});
afterEach(() => walk.close());

async function enter(as: 'volunteer' | 'coordinator'): Promise<void> {
  await walk.context.request.post('/api/session/demo', { data: { as }, headers: { origin: server.origin } });
  personId = await whoIsHere(walk.context);
}
const signOut = () => walk.context.request.delete('/api/session', { headers: { origin: server.origin } });
const notes = (name: string, count: number) => Array.from({ length: count }, (_, n) => `${name} ${String(n).padStart(3, '0')}`);
/** Each a minute after the one before, so that their order can be told. */
const noted = (all: readonly string[], author = personId) =>
  all.map((note, n) => {
    const happenedAt = new Date(Date.now() - (all.length - n) * 60_000).toISOString();
    return { personId: author, binId, note, happenedAt };
  });

test('B16: twenty that waited are sent within 10 s of opening, without Background Sync, in their order and once each', async () => {
  const { page, context } = walk;
  await context.addInitScript(() => {
    Reflect.deleteProperty(globalThis, 'SyncManager');
    if ('ServiceWorkerRegistration' in globalThis) Reflect.deleteProperty(ServiceWorkerRegistration.prototype, 'sync');
  });
  await context.route('**/api/entries/batch', (route) => route.abort());
  await putOnPhone(page, noted(notes('twenty', 20)));
  await page.getByText('20 notes on this phone, not sent yet.').waitFor();
  expect(await atServer(context, binId, 'twenty')).toEqual([]);
  await context.unroute('**/api/entries/batch');
  const since = Date.now();
  await page.reload();
  await expect.poll(() => onPhone(page), { timeout: 10_000 }).toEqual([]);
  expect(Date.now() - since).toBeLessThan(10_000);
  expect(await page.evaluate(() => 'SyncManager' in globalThis)).toBe(false);
  expect(await atServer(context, binId, 'twenty')).toEqual(notes('twenty', 20));
});

interface ClockNote {
  readonly id: string;
  readonly note: string | null;
  readonly clockSkewed: boolean;
  readonly happenedAt: string;
}

test('B24: what a phone noted whose clock is hours or a day off stands in its true order, with the clock told on each', async () => {
  const { context } = walk;
  const name = (n: number) => `clock ${n}`;
  for (const [n, offHours] of [26, -2, 2].entries()) {
    const phone = await context.newPage();
    await phone.clock.install({ time: Date.now() + offHours * 3_600_000 });
    await phone.goto('/waiting');
    await phone.getByText('What this phone carries is from').waitFor();
    // Each was noted ten minutes after the one before.
    const happenedAt = new Date(Date.now() + offHours * 3_600_000 - (3 - n) * 600_000).toISOString();
    await putOnPhone(phone, [{ personId, binId, note: name(n), happenedAt }]);
    await expect.poll(() => onPhone(phone), { timeout: 10_000 }).toEqual([]);
    await phone.close();
  }
  // What other tests noted stands among them.
  const all = (await (await context.request.get(`/api/bins/${binId}/entries?limit=60`)).json()).items as ClockNote[];
  const items = all.filter(({ note }) => note?.startsWith('clock '));
  expect(items.map(({ note, clockSkewed }) => [note, clockSkewed])).toEqual([2, 1, 0].map((n) => [name(n), true]));
  const sinceMinutes = items.map(({ happenedAt }) => (Date.now() - Date.parse(happenedAt)) / 60_000);
  for (const [at, minutes] of [10, 20, 30].entries()) expect(Math.abs(sinceMinutes[at]! - minutes)).toBeLessThan(1.5);
  await walk.page.goto(`/entries/${items[0]!.id}`);
  await walk.page.getByText('the phone’s clock was off').waitFor();
});

test('H1, B13: a reload between keeping and sending, and an answer that is lost, lose nothing and double nothing', async () => {
  const { page, context } = walk;
  let lost = 0;
  await context.route('**/api/entries/batch', async (route) => {
    // The server takes it; the phone never hears so.
    if (lost < 3) {
      await route.fetch();
      lost += 1;
      return route.abort();
    }
    return route.continue();
  });
  await putOnPhone(page, noted(notes('lost', 3)));
  for (let n = 0; n < 3; n += 1) {
    await page.reload();
    await expect.poll(() => lost, { timeout: 5000 }).toBeGreaterThan(n);
  }
  await page
    .getByRole('button', { name: 'Send now' })
    .click({ timeout: 5000 })
    .catch(() => undefined);
  await expect.poll(() => onPhone(page), { timeout: 15_000 }).toEqual([]);
  expect(await atServer(context, binId, 'lost')).toEqual(notes('lost', 3));
});

test('B17: a network that answers everything with its own page keeps what waits, whatever navigator.onLine says', async () => {
  const { page, context } = walk;
  let asked = 0;
  await context.route('**/api/entries/batch', (route) => {
    asked += 1;
    return route.fulfill({ status: 200, contentType: 'text/html', body: '<h1>Welcome to the guest network</h1>' });
  });
  await page.evaluate(() => Object.defineProperty(navigator, 'onLine', { get: () => false }));
  await putOnPhone(page, noted(['portal']));
  await expect.poll(() => asked).toBeGreaterThan(0);
  await page.getByText('The server does not answer. We keep trying.').waitFor();
  expect([await onPhone(page), await atServer(context, binId, 'portal')]).toEqual([['portal'], []]);
  await context.unroute('**/api/entries/batch');
  await page.getByRole('button', { name: 'Send now' }).click();
  await expect.poll(() => onPhone(page)).toEqual([]);
  expect(await atServer(context, binId, 'portal')).toEqual(['portal']);
});

describe('B14, H3: one that is refused', () => {
  test('is shown with its reason, mended on the phone and sent; the others went meanwhile', async () => {
    const { page, context } = walk;
    await putOnPhone(page, [...noted(['before']), { personId, binId, note: 'no such zone', zone: 12 }, ...noted(['after'])]);
    await page.getByRole('heading', { name: 'These need you' }).waitFor();
    await expect.poll(() => onPhone(page)).toEqual(['no such zone']);
    expect((await atServer(context, binId, 'before')).concat(await atServer(context, binId, 'after'))).toEqual(['before', 'after']);
    await page.getByText('This bin has no such zone.').waitFor();
    // From any page it is one tap away.
    await page.goto('/more');
    await page.getByRole('link', { name: 'See what waits' }).click();
    expect(await axeFaults(page)).toEqual([]);
    await page.getByRole('button', { name: 'Change it' }).click();
    await page.getByLabel('Which zone?').fill('1');
    await page.getByRole('button', { name: 'Save and send' }).click();
    await expect.poll(() => onPhone(page)).toEqual([]);
    expect(await atServer(context, binId, 'no such zone')).toEqual(['no such zone']);
  });

  test('is thrown away only when that is said twice', async () => {
    const { page, context } = walk;
    await putOnPhone(page, [{ personId, binId, note: 'away with it', zone: 12 }]);
    await page.getByRole('button', { name: 'Throw away' }).click();
    await page.getByRole('button', { name: 'Keep it' }).click();
    expect(await onPhone(page)).toEqual(['away with it']);
    await page.getByRole('button', { name: 'Throw away' }).click();
    await page.getByRole('button', { name: 'Yes, throw it away' }).click();
    await expect.poll(() => onPhone(page)).toEqual([]);
    expect(await atServer(context, binId, 'away')).toEqual([]);
  });
});

test('B15, H2, H4: what waits is never sent under another name, and goes when its author is back', async () => {
  const { page, context } = walk;
  const volunteer = personId;
  await signOut();
  await putOnPhone(page, noted(notes('sealed', 30), volunteer));
  await page.getByText('You are not signed in any more.').waitFor();
  expect((await onPhone(page)).length).toBe(30);
  await enter('coordinator');
  await page.goto('/waiting');
  await page.getByText('30 notes of others wait here.').waitFor();
  // Even a page that believes itself to be the author's is refused by the server.
  const forged = await context.request.post('/api/entries/batch', {
    headers: { origin: server.origin },
    data: {
      personId: volunteer,
      deviceAt: new Date().toISOString(),
      entries: [{ kind: 'note', body: { id: '0199f000-0000-7000-8000-000000000001' } }],
    },
  });
  expect([forged.status(), (await forged.json()).code]).toEqual([403, 'signed-in-as-another']);
  await putOnPhone(page, noted(['my own']));
  await expect.poll(() => onPhone(page)).toEqual(notes('sealed', 30));
  expect(await atServer(context, binId, 'sealed')).toEqual([]);
  await enter('volunteer');
  await page.goto('/waiting');
  await expect.poll(() => onPhone(page), { timeout: 15_000 }).toEqual([]);
  expect(await atServer(context, binId, 'sealed')).toEqual(notes('sealed', 30));
});

test('B15: signing out with notes unsent asks first; B18: after a day the page says so', async () => {
  const { page, context } = walk;
  await context.route('**/api/entries/batch', (route) => route.abort());
  const keptAt = new Date(Date.now() - 25 * 3_600_000).toISOString();
  await putOnPhone(page, [{ ...noted(['old one'])[0]!, keptAt }]);
  await page.goto('/more');
  await page.getByText('The oldest has waited for more than a day.').waitFor();
  expect(await sidewaysPx(page)).toBe(0);
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.getByText('1 note not sent yet. They stay locked on this phone').waitFor();
  await page.getByRole('button', { name: 'Stay signed in' }).click();
  await page.getByRole('button', { name: 'Sign out', exact: true }).click();
  await page.getByRole('button', { name: 'Sign out all the same' }).click();
  await page.waitForURL('**/sign-in');
  expect(await onPhone(page)).toEqual(['old one']);
  // What the phone carried for them went with them.
  await expect.poll(() => carried(page)).toBe(0);
});
