/** What changes in one browser shows in another that nobody touches. */
import type { Browser } from 'playwright-core';
import { Temporal } from 'temporal-polyfill';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { uuid7 } from '../../apps/web/src/lib/shared/uuid7.ts';
import { openBrowser, type Running, serve, visit, type Walk } from './harness.ts';

let server: Running;
let browser: Browser;
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

async function enter(as: 'coordinator' | 'volunteer'): Promise<Walk> {
  const walk = await visit(browser, server.origin);
  await send(walk, 'post', '/api/session/demo', { as });
  return walk;
}

async function send(walk: Walk, method: 'post' | 'delete', path: string, data?: object) {
  const answer = await walk.context.request[method](path, { data, headers: { origin: server.origin } });
  expect(answer.ok(), `${method} ${path}: ${answer.status()}`).toBe(true);
  return answer;
}

/** Opens a page, waits until it listens, and marks the document: a reload would lose the mark. */
async function watch(walk: Walk, path: string): Promise<void> {
  const listening = walk.page.waitForResponse((response) => response.url().includes('/api/events') && response.ok());
  await walk.page.goto(path);
  await listening;
  await walk.page.evaluate(() => document.documentElement.setAttribute('data-untouched', 'yes'));
}
const untouched = (walk: Walk) => walk.page.evaluate(() => document.documentElement.getAttribute('data-untouched'));

async function makeShift(coordinator: Walk, title: string): Promise<string> {
  const { today } = await (await coordinator.context.request.get('/api/session')).json();
  const [site] = (await (await coordinator.context.request.get('/api/sites')).json()).items;
  const localDate = Temporal.PlainDate.from(today).add({ days: 10 }).toString();
  const id = uuid7();
  const shift = { id, siteId: site.id, title, localDate, localTime: '10:00', minutes: 60, places: 1 };
  await send(coordinator, 'post', '/api/shifts', shift);
  return id;
}

test('a feeding logged in one browser changes the tile on a board open in another', async () => {
  const [coordinator, volunteer] = [await enter('coordinator'), await enter('volunteer')];
  const { bins } = await (await coordinator.context.request.get('/api/board')).json();
  const bin = bins.find((one: { band: string }) => one.band === 'settled');
  await watch(coordinator, '/');
  const tile = coordinator.page.locator(`.tile:has(a[href="/bins/${bin.id}"])`).first();
  expect(await tile.getAttribute('class')).toContain('is-settled');
  const { page } = volunteer;
  await page.goto(`/bins/${bin.id}/log`);
  await page.getByRole('radio', { name: /By weight/ }).check();
  await page.locator('#weight').fill('45');
  await page.getByRole('radio', { name: /^1/ }).first().check();
  await page.locator('input[name="food"]').first().check();
  await page.getByRole('button', { name: /^Save/ }).click();
  const sure = page.getByRole('button', { name: /^Yes/ });
  await Promise.race([sure.waitFor(), page.locator('.after-save[data-at="server"]').waitFor()]);
  if (await sure.isVisible()) await sure.click();
  await page.locator('.after-save[data-at="server"]').waitFor();
  await expect.poll(() => tile.getAttribute('class'), { timeout: 10_000 }).toMatch(/is-(act|watch)/);
  expect(await untouched(coordinator)).toBe('yes');
  expect([...coordinator.complaints, ...volunteer.complaints]).toEqual([]);
  await coordinator.close();
  await volunteer.close();
});

test('whoever waits sees the place offered as soon as it is given back, and takes it', async () => {
  const [coordinator, volunteer] = [await enter('coordinator'), await enter('volunteer')];
  const title = 'Waited for';
  const shiftId = await makeShift(coordinator, title);
  const signUpId = uuid7();
  await send(coordinator, 'post', `/api/shifts/${shiftId}/sign-ups`, { id: signUpId });
  await send(volunteer, 'post', `/api/shifts/${shiftId}/waiting`, { id: uuid7() });
  await watch(volunteer, '/shifts');
  const offer = volunteer.page.locator(`li.open:has(input[value="${shiftId}"])`, { hasText: 'A place is kept for you until' });
  expect(await offer.count()).toBe(0);
  await send(coordinator, 'delete', `/api/shifts/${shiftId}/sign-ups/${signUpId}`);
  await offer.first().waitFor({ timeout: 10_000 });
  expect(await untouched(volunteer)).toBe('yes');
  await offer
    .first()
    .getByRole('button', { name: /^Take it/ })
    .click();
  await expect
    .poll(async () => {
      const shift = await (await volunteer.context.request.get(`/api/shifts/${shiftId}`)).json();
      return shift.signUps.map((one: { mine: boolean }) => one.mine);
    })
    .toEqual([true]);
  expect(volunteer.complaints).toEqual([]);
  await coordinator.close();
  await volunteer.close();
});
