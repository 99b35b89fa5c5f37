/** From an empty machine to a running garden, then backup, wipe and restore: all of it still there. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { bytesOf, hotp } from '../../apps/api/src/services/totp.ts';
import { openBrowser, type Running, serve, visit, type Walk } from './harness.ts';

const cli = fileURLToPath(new URL('../../apps/api/build/cli.mjs', import.meta.url));
const PASSWORD = 'a long shed door key';
const EMAIL = 'wren@example.org';
const TOTP_STEP_MS = 30_000;

let browser: Browser;
let server: Running;
let dataDir: string;
let backupsAside: string;
const walks: Walk[] = [];
const device = async (phone = false) => {
  const walk = await visit(browser, server.origin, phone ? { viewport: { width: 360, height: 640 } } : {});
  walks.push(walk);
  return walk;
};

beforeAll(async () => {
  dataDir = mkdtempSync(join(tmpdir(), 'middenry-garden-'));
  backupsAside = mkdtempSync(join(tmpdir(), 'middenry-aside-'));
  browser = await openBrowser();
  server = await serve({ dataDir, flags: ['--own'], keepData: true });
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
  for (const dir of [dataDir, backupsAside]) rmSync(dir, { recursive: true, force: true });
});

async function read(walk: Walk, path: string) {
  const answer = await walk.context.request.get(path);
  expect(answer.status(), path).toBe(200);
  return answer.json();
}

/** Of the ten codes for the day when the phone is lost, the one that comes next. */
let recoveryCodes: string[] = [];

async function signIn(walk: Walk): Promise<void> {
  const { page } = walk;
  const enter = async () => {
    await page.locator('#password').fill(PASSWORD);
    await page.locator('form[action="?/password"] button[type="submit"]').click();
  };
  await page.goto('/sign-in');
  await page.locator('#email').fill(EMAIL);
  await enter();
  await page.locator('#code').fill(recoveryCodes.shift()!);
  await enter();
  await page.waitForURL(`${server.origin}/`);
}

let coordinator: Walk;
let volunteer: Walk;

test('G11: a file that is no export is refused in words, and the programme can still be begun', async () => {
  const code = /\b([A-Z0-9]{4}-[A-Z0-9]{4})\b/.exec(server.printed())?.[1];
  coordinator = await device();
  const { page } = coordinator;
  await page.goto('/setup');
  await page.locator('a[href="/setup/export"]').click();
  // Both pages ask for the code.
  await page.waitForURL('**/setup/export');
  await page.locator('#code').fill(code!);
  await page.locator('#file').setInputFiles({ name: 'letter.zip', mimeType: 'application/zip', buffer: Buffer.from('a letter') });
  await page.getByRole('button', { name: 'Send it and look' }).click();
  await page.getByText('as a zip').waitFor();
  expect(await read(coordinator, '/api/setup')).toEqual({ open: true });
});

test('the printed code begins a programme with a site and two bins, and then is dead', async () => {
  const code = /\b([A-Z0-9]{4}-[A-Z0-9]{4})\b/.exec(server.printed())?.[1];
  expect(code).toBeDefined();
  const { page } = coordinator;
  await page.goto('/setup');
  await page.locator('#code').fill(code!);
  await page.locator('#name').fill('Wren Tolliver');
  await page.locator('#email').fill(EMAIL);
  await page.locator('#password').fill(PASSWORD);
  await page.locator('#programmeName').fill('Lantern Yard');
  await page.locator('#siteName').fill('Lantern Yard');
  await page.locator('#kind-tote').fill('2');
  await page.getByRole('button', { name: 'Begin' }).click();
  await page.waitForURL((url) => url.pathname === '/second-step');
  expect(await read(coordinator, '/api/setup')).toEqual({ open: false });
  expect((await read(coordinator, '/api/session')).programme.isDemo).toBe(false);
});

test('E3: its coordinator comes no further without a second step, and keeps ten codes', async () => {
  const { page } = coordinator;
  await page.goto('/people');
  expect(new URL(page.url()).pathname).toBe('/second-step');
  await page.getByRole('button', { name: 'Set up an authenticator' }).click();
  const secret = (await page.locator('.stack .long-text').textContent())!.trim();
  await page.locator('#code').fill('000000');
  await page.getByRole('button', { name: 'Turn it on' }).click();
  await page.getByText('That code is not right').first().waitFor();
  await page.locator('#code').fill(hotp(bytesOf(secret), Math.floor(Date.now() / TOTP_STEP_MS)));
  await page.getByRole('button', { name: 'Turn it on' }).click();
  await page.locator('.digits-list').waitFor();
  recoveryCodes = await page.locator('.digits-list li').allTextContents();
  expect(recoveryCodes).toHaveLength(10);
  await page.getByRole('link', { name: /go on/ }).click();
  await page.waitForURL((url) => url.pathname === '/people');
  expect((await read(coordinator, '/api/bins')).items).toHaveLength(2);
});

