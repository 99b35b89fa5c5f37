/** What would happen if: the fan follows the slider, a link holds the whole scenario, and it becomes the plan. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { uuid7 } from '../../apps/web/src/lib/shared/uuid7.ts';
import { cautionWalk } from './cautions.ts';
import { axeFaults, openBrowser, type Running, serve, sidewaysPx, tabTo, visit, type Walk } from './harness.ts';
import { targetsOf, tooSmall } from './measure.ts';

let server: Running;
let browser: Browser;
let lead: Walk;
let bin = '';
let card: { classCode: string; pictures: string[] };
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  lead = await enter({ path: '/api/session/demo', data: { as: 'coordinator' } });
  const { items } = await (await lead.context.request.get('/api/bins')).json();
  const { id, siteId } = items.find(({ zones }: { zones: number }) => zones > 1);
  bin = id;
  const made = await post('/api/classes', { siteId, name: 'Class of the long table', ageBand: '9-12' });
  const { classCode, pictures } = await post(`/api/classes/${made.id}/pupils`, { name: 'Wilf A.' });
  card = { classCode, pictures };
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

async function enter(walkOptions: { readonly scripts?: boolean; readonly path: string; readonly data: object }): Promise<Walk> {
  const walk = await visit(browser, server.origin, { javaScriptEnabled: walkOptions.scripts ?? true });
  const answer = await walk.context.request.post(walkOptions.path, { data: walkOptions.data, headers: { origin: server.origin } });
  expect(answer.ok(), walkOptions.path).toBe(true);
  return walk;
}
const post = async (path: string, data: object) => {
  const answer = await lead.context.request.post(path, { data: { id: uuid7(), ...data }, headers: { origin: server.origin } });
  expect(answer.ok(), path).toBe(true);
  return answer.json();
};
const asPupil = () => enter({ scripts: false, path: '/api/session/pupil', data: card });

const FAN = '.fan svg.broad path.line';
const told = async ({ page }: Walk) => ({
  fan: await page.locator(FAN).getAttribute('d'),
  sentence: await page.locator('.bench-top .tell').textContent(),
  table: await page.locator('.what-comes tbody').allTextContents(),
});

test('held, a slider moves the fan; the link it leaves shows anybody the same, worked out by the server', async () => {
  const { page } = lead;
  await page.goto(`/bins/${bin}/what-if?zones=1`, { waitUntil: 'load' });
  const before = await told(lead);
  await page.getByRole('slider', { name: 'Food each time' }).focus();
  let last = before.fan;
  for (let i = 0; i < 3; i++) {
    await page.keyboard.press('PageUp');
    await expect.poll(() => page.locator(FAN).getAttribute('d'), { timeout: 10_000 }).not.toBe(last);
    last = await page.locator(FAN).getAttribute('d');
  }
  await page.getByRole('checkbox', { name: 'Loosen it first' }).check();
  await page.waitForURL(/mass=[\d.]+.*loosen=on/);
  await expect.poll(() => page.locator('.bench-rest .sure').first().textContent()).toContain('32');
  await page
    .locator('.what-comes details')
    .first()
    .evaluate((details: HTMLDetailsElement) => {
      details.open = true;
    });
  const here = await told(lead);
  expect(here.fan).not.toBe(before.fan);
  const link = await page.locator('#share-link').inputValue();
  const pupil = await asPupil();
  await pupil.page.goto(link, { waitUntil: 'load' });
  expect(await told(pupil)).toEqual(here);
  await pupil.close();
  expect(lead.complaints).toEqual([]);
});

test('A14: by keys alone a slider changes what the page says, and the link that is copied opens the same again', async () => {
  const { page } = lead;
  await lead.context.grantPermissions(['clipboard-read', 'clipboard-write'], { origin: server.origin });
  const { bins } = await (await lead.context.request.get('/api/board')).json();
  const { id } = bins.find(({ band }: { band: string }) => band === 'settled');
  await page.goto(`/bins/${id}/what-if?zones=1`, { waitUntil: 'load' });
  const before = await told(lead);
  await tabTo(page, 'input[type="range"][aria-label="Food each time"]');
  for (let i = 0; i < 6; i++) await page.keyboard.press('PageUp');
  await expect.poll(async () => (await told(lead)).sentence).not.toBe(before.sentence);
  await page.waitForURL(/mass=[\d.]+/);
  await tabTo(page, '.share-line button');
  await page.keyboard.press('Enter');
  await page.getByText('Copied.').waitFor();
  const kept = await page.evaluate(() => navigator.clipboard.readText());
  const { fan, sentence } = await told(lead);
  await page.goto('/more', { waitUntil: 'load' });
  await page.goto(kept, { waitUntil: 'load' });
  const again = await told(lead);
  expect([again.fan, again.sentence]).toEqual([fan, sentence]);
});

test('without scripts it is a form that the server answers, for a pupil too', async () => {
  const pupil = await asPupil();
  await pupil.page.goto(`/bins/${bin}/what-if`, { waitUntil: 'load' });
  const before = await told(pupil);
  await pupil.page.getByRole('textbox', { name: 'Food each time' }).fill('9');
  await pupil.page.getByLabel('How often').selectOption('weekly');
  await pupil.page.getByRole('button', { name: 'Show what comes' }).click();
  await pupil.page.waitForURL(/mass=9.*again=weekly/);
  expect((await told(pupil)).fan).not.toBe(before.fan);
  expect(await pupil.page.getByRole('button', { name: 'Put it on the next shift' }).count()).toBe(0);
  await pupil.close();
});

test('a choice becomes the plan: duties of the next shift, with the amounts in its note', async () => {
  const { page } = lead;
  await page.goto(`/bins/${bin}/what-if?mass=1.5&card=0.2&loosen=on`, { waitUntil: 'load' });
  await page.getByRole('button', { name: 'Put it on the next shift' }).click();
  await page.waitForURL(/planned=/);
  const shift = await (await lead.context.request.get(`/api/shifts/${new URL(page.url()).searchParams.get('planned')}`)).json();
  const kinds = shift.duties.filter(({ binId }: { binId: string }) => binId === bin).map(({ kind }: { kind: string }) => kind);
  expect(kinds).toEqual(expect.arrayContaining(['feed', 'loosen', 'bedding']));
  expect(shift.note).toMatch(/loosen it, feed 1\.5\skg of .* and put in 0\.2\skg of torn card/);
});

test('a pupil ruins a made-up bin and rescues it; the same steps work without scripts, and the link shows the same', async () => {
  const STEPS = [
    [{ 'Feed it': '12', 'Of what': 'm' }, 'Let 7 days pass', /story=0f12m&day=7$/],
    [{ 'Take food out': '100', 'Torn card': '3' }, 'Let 14 days pass', /story=0f12m_7c3_7o100&day=21$/],
  ] as const;
  const seen: { said: string[]; link: string; lines: string[] }[] = [];
  for (const scripts of [false, true]) {
    const pupil = await enter({ scripts, path: '/api/session/pupil', data: card });
    const { page } = pupil;
    await page.goto('/what-if', { waitUntil: 'load' });
    const said = [];
    for (const [chosen, press, address] of STEPS) {
      for (const [label, value] of Object.entries(chosen)) await page.getByLabel(label, { exact: true }).selectOption(value);
      await page.getByRole('button', { name: press }).click();
      await page.waitForURL(address);
      said.push(((await page.locator('.bench-top .tell').textContent()) ?? '').trim().replace(/\s+/g, ' '));
    }
    expect(said[0]).toMatch(/^act Day 7: wet/);
    expect(said[1]).toMatch(/^settled Day 21: All is well/);
    seen.push({
      said,
      link: await page.locator('#share-link').inputValue(),
      lines: await page.locator('.made-up ol li').allTextContents(),
    });
    if (scripts) {
      // Looked back to, a day is as it was; a step is taken back as any page is.
      await page.getByRole('slider', { name: 'Look back' }).fill('7');
      await expect.poll(() => page.locator('.bench-top .tell').textContent()).toContain('Day 7');
      await page.goBack();
      await expect.poll(() => page.locator('.bench-top .tell').textContent()).toContain('Day 7');
      expect(new URL(page.url()).search).toBe('?story=0f12m&day=7');
      expect(pupil.complaints).toEqual([]);
      expect(pupil.strangers).toEqual([]);
    }
    await pupil.close();
  }
  expect(seen[1]).toEqual(seen[0]);
});

test('B2, A20: everything on the page can be pressed, fits with letters twice as large, and axe finds nothing in either light', async () => {
  const { page } = lead;
  await page.goto(`/bins/${bin}/what-if?mass=3`, { waitUntil: 'load' });
  await page.setViewportSize({ width: 360, height: 740 });
  expect(tooSmall(await targetsOf(page), 44)).toEqual([]);
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await axeFaults(page)).toEqual([]);
  }
  await page.evaluate(() => {
    document.documentElement.style.fontSize = '200%';
    for (const details of document.querySelectorAll('details')) details.open = true;
  });
  for (const width of [320, 768, 1440]) {
    await page.setViewportSize({ width, height: 800 });
    expect(await sidewaysPx(page), `at ${width}`).toBeLessThanOrEqual(0);
  }
});

cautionWalk(async () => {
  const { items } = await (await lead.context.request.get('/api/shifts')).json();
  return { bin, shift: items[0].id, request: lead.context.request };
});
