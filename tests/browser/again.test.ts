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
    const submit = page.getByRole('button', { name: button, exact: true });
    const id = () => page.locator('form', { has: submit }).locator('input[name=id]').inputValue();
    const before = await countOf(walk, list);
    for (const [nth, name] of ['First', 'Second'].entries()) {
      await page.getByLabel(label, { exact: true }).fill(name);
      const sent = await id();
      await submit.click();
      await expect.poll(() => countOf(walk, list), { message: `${address} ${name}` }).toBe(before + nth + 1);
      // The answer is on the page, and with it another id.
      await expect.poll(id, { message: `the id at ${address}` }).not.toBe(sent);
    }
  };
  await twice('/people', '/api/invites', 'Their first name and initial, if you know it', 'Make the invite');
  await twice('/links', '/api/links', 'What is it for?', 'Make a link');
  await twice('/messages/settings', '/api/calendar-links', 'Which device is it for?', 'Make an address');
  await walk.close();
});

test('without scripts: times that are refused keep their ticks, are saved for somebody else, and gaps are filled', async () => {
  const walk = await visit(browser, server.origin, { javaScriptEnabled: false, viewport: { width: 360, height: 740 } });
  await walk.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: server.origin } });
  const { page } = walk;
  const { items } = await (await walk.context.request.get('/api/people')).json();
  const helper = items.find((one: { role: string; disabled: boolean }) => one.role === 'volunteer' && !one.disabled);
  await page.goto(`/me/when?person=${helper.id}`);
  await page.getByRole('heading', { name: `When can ${helper.name} come?` }).waitFor();
  const tick = (part: string) => page.getByRole('group', { name: 'Thursday' }).getByLabel(part);
  const ticks = () => Promise.all(['Morning', 'Midday', 'Afternoon', 'Evening'].map((part) => tick(part).isChecked()));
  for (const part of ['Morning', 'Midday', 'Afternoon', 'Evening']) await tick(part).setChecked(part !== 'Evening');
  await page.getByLabel('How many shifts would you like?').selectOption('4');
  await page.getByLabel('Last day away').fill('2027-03-20');
  await page.getByRole('button', { name: 'Save' }).click();
  await page.getByText('Say the first day that you are away.').first().waitFor();
  expect(await ticks()).toEqual([true, true, true, false]);
  expect(await page.getByLabel('How many shifts would you like?').inputValue()).toBe('4');
  await page.getByLabel('Last day away').fill('');
  await page.getByRole('button', { name: 'Save' }).click();
  await page.getByText('Saved.').waitFor();
  expect(await ticks()).toEqual([true, true, true, false]);
  const said = await (await walk.context.request.get(`/api/people/${helper.id}/availability`)).json();
  expect(said.weekly.filter((one: { weekday: number }) => one.weekday === 4)).toEqual([
    { weekday: 4, from: '08:00', to: '17:00', liking: 'can' },
  ]);
  expect(said.wish.count).toBe(4);

  await page.goto('/rota');
  await page.getByRole('button', { name: 'Look for people' }).click();
  const fair = page.getByRole('heading', { name: 'How fair it is' });
  await expect
    .poll(
      async () => {
        const again = page.getByRole('link', { name: 'Look now' });
        if (await again.count()) await again.click();
        return fair.count();
      },
      { timeout: 40_000, interval: 500 },
    )
    .toBe(1);
  await page.getByRole('button', { name: 'Ask those who are ticked' }).click();
  await page.getByText('They are asked.').waitFor();
  expect(await page.getByText('asked, no answer yet').count()).toBeGreaterThan(0);
  await walk.close();
});
