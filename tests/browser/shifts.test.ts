/** Work that gets covered: places taken, raced for, handed over; pupils and their adults; a term planned; what became of it. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeFaults, openBrowser, type Running, serve, visit, type Walk } from './harness.ts';

let server: Running;
let browser: Browser;
let coordinator: Walk;
let volunteer: Walk;

async function enter(as: string, width: number): Promise<Walk> {
  const walk = await visit(browser, server.origin, { viewport: { width, height: 740 } });
  const answer = await walk.context.request.post('/api/session/demo', { data: { as }, headers: { origin: server.origin } });
  expect(answer.status()).toBe(201);
  return walk;
}
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  [coordinator, volunteer] = await Promise.all([enter('coordinator', 1280), enter('volunteer', 360)]);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const read = async (walk: Walk, path: string) => (await walk.context.request.get(path)).json();
async function send(walk: Walk, method: string, path: string, data: unknown = {}) {
  const answer = await walk.context.request.fetch(path, { method, data: data as object, headers: { origin: server.origin } });
  expect(answer.ok(), `${method} ${path}: ${answer.ok() ? '' : await answer.text()}`).toBe(true);
  return answer.json();
}
let made = 0;
const newId = () => `0199f000-0000-7000-8000-${String(++made).padStart(12, '0')}`;

type Place = { readonly id: string; readonly title: string };
/** A shift a few days on, at a site where both may come. */
async function newShift(title: string, more: object = {}): Promise<Place> {
  const { today } = await read(coordinator, '/api/session');
  const siteId = (await read(coordinator, '/api/sites')).items.find((s: { name: string }) => /School/.test(s.name)).id;
  const at = new Date(`${today}T12:00:00Z`);
  at.setUTCDate(at.getUTCDate() + 20 + made);
  const body = {
    id: newId(),
    siteId,
    title,
    localDate: at.toISOString().slice(0, 10),
    localTime: '10:00',
    minutes: 60,
    places: 1,
    ...more,
  };
  return { id: (await send(coordinator, 'POST', '/api/shifts', body)).items[0].id, title };
}
const held = async (walk: Walk) => (await read(walk, '/api/shifts?mine=true')).items.map((s: Place) => s.id) as string[];
const takeIn = (page: Page, title: string) =>
  page
    .locator('.day', { hasText: title })
    .first()
    .getByRole('button', { name: /^Take it/ });
const clean = async (page: Page) => expect(await axeFaults(page)).toEqual([]);

test('B.2: a volunteer takes a place in at most four taps, finds it first, and gives it back in three', async () => {
  const { page } = volunteer;
  const before = (await held(volunteer)).length;
  await page.goto('/season');
  let taps = 0;
  const tap = async (name: RegExp, role: 'link' | 'button') => {
    taps++;
    await page.getByRole(role, { name }).first().click();
  };
  await tap(/^Shifts$/, 'link');
  await page.waitForURL('**/shifts');
  await tap(/^Take it:/, 'button');
  await page.locator('.saved', { hasText: 'You have the place.' }).waitFor();
  expect(taps).toBeLessThanOrEqual(4);
  expect(await held(volunteer)).toHaveLength(before + 1);
  expect(await page.locator('main h2').first().textContent()).toBe('My next shift');
  await page.goto('/season');
  taps = 0;
  await tap(/^Shifts$/, 'link');
  await page.waitForURL('**/shifts');
  await tap(/^Give it back/, 'button');
  await page.locator('.saved').first().waitFor();
  expect(taps).toBeLessThanOrEqual(3);
  expect(await held(volunteer)).toHaveLength(before);
});

test('B.2 by keyboard alone a place is taken and given back', async () => {
  const shift = await newShift('Keys only');
  const { page } = volunteer;
  const press = async (name: RegExp) => {
    for (let tab = 0; tab < 400; tab++) {
      await page.keyboard.press('Tab');
      const at = await page.evaluate(() =>
        `${document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent}`.trim(),
      );
      if (name.test(at)) return page.keyboard.press('Enter');
    }
    throw new Error(`Cannot reach ${name} by Tab`);
  };
  await page.goto(`/shifts/${shift.id}`);
  await press(/^Take it/);
  await page.waitForURL('**/shifts?done=taken');
  expect(await held(volunteer)).toContain(shift.id);
  await page.goto(`/shifts/${shift.id}`);
  await press(/^Give it back/);
  await page.waitForURL('**/shifts?done=given');
  expect(await held(volunteer)).not.toContain(shift.id);
});

