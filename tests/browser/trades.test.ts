/** Places swapped by keyboard, proposals moved and merged, a draw pressed, and what is refused told where it was asked. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser, type Running, serve, visit, type Walk } from './harness.ts';

let server: Running;
let browser: Browser;
let coordinator: Walk;
let volunteer: Walk;
let today: string;
let siteId: string;

async function enter(as: string, width: number, javaScriptEnabled = true): Promise<Walk> {
  const walk = await visit(browser, server.origin, { viewport: { width, height: 740 }, javaScriptEnabled });
  const answer = await walk.context.request.post('/api/session/demo', { data: { as }, headers: { origin: server.origin } });
  expect(answer.status()).toBe(201);
  return walk;
}
const read = async (walk: Walk, path: string) => (await walk.context.request.get(path)).json();
async function send(walk: Walk, method: string, path: string, data: object = {}) {
  const answer = await walk.context.request.fetch(path, { method, data, headers: { origin: server.origin } });
  expect(answer.ok(), `${method} ${path}: ${answer.ok() ? '' : await answer.text()}`).toBe(true);
  return answer.json();
}
let made = 0;
const newId = () => `0199f000-0000-7000-8001-${String(++made).padStart(12, '0')}`;
const dayAfter = (days: number): string => {
  const at = new Date(`${today}T12:00:00Z`);
  at.setUTCDate(at.getUTCDate() + days);
  return at.toISOString().slice(0, 10);
};
async function newShift(title: string, localDate: string, holder: Walk | null): Promise<string> {
  const body = { id: newId(), siteId, title, localDate, localTime: '05:30', minutes: 60, places: 1 };
  const { id } = (await send(coordinator, 'POST', '/api/shifts', body)).items[0];
  if (holder) await send(holder, 'POST', `/api/shifts/${id}/sign-ups`, { id: newId() });
  return id;
}
const held = async (walk: Walk) => (await read(walk, '/api/shifts?mine=true')).items.map(({ id }: { id: string }) => id) as string[];

beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  [coordinator, volunteer] = await Promise.all([enter('coordinator', 1280), enter('volunteer', 360)]);
  today = (await read(coordinator, '/api/session')).today;
  siteId = (await read(coordinator, '/api/sites')).items.find(({ name }: { name: string }) => /School/.test(name)).id;
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

/** By Tab to what is called so, then a key. */
async function press(page: Page, name: RegExp, key: 'Enter' | 'Space'): Promise<void> {
  for (let tab = 0; tab < 400; tab++) {
    await page.keyboard.press('Tab');
    const at = await page.evaluate(() => {
      const here = document.activeElement as HTMLInputElement | null;
      return `${here?.getAttribute('aria-label') ?? here?.labels?.[0]?.textContent ?? here?.textContent}`.trim();
    });
    if (name.test(at)) return page.keyboard.press(key);
  }
  throw new Error(`Cannot reach ${name} by Tab`);
}

test('C5, C10: a place is offered for one in return and swapped, by keyboard alone', async () => {
  const [given, wanted] = [await newShift('Given', dayAfter(2), volunteer), await newShift('Wanted', dayAfter(1), coordinator)];
  const { page } = volunteer;
  await page.goto(`/shifts/${given}`);
  await press(page, /^Can you not come/, 'Enter');
  const tick = page.locator(`input[name="inReturn"][value="${wanted}"]`);
  const label = ((await tick.evaluate((box: HTMLInputElement) => box.labels?.[0]?.textContent)) ?? '').trim();
  await press(page, new RegExp(`^${label.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}$`), 'Space');
  expect(await tick.isChecked()).toBe(true);
  await press(page, /^Offer my place$/, 'Enter');
  await page.locator('.saved', { hasText: 'on offer' }).waitFor();
  expect(await held(volunteer)).toContain(given);

  await coordinator.page.goto(`/shifts/${given}`);
  await press(coordinator.page, /^Swap: /, 'Enter');
  await coordinator.page.locator('.saved', { hasText: 'changed hands' }).waitFor();
  expect(await held(coordinator)).toContain(given);
  const mine = await held(volunteer);
  expect([mine.includes(given), mine.includes(wanted)]).toEqual([false, true]);
});

interface Proposal {
  readonly key: string;
  readonly standingId: string | null;
  readonly localDate: string;
  readonly minutes: number;
  readonly duties: readonly { readonly binId: string; readonly kind: string }[];
}
/** Two proposals of one site that never feed and harvest one bin, so that both may be on one day. */
async function twoProposals(): Promise<{ site: string; one: Proposal; other: Proposal }> {
  for (const { id } of (await read(coordinator, '/api/sites')).items as { id: string }[]) {
    const items = ((await read(coordinator, `/api/shift-proposals?siteId=${id}`)).items as Proposal[]).filter((p) => p.standingId === null);
    const clash = (a: Proposal, b: Proposal) =>
      a.duties.some(({ binId, kind }) => b.duties.some((duty) => duty.binId === binId && [kind, 'feed', 'harvest'].includes(duty.kind)));
    const pairs = items.flatMap((one) => items.filter((other) => other !== one && !clash(one, other)).map((other) => ({ one, other })));
    if (pairs[0]) return { site: id, ...pairs[0] };
  }
  throw new Error('The demonstration proposes too few shifts');
}

