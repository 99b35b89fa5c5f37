/** Photos of people, as a coordinator and a volunteer see them: agreed to, shown, withdrawn, gone. */
import type { Browser } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeFaults, openBrowser, type Running, serve, sidewaysPx, visit, type Walk } from './harness.ts';

let server: Running;
let browser: Browser;
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

async function come(as: string): Promise<Walk> {
  const walk = await visit(browser, server.origin, { viewport: { width: 768, height: 1024 } });
  await walk.context.request.post('/api/session/demo', { data: { as }, headers: { origin: server.origin } });
  return walk;
}

test('C25: a volunteer agrees, a coordinator adds a photo of them, and withdrawing takes it away from both', async () => {
  const [volunteer, coordinator] = await Promise.all([come('volunteer'), come('coordinator')]);
  const { person } = await (await volunteer.context.request.get('/api/session')).json();
  await volunteer.page.goto('/me#photos');
  await volunteer.page.getByRole('button', { name: 'I agree to be shown to members' }).click();
  await volunteer.page.getByText('You agreed on').waitFor();

  const { page } = coordinator;
  await page.goto('/consents');
  await page.getByRole('button', { name: 'Show photos of people' }).click();
  await page.getByRole('heading', { name: 'Photos of people are shown' }).waitFor();
  const buffer = await sharp({ create: { width: 900, height: 600, channels: 3, background: '#8a6f4d' } })
    .jpeg()
    .toBuffer();
  await page.getByLabel('Photo', { exact: true }).setInputFiles({ name: 'two.jpg', mimeType: 'image/jpeg', buffer });
  await page.getByLabel('What it shows, for who cannot see it').fill('Turning the first bin');
  await page.getByRole('checkbox', { name: person.name }).check();
  await page.getByRole('button', { name: 'Add the photo' }).click();
  const picture = page.getByRole('img', { name: 'Turning the first bin' });
  await picture.waitFor();
  expect([await axeFaults(page), await sidewaysPx(page)]).toEqual([[], 0]);
  const address = await picture.getAttribute('src');
  const seen = async () => Promise.all([volunteer, coordinator].map(async ({ context }) => (await context.request.get(address!)).status()));
  expect(await seen()).toEqual([200, 200]);

  await volunteer.page.getByRole('button', { name: 'Do not show me to members any more' }).click();
  await volunteer.page.getByText('Withdrawn. The photos are hidden already.').waitFor();
  expect([await seen(), await axeFaults(volunteer.page)]).toEqual([[404, 404], []]);
  await page.reload();
  await page.getByText('Hidden from everybody, you too').waitFor();
  expect([await picture.count(), coordinator.strangers, volunteer.complaints]).toEqual([0, [], []]);
});