test('C1 C2 two browsers race for the last place: one has it, the other sees the nearest free ones and may wait', async () => {
  const { id, title } = await newShift('Last place');
  const both = [coordinator, volunteer];
  await Promise.all(both.map(({ page }) => page.goto('/shifts')));
  await Promise.all(both.map(({ page }) => takeIn(page, title).click()));
  await Promise.all(both.map(({ page }) => page.locator('.saved, .faults').first().waitFor()));
  const won = await Promise.all(both.map(({ page }) => page.locator('.saved', { hasText: 'You have the place.' }).count()));
  expect(won.reduce((a, b) => a + b)).toBe(1);
  const loser = both[won.indexOf(0)]!;
  expect(await loser.page.locator('.faults').textContent()).toContain('This shift is full now.');
  expect(await loser.page.locator('.nearest .day').count()).toBe(3);
  expect((await read(coordinator, `/api/shifts/${id}`)).taken).toBe(1);
  await clean(loser.page);
  await loser.page
    .locator('.day', { hasText: title })
    .first()
    .getByRole('button', { name: /^Wait for a place/ })
    .click();
  await loser.page.locator('.saved', { hasText: 'waiting list' }).waitFor();
});

test('C5 a place is offered, stays with who offers it, and is taken over', async () => {
  const { id } = await newShift('Handed over');
  await send(volunteer, 'POST', `/api/shifts/${id}/sign-ups`, { id: newId() });
  const { page } = volunteer;
  await page.goto(`/shifts/${id}`);
  await page.getByText('Can you not come?').click();
  await page.getByRole('button', { name: 'Offer my place' }).click();
  await page.locator('.saved', { hasText: 'on offer' }).waitFor();
  expect(await held(volunteer)).toContain(id);
  await coordinator.page.goto(`/shifts/${id}`);
  await clean(coordinator.page);
  await coordinator.page.getByRole('button', { name: /^Take it over/ }).click();
  await coordinator.page.locator('.saved', { hasText: 'changed hands' }).waitFor();
  expect(await held(volunteer)).not.toContain(id);
  expect(await held(coordinator)).toContain(id);
});

test('C19 C20 pupils signed up by a group; when an adult drops out every page says so, and nobody is checked in', async () => {
  const shifts = (await read(coordinator, '/api/shifts')).items;
  const club = shifts.find(
    (s: { over: boolean; adults: { state: string }; signUps: { personId: string }[] }) => !s.over && s.adults.state === 'confirmed',
  );
  expect(club).toBeDefined();
  await send(coordinator, 'DELETE', `/api/shifts/${club.id}/sign-ups/${club.signUps[0].id}`);
  const says = /Needs an adult\./;
  for (const walk of [coordinator, volunteer])
    for (const path of ['/shifts', `/shifts/${club.id}`]) {
      await walk.page.goto(path);
      const places = walk.page.locator('.needs-adult');
      await places.first().waitFor();
      expect(await places.first().textContent()).toMatch(says);
    }
  await coordinator.page.getByRole('button', { name: /^They are here/ }).click();
  await coordinator.page.locator('.faults').waitFor();
  expect(await coordinator.page.locator('.faults').textContent()).toContain('Pupils can only come when enough adults do.');
  expect((await read(coordinator, `/api/shifts/${club.id}`)).groups[0].checkedInAt).toBeNull();
  await clean(coordinator.page);
});

test('C19 a site lead signs a group up on the page of the shift', async () => {
  const { id } = await newShift('Class visit', { pupilPlaces: 10 });
  const { page } = coordinator;
  await page.goto(`/shifts/${id}`);
  await page.locator('#pupils').fill('5');
  await page.getByRole('button', { name: 'Sign them up' }).click();
  await page.locator('.saved', { hasText: 'signed up' }).waitFor();
  const shift = await read(coordinator, `/api/shifts/${id}`);
  expect([shift.groups[0].pupils, shift.adults.state]).toEqual([5, 'needs-adult']);
});

test('C9 twelve weeks of three shifts a week in at most fifteen taps', async () => {
  const { page } = coordinator;
  const { today } = await read(coordinator, '/api/session');
  const to = new Date(`${today}T12:00:00Z`);
  to.setUTCDate(to.getUTCDate() + 120);
  const count = async () =>
    (await read(coordinator, `/api/shifts?from=${today}&to=${to.toISOString().slice(0, 10)}`)).items.length as number;
  const before = await count();
  await page.goto('/shifts');
  const taps = ['Plan a term', 'Tuesday', 'Thursday', 'Saturday'];
  await page.getByRole('link', { name: taps[0]! }).click();
  await page.waitForURL('**/shifts/weekly');
  // A site without school holidays.
  await page.getByRole('link', { name: /Marlpit/ }).click();
  await page.waitForURL('**/shifts/weekly?site=*');
  for (const day of taps.slice(1)) await page.getByRole('checkbox', { name: day, exact: true }).check();
  await page.getByRole('button', { name: 'Make the shifts' }).click();
  await page.locator('.saved', { hasText: 'The shifts are made.' }).waitFor();
  expect(await count()).toBe(before + 36);
  expect(taps.length + 2).toBeLessThanOrEqual(15);
});