test('C9: a proposal is moved and another put together with it', async () => {
  const { site, one, other } = await twoProposals();
  const { page } = coordinator;
  await page.goto(`/shifts/proposals?site=${site}`);
  const row = ({ key }: Proposal) => page.locator('.proposals > li', { has: page.locator(`input[name="take"][value="${key}"]`) });
  for (const proposal of [one, other]) {
    await row(proposal).locator('input[name="take"]').check();
    await row(proposal).locator('summary').click();
  }
  await page.locator(`[id="title-${one.key}"]`).fill('Moved and merged');
  await page.locator(`[id="date-${one.key}"]`).fill(other.localDate);
  await page.locator(`[id="start-${one.key}"]`).fill('08:15');
  await page.locator(`[id="merge-${other.key}"]`).selectOption(one.key);
  await page.getByRole('button', { name: 'Make the ticked shifts' }).click();
  await page.locator('.saved', { hasText: 'The shifts are made.' }).waitFor();
  const { items } = await read(coordinator, `/api/shifts?from=${other.localDate}&to=${other.localDate}`);
  const shift = items.find(({ title }: { title: string }) => title === 'Moved and merged');
  expect([shift?.localTime, shift?.minutes]).toEqual(['08:15', one.minutes + other.minutes]);
  const names = (duties: Proposal['duties']) => duties.map(({ binId, kind }) => `${binId} ${kind}`).sort();
  expect(names(shift.duties)).toEqual(names([...one.duties, ...other.duties]));
  expect(items.filter(({ title }: { title: string }) => title === 'Moved and merged')).toHaveLength(1);
});

test('C4: a draw is pressed, and everybody sees its places and its seed', async () => {
  const shiftId = await newShift('Drawn', dayAfter(40), null);
  const term = { id: newId(), siteId, name: 'Frost term', from: dayAfter(40), to: dayAfter(41), way: 'draw', cap: 2 };
  await send(coordinator, 'POST', '/api/sign-up-seasons', { ...term, opensAt: `${dayAfter(1)}T12:00:00Z` });
  await send(volunteer, 'PUT', `/api/sign-up-seasons/${term.id}/wishes`, { most: 1, shiftIds: [shiftId] });
  await send(coordinator, 'PATCH', `/api/sign-up-seasons/${term.id}`, { opensAt: `${dayAfter(-1)}T12:00:00Z` });
  const { page } = coordinator;
  await page.goto('/shifts/terms');
  await page.getByRole('button', { name: /Frost term/ }).click();
  await page.locator('.saved').waitFor();
  const { draw } = (await read(coordinator, '/api/sign-up-seasons')).items.find(({ id }: { id: string }) => id === term.id);
  expect(draw).toMatchObject({ places: 1, same: true });
  for (const walk of [coordinator, volunteer]) {
    await walk.page.goto('/shifts/terms');
    const row = walk.page.locator('.offers > li', { hasText: 'Frost term' });
    expect(await row.textContent()).toContain(draw.seed);
    expect(await row.getByRole('button').count()).toBe(0);
  }
  expect(await held(volunteer)).toContain(shiftId);
});

test.each([
  ['with scripts', true],
  ['without scripts', false],
])('a place that can no longer be given back says why, %s', async (_name, scripts) => {
  const shiftId = await newShift('Moved away', dayAfter(5), volunteer);
  const walk = await enter('volunteer', 360, scripts);
  await walk.page.goto(`/shifts/${shiftId}`);
  const give = walk.page.getByRole('button', { name: 'Give it back' });
  // It is there once the scripts have taken the page over; a press before that would be one without scripts.
  // While the page is open, a coordinator says that it was last week.
  await send(coordinator, 'PATCH', `/api/shifts/${shiftId}`, { localDate: dayAfter(-7) });
  await give.click();
  await walk.page.locator('.faults', { hasText: 'This shift is over.' }).waitFor();
  // With scripts the page stays and is read anew; without, the list of shifts says it.
  if (scripts) await expect.poll(() => give.count()).toBe(0);
  expect(new URL(walk.page.url()).pathname).toBe(scripts ? `/shifts/${shiftId}` : '/shifts');
  expect((await read(coordinator, `/api/shifts/${shiftId}`)).taken).toBe(1);
  await walk.close();
});

test('how much a weekday is liked is said once for all its times', async () => {
  const { page } = volunteer;
  const { id } = (await read(volunteer, '/api/session')).person;
  await page.goto('/me/when');
  await page.getByRole('group', { name: 'Sunday' }).getByLabel('Morning').check();
  await page.getByLabel('How much you like Sunday').selectOption({ label: 'only if needed' });
  await page.getByRole('button', { name: 'Save' }).click();
  await page.getByText('Saved.').waitFor();
  const { weekly } = await read(volunteer, `/api/people/${id}/availability`);
  const sunday = weekly.filter(({ weekday }: { weekday: number }) => weekday === 7);
  expect(sunday.map(({ from, liking }: { from: string; liking: string }) => [from, liking])).toContainEqual(['08:00', 'if-needed']);
  expect(await page.getByLabel('How much you like Sunday').inputValue()).toBe('if-needed');
  expect(coordinator.complaints.concat(volunteer.complaints).filter((line) => !/status of (4\d\d|503)/.test(line))).toEqual([]);
});