test('an invite is not used up by looking at it, and is taken with one press on a second device', async () => {
  const { page } = coordinator;
  await page.goto('/people');
  await page.locator('#name').fill('Bramley F.');
  await page.getByRole('button', { name: 'Make the invite' }).click();
  const link = await page.locator('.long-text a').getAttribute('href');
  volunteer = await device(true);
  for (let look = 0; look < 5; look++) {
    expect((await volunteer.context.request.get(link!)).status()).toBe(200);
    expect((await volunteer.context.request.head(link!)).status()).toBeLessThan(500);
  }
  await volunteer.page.goto(link!);
  await volunteer.page.getByRole('button', { name: 'Come in' }).waitFor();
  const name = volunteer.page.locator('#name');
  if ((await name.count()) > 0) await name.fill('Bramley F.');
  await volunteer.page.getByRole('button', { name: 'Come in' }).click();
  await volunteer.page.waitForURL((url) => !url.pathname.startsWith('/join'));
  expect((await read(volunteer, '/api/session')).person.role).toBe('volunteer');
  const third = await device();
  await third.page.goto(link!);
  await third.page.getByRole('heading', { name: 'This invite cannot be used any more.' }).waitFor();
  expect(await third.page.getByRole('button', { name: 'Come in' }).count()).toBe(0);
});

test('the coordinator makes a shift, and the volunteer takes a place', async () => {
  const { page } = coordinator;
  await page.goto('/shifts/new');
  await page.locator('form.stack button[type="submit"]').click();
  await page.waitForURL((url) => url.pathname !== '/shifts/new');
  await volunteer.page.goto('/shifts');
  await volunteer.page
    .getByRole('button', { name: /^Take it/ })
    .first()
    .click();
  await volunteer.page
    .getByRole('button', { name: /Give it back/ })
    .first()
    .waitFor();
  expect((await read(volunteer, '/api/shifts?mine=true')).items).toHaveLength(1);
});

test('a feeding and a harvest are logged, and the season adds them up', async () => {
  const [bin] = (await read(volunteer, '/api/bins')).items;
  const { page } = volunteer;
  await page.goto(`/bins/${bin.id}/log`);
  await page.getByRole('radio', { name: /By weight/ }).check();
  await page.locator('#weight').fill('0.4');
  await page.locator('input[name="zone"]').first().check();
  await page.locator('#otherFood').selectOption({ index: 1 });
  await page.getByRole('button', { name: /^Save/ }).click();
  await page.locator('.after-save[data-at="server"]').waitFor();
  await page.goto(`/bins/${bin.id}/log?kind=harvest`);
  await page.locator('#weight').fill('0.25');
  await page.getByRole('button', { name: /^Save/ }).click();
  await page.locator('.after-save[data-at="server"]').waitFor();
  await coordinator.page.goto('/season');
  const text = await coordinator.page.locator('main').textContent();
  expect(text).toMatch(/^\s*0\.4\s*kg of scraps/);
  expect((await totals(coordinator)).harvestedG).toBe(250);
});

async function totals(walk: Walk) {
  const { today } = await read(walk, '/api/session');
  return (await read(walk, `/api/season?from=${today}&to=${today}`)).total;
}

test('after backup, wipe and restore all of it is still there', async () => {
  const before = {
    total: await totals(coordinator),
    bins: await read(coordinator, '/api/bins'),
    people: (await read(coordinator, '/api/people')).items.length,
  };
  await server.stop();
  const run = (...args: string[]) =>
    execFileSync(process.execPath, [cli, ...args], { env: { PATH: process.env.PATH, DATA_DIR: dataDir }, encoding: 'utf8' });
  run('backup');
  // The wipe: everything but the backups goes.
  renameSync(join(dataDir, 'backups'), join(backupsAside, 'backups'));
  for (const file of readdirSync(dataDir)) rmSync(join(dataDir, file), { recursive: true });
  renameSync(join(backupsAside, 'backups'), join(dataDir, 'backups'));
  run('restore');
  server = await serve({ dataDir, flags: ['--own'], keepData: true });
  const again = await device();
  await signIn(again);
  const after = {
    total: await totals(again),
    bins: await read(again, '/api/bins'),
    people: (await read(again, '/api/people')).items.length,
  };
  expect(after).toEqual(before);
  // The password alone is answered 401, which asks for the code; a browser complains of that answer when a script sent the form.
  expect(again.complaints.filter((line) => !(line.includes('/sign-in') && line.includes('401')))).toEqual([]);
});
