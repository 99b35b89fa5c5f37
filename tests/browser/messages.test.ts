/** Messages: read, mark as read, and a calendar address that a calendar can read. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { addDays } from '../../apps/web/src/lib/format/days.ts';
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

test('a volunteer says when they can come, and finds it said after a reload; whatever is ticked early stays', async () => {
  const walk = await visit(browser, server.origin, { viewport: { width: 360, height: 740 } });
  await walk.context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: server.origin } });
  const { page } = walk;
  await page.goto('/me/when');
  const tick = (day: string, part: string) => page.getByRole('group', { name: day }).getByLabel(part);
  await tick('Tuesday', 'Morning').setChecked(true);
  await tick('Tuesday', 'Midday').setChecked(true);
  await tick('Saturday', 'Evening').setChecked(true);
  await page.getByLabel('How many shifts would you like?').selectOption('3');
  await page.getByLabel('Last day away').fill('2027-03-20');
  await page.getByRole('button', { name: 'Save' }).click();
  await page.getByText('Say the first day that you are away.').first().waitFor();
  expect(await tick('Tuesday', 'Morning').isChecked()).toBe(true);
  await page.getByLabel('Away from').fill('2027-03-14');
  await page.getByRole('button', { name: 'Save' }).click();
  await page.getByText('Saved.').waitFor();
  await page.reload();
  const ticked = page.locator('input[name=time]:checked');
  expect(await ticked.evaluateAll((all) => all.map((one) => (one as HTMLInputElement).value))).toEqual([
    '2 08:00 12:00 can',
    '2 11:30 14:00 can',
    '6 17:00 21:00 can',
  ]);
  expect(await page.getByLabel('How many shifts would you like?').inputValue()).toBe('3');
  expect(await page.getByLabel('Sunday 14 March to Saturday 20 March').isChecked()).toBe(true);
  await walk.close();
});

test('H9: whether mail gets through, and the text for a group chat, which holds no name', async () => {
  const walk = await visit(browser, server.origin);
  await walk.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: server.origin } });
  const { page } = walk;
  await page.goto('/messages/mail');
  await page.getByRole('heading', { name: 'No mail goes out from here yet.' }).waitFor();
  await page.goto('/messages/group');
  const text = await page.getByLabel('The text').inputValue();
  const { items } = await (await walk.context.request.get('/api/people')).json();
  expect(text.length).toBeGreaterThan(40);
  expect(items.filter(({ name }: { name: string }) => text.includes(name))).toEqual([]);
  await walk.close();
});

test('people are asked in two goes from one page; a yes to what was taken back meanwhile is told so among the messages', async () => {
  const lead = await visit(browser, server.origin);
  await lead.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: server.origin } });
  const walk = await visit(browser, server.origin, { viewport: { width: 360, height: 740 } });
  await walk.context.request.post('/api/session/demo', { data: { as: 'volunteer' }, headers: { origin: server.origin } });
  // Whatever they said before, they would like to come often and at any time.
  const me = (await (await walk.context.request.get('/api/session')).json()).person.id as string;
  const any = { away: [], weekly: [], skills: [], siteIds: [], wish: { count: 3, per: 'week' }, capPerWeek: null, capPerDay: null };
  const said = await walk.context.request.put(`/api/people/${me}/availability`, { data: any, headers: { origin: server.origin } });
  expect([said.ok(), await said.text()]).toEqual([true, expect.any(String)]);
  await lead.page.goto('/rota');
  await lead.page.getByRole('button', { name: 'Look for people' }).click();
  await lead.page.getByRole('heading', { name: 'How fair it is' }).waitFor({ timeout: 40_000 });
  const run = new URL(lead.page.url()).pathname.replace('/rota/', '/api/rota/runs/');
  const counts = async () => (await (await lead.context.request.get(run)).json()).counts;
  const ticks = lead.page.locator('input[name=proposalId]');
  const ask = lead.page.getByRole('button', { name: 'Ask those who are ticked' });
  for (const tick of (await ticks.all()).slice(1)) await tick.uncheck();
  await ask.click();
  await lead.page.getByText('They are asked.').waitFor();
  expect(await counts()).toMatchObject({ invited: 1 });
  for (const tick of await ticks.all()) await tick.check();
  await ask.click();
  await ticks.first().waitFor({ state: 'detached', timeout: 10_000 });
  expect(await counts()).toMatchObject({ proposed: 0 });

  const { page } = walk;
  await page.goto('/messages');
  const [one] = (await (await walk.context.request.get('/api/invitations')).json()).items;
  const back = await lead.context.request.delete(`/api/invitations/${one.id}`, { headers: { origin: server.origin } });
  expect(back.status()).toBe(204);
  const question = page.locator('form', { has: page.locator(`input[value="${one.id}"]`) });
  await question.getByRole('button', { name: /^Yes, I come/ }).click();
  await page.getByText('You can no longer answer this.').waitFor({ timeout: 10_000 });
  await expect.poll(() => question.count()).toBe(0);
  expect(new URL(page.url()).pathname).toBe('/messages');
  await lead.close();
  await walk.close();
});

test('C7: a late cancellation shows beside the tab of whoever held the place, and its shift says whom to telephone', async () => {
  const [lead, walk] = await Promise.all([visit(browser, server.origin), visit(browser, server.origin)]);
  const enter = (who: typeof lead, as: string) =>
    who.context.request.post('/api/session/demo', { data: { as }, headers: { origin: server.origin } });
  await Promise.all([enter(lead, 'coordinator'), enter(walk, 'volunteer')]);
  const read = async (path: string) => (await walk.context.request.get(path)).json();
  const { today, person } = await read('/api/session');
  const id = (n: number) => `0192f000-0000-7000-9000-${String(Date.now() + n).slice(-12)}`;
  const siteId = (await read('/api/sites')).items[0].id;
  // Midnight to come is less than a day off, at whatever hour this runs.
  const shift = { id: id(1), siteId, title: 'Late round', localDate: addDays(today, 1), localTime: '00:00', minutes: 60, places: 2 };
  const send = async (who: typeof lead, method: string, path: string, data: object = {}) => {
    const answer = await who.context.request.fetch(path, { method, data, headers: { origin: server.origin } });
    expect([path, answer.ok()]).toEqual([path, true]);
    return answer;
  };
  const made = (await (await send(lead, 'POST', '/api/shifts', shift)).json()).items[0].id as string;
  await send(walk, 'POST', `/api/shifts/${made}/sign-ups`, { id: id(2) });
  await walk.page.goto(`/shifts/${made}`);
  const file = await walk.page.getByRole('link', { name: 'Put it in my calendar' }).getAttribute('href');
  expect(await (await walk.context.request.get(file!)).text()).toMatch(/^BEGIN:VCALENDAR/);
  const before = (await read('/api/session')).person.unreadMessages as number;
  await send(lead, 'DELETE', `/api/shifts/${made}`);

  await walk.page.goto('/messages');
  const tab = walk.page.getByRole('navigation').getByRole('link', { name: /^More/ });
  expect(((await tab.textContent()) ?? '').replace(/\s+/g, ' ').trim()).toBe(
    `More ${before + 1} new ${before === 0 ? 'message' : 'messages'}`,
  );
  await lead.page.goto(`/shifts/${made}`);
  const toCall = lead.page.locator('p:has-text("Telephone them") + ul li');
  expect(await toCall.allTextContents()).toEqual([`${person.name}: not read in the app, no mail`]);
  await walk.page.getByRole('button', { name: 'I have read them' }).click();
  await expect.poll(() => tab.textContent().then((text) => text?.trim())).toBe('More');
  await lead.page.reload();
  expect(await toCall.count()).toBe(0);
  expect(await lead.page.getByText(`${person.name}: read in the app, no mail`).count()).toBe(1);

  await lead.page.goto('/messages/settings');
  await lead.page.getByRole('link', { name: 'Mail from here' }).click();
  await lead.page.waitForURL('**/messages/mail');
  await Promise.all([lead.close(), walk.close()]);
});