test('what falls due is made into a shift that covers it', async () => {
  const { page } = coordinator;
  await page.goto('/shifts/proposals');
  const site = await page.locator('input[name="siteId"]').first().inputValue();
  const proposals = async () =>
    (await read(coordinator, `/api/shift-proposals?siteId=${site}`)) as {
      items: { key: string; standingId: string | null }[];
      dropped: unknown[];
    };
  const before = await proposals();
  expect(before.items.length).toBeGreaterThan(0);
  await clean(page);
  await page.locator('input[name="take"]').first().check();
  await page.getByRole('button', { name: 'Make the ticked shifts' }).click();
  await page.locator('.saved', { hasText: 'The shifts are made.' }).waitFor();
  const after = await proposals();
  expect(after.items.some(({ key }) => key === before.items[0]!.key)).toBe(false);
});

test('what became of a shift is said duty by duty, with minutes; what was missed stands on its card', async () => {
  const { today } = await read(coordinator, '/api/session');
  const from = new Date(`${today}T12:00:00Z`);
  from.setUTCDate(from.getUTCDate() - 20);
  const shifts = (await read(coordinator, `/api/shifts?from=${from.toISOString().slice(0, 10)}&to=${today}`)).items;
  const past = shifts
    .filter(
      (s: { over: boolean; cancelled: boolean; duties: unknown[]; signUps: unknown[] }) =>
        s.over && !s.cancelled && s.duties.length > 0 && s.signUps.length > 0,
    )
    .at(-1);
  const { page } = coordinator;
  await page.goto(`/shifts/${past.id}`);
  await page.locator('#results label', { hasText: 'not done' }).first().click();
  await page.locator('#results label', { hasText: 'yes' }).first().click();
  await page.locator(`#minutes-${past.signUps[0].id}`).fill('an hour');
  await page.getByRole('button', { name: 'Save what became of it' }).click();
  await page.locator('.faults').waitFor();
  await page.locator(`#minutes-${past.signUps[0].id}`).fill('35');
  await page.getByRole('button', { name: 'Save what became of it' }).click();
  await page.locator('.saved', { hasText: 'Saved.' }).waitFor();
  const card = await read(coordinator, `/api/shifts/${past.id}/card`);
  expect(card.bins.flatMap((b: { duties: { result: string }[] }) => b.duties.map((d) => d.result))).toContain('missed');
  expect(card.shift.signUps.find((s: { id: string }) => s.id === past.signUps[0].id)).toMatchObject({ attended: true, minutes: 35 });
});

test('C4 a term with a draw: wishes are numbered, kept, and told back', async () => {
  const { page } = coordinator;
  await page.goto('/shifts/terms');
  await page.locator('label', { hasText: 'by wishes and a draw' }).click();
  await page.getByRole('button', { name: 'Add it' }).click();
  await page.locator('.saved', { hasText: 'The term is added.' }).waitFor();
  await clean(page);
  await volunteer.page.goto('/shifts/terms');
  await volunteer.page
    .getByRole('link', { name: /^My wishes/ })
    .first()
    .click();
  await volunteer.page.waitForURL('**/shifts/terms/*');
  const ranks = volunteer.page.getByLabel(/^Wish number for/);
  await ranks.nth(0).fill('2');
  await ranks.nth(1).fill('1');
  await clean(volunteer.page);
  await volunteer.page.getByRole('button', { name: 'Keep my wishes' }).click();
  await volunteer.page.locator('.saved', { hasText: 'Your wishes are kept.' }).waitFor();
  const [term] = (await read(volunteer, '/api/sign-up-seasons')).items;
  expect(term.myWishes.shiftIds).toHaveLength(2);
  expect(coordinator.complaints.concat(volunteer.complaints).filter((line) => !/status of (4\d\d|503)/.test(line))).toEqual([]);
});

test('the gaps are filled: people are proposed with why, asked, one says yes, and the page of the search shows it', async () => {
  const { page } = coordinator;
  await page.goto('/rota');
  await page.getByRole('button', { name: 'Look for people' }).click();
  await page.getByRole('heading', { name: 'How fair it is' }).waitFor({ timeout: 40_000 });
  const run = new URL(page.url()).pathname;
  expect(await page.locator('main').textContent()).toMatch(/\d+ others? could too; holds \d+, then \d+, wishes \d+/);
  const before = (await held(volunteer)).length;
  await page.getByRole('button', { name: 'Ask those who are ticked' }).click();
  await page.getByText('They are asked.').waitFor();
  expect(await axeFaults(page)).toEqual([]);

  const { page: phone } = volunteer;
  await phone.goto('/shifts');
  await phone.getByRole('heading', { name: 'You are asked to come' }).waitFor();
  expect(await axeFaults(phone)).toEqual([]);
  const asked = await phone.getByRole('button', { name: /^Yes, I come/ }).count();
  expect(asked).toBeGreaterThan(0);
  await phone
    .getByRole('button', { name: /^Yes, I come/ })
    .first()
    .click();
  await phone.getByText('You have the place.').waitFor();
  expect((await held(volunteer)).length).toBe(before + 1);
  expect(await phone.getByRole('button', { name: /^Yes, I come/ }).count()).toBe(asked - 1);
  await page.goto(run);
  expect(await page.getByText('said yes').count()).toBe(1);
});
