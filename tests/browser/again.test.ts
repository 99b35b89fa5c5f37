/** The same thing done twice from one open page is two things: no form may send the id of what it has sent before. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
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

async function enter(as: string, width: number): Promise<Walk> {
  const walk = await visit(browser, server.origin, { viewport: { width, height: 800 } });
  await walk.context.request.post('/api/session/demo', { data: { as }, headers: { origin: server.origin } });
  return walk;
}
const countOf = async (walk: Walk, path: string): Promise<number> => (await (await walk.context.request.get(path)).json()).items.length;

test('a place that was taken and given back is taken again without loading the page anew', async () => {
  const walk = await enter('volunteer', 360);
  const { page } = walk;
  await page.goto('/shifts');
  const before = await countOf(walk, '/api/shifts?mine=true');
  const shiftId = await page.locator('form[action$="?/take"] input[name=shiftId]').first().inputValue();
  // The row of the whole list, which stays on the page all the while.
  const take = page.locator(`form:has(input[value="${shiftId}"]) button`, { hasText: 'Take it' }).last();
  await take.click();
  await page.waitForURL('**/shifts?done=taken');
  expect(await countOf(walk, '/api/shifts?mine=true')).toBe(before + 1);
  const { signUps } = await (await walk.context.request.get(`/api/shifts/${shiftId}`)).json();
  const mine = signUps.find((one: { mine: boolean }) => one.mine).id;
  // Given back on another device; the page here hears of it and stays open.
  await walk.context.request.delete(`/api/shifts/${shiftId}/sign-ups/${mine}`, { headers: { origin: server.origin } });
  await take.click({ timeout: 10_000 });
  await expect.poll(() => countOf(walk, '/api/shifts?mine=true')).toBe(before + 1);
  await walk.close();
});

test('two invites, two links and two calendar addresses in a row are two of each', async () => {
  const walk = await enter('coordinator', 1280);
  const { page } = walk;
  const twice = async (address: string, list: string, label: string, button: string) => {
    await page.goto(address);
    const before = await countOf(walk, list);
    for (const [nth, name] of ['First', 'Second'].entries()) {
      await page.getByLabel(label, { exact: true }).fill(name);
      await page.getByRole('button', { name: button, exact: true }).click();
      await expect.poll(() => countOf(walk, list), { message: `${address} ${name}` }).toBe(before + nth + 1);
    }
  };
  await twice('/people', '/api/invites', 'Their first name and initial, if you know it', 'Make the invite');
  await twice('/links', '/api/links', 'What is it for?', 'Make a link');
  await twice('/messages/settings', '/api/calendar-links', 'Which device is it for?', 'Make an address');
  await walk.close();
});
