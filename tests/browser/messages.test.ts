/** Messages: read, mark as read, and a calendar address that a calendar can read. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser, type Running, serve, visit } from './harness.ts';

let server: Running;
let browser: Browser;
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

test('C18: a volunteer makes a calendar address, is told that calendars lag, and takes it back', async () => {
  const walk = await visit(browser, server.origin);
  await walk.context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: server.origin } });
  const { page } = walk;
  await page.goto('/messages/settings');
  expect(await page.getByText('can take up to 24 hours to show').count()).toBe(1);
  await page.getByLabel('Which device is it for?').fill('Kitchen tablet');
  await page.getByRole('button', { name: 'Make an address' }).click();
  const address = await page.locator('a[href*="/calendar/"]').getAttribute('href');
  expect((await walk.context.request.get(address!)).status()).toBe(200);
  await page.getByRole('button', { name: 'Make it useless: Kitchen tablet' }).click();
  await page.getByText('useless', { exact: true }).waitFor();
  expect((await walk.context.request.get(address!)).status()).toBe(404);
  await walk.close();
});

test('C6: reminders are changed in two taps, and a message is read and marked', async () => {
  const lead = await visit(browser, server.origin);
  await lead.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: server.origin } });
  const walk = await visit(browser, server.origin);
  await walk.context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: server.origin } });
  const { page } = walk;
  await page.goto('/messages/settings');
  await page.getByLabel('The day before').click();
  await page.getByRole('button', { name: 'Save' }).click();
  await page.getByText('Saved.').waitFor();
  expect(await page.getByLabel('The day before').isChecked()).toBe(false);

  const read = async (path: string) => (await walk.context.request.get(path)).json();
  const me = (await read('/api/session')).person.id as string;
  const shift = (await read('/api/shifts?open=true')).items.find(
    (one: { over: boolean; signUps: { mine: boolean }[] }) => !one.over && !one.signUps.some(({ mine }) => mine),
  );
  const id = `0192f000-0000-7000-8000-${String(Date.now()).slice(-12).padStart(12, '0')}`;
  const signUp = { data: { id, personId: me }, headers: { origin: server.origin } };
  const answer = await lead.context.request.post(`/api/shifts/${shift.id}/sign-ups`, signUp);
  expect([answer.status(), await answer.text()]).toEqual([201, expect.any(String)]);
  await page.goto('/messages');
  expect(await page.getByText(`You have a place at ${shift.siteName}`).count()).toBeGreaterThan(0);
  await page.getByRole('button', { name: 'I have read them' }).click();
  await page.getByRole('heading', { name: 'Nothing new.' }).waitFor();
  await lead.close();
  await walk.close();
});
