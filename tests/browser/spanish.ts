/** A reader of Spanish: chooses it, takes a place, logs with a decimal comma, and nothing is off the screen. Runs on the stage of whole-loop.test.ts. */
import type { Browser } from 'playwright-core';
import { expect, test } from 'vitest';
import { axeFaults, type Running, sidewaysPx, visit, type Walk } from './harness.ts';

const ROUTES = [
  '/',
  '/log',
  '/shifts',
  '/season',
  '/more',
  '/me',
  '/messages',
  '/messages/settings',
  '/intake',
  '/people',
  '/classes',
  '/sites',
  '/materials',
  '/keep',
  '/status',
  '/export',
  '/import',
  '/links',
  '/audit',
  '/programme',
  '/shifts/new',
  '/shifts/weekly',
  '/shifts/proposals',
  '/shifts/terms',
  '/bins/new',
];

type Stage = () => { readonly browser: Browser; readonly server: Running };

/** Of foods and bedding, as the catalogue has them. */
async function namesIn(language: string, { context }: Walk): Promise<string[]> {
  const chosen = {
    cookie: (await context.cookies()).map(({ name, value }) => `${name}=${name === 'language' ? language : value}`).join('; '),
  };
  const answer = await context.request.get('/api/materials', { headers: { ...chosen, 'accept-language': language } });
  return ((await answer.json()).items as { name: string }[]).map(({ name }) => name);
}

async function placeAndFeeding(stage: Stage): Promise<void> {
  const walk = await visit(stage().browser, stage().server.origin, { viewport: { width: 360, height: 740 } });
  const { page } = walk;
  await page.goto('/sign-in');
  await page.getByRole('button', { name: 'Español' }).click();
  await page.getByRole('heading', { level: 1, name: 'Entra y mira cómo están las lombrices.' }).waitFor();
  expect(await page.locator('html').getAttribute('lang')).toBe('es');
  expect(await axeFaults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Mirar como voluntariado' }).click();
  await page.getByRole('link', { name: 'Turnos' }).first().click();
  await page
    .getByRole('button', { name: /Tomar la plaza de/ })
    .first()
    .click();
  await page.getByText('La plaza es tuya.').waitFor();
  expect(await axeFaults(page)).toEqual([]);
  await page.goto('/log');
  await page.getByRole('heading', { level: 1, name: '¿En qué compostera estás?' }).waitFor();
  await page.locator('main a[href^="/bins/"]').first().click();
  await page.getByText('¿Cuánto entró?').waitFor();
  expect(await axeFaults(page)).toEqual([]);
  await page.getByRole('radio', { name: /Por peso/ }).check();
  await page.locator('#weight').fill('0,3');
  await page.locator('input[name="zone"]').first().check();
  const food = page.locator('label:has(input[name="food"])').first();
  const name = String(await food.textContent()).trim();
  expect(await namesIn('es', walk)).toContain(name);
  expect(await namesIn('en', walk)).not.toContain(name);
  await food.locator('input').check();
  await page.getByRole('button', { name: /^Guardar/ }).click();
  const sure = page.getByRole('button', { name: /^Sí/ });
  await Promise.race([sure.waitFor(), page.locator('.after-save[data-at="server"]').waitFor()]);
  if (await sure.isVisible()) await sure.click();
  await page.locator('.saved').getByText('Guardado.').waitFor();
  await page.goto(page.url().split('/log')[0] ?? '/');
  await page
    .getByText(new RegExp(`Comida: 0,3.kg de ${name.slice(0, 1).toLowerCase()}${name.slice(1).replace(/\(.*/, '')}`))
    .first()
    .waitFor();
  expect(walk.complaints).toEqual([]);
  await walk.close();
}

async function everyRoute(stage: Stage): Promise<void> {
  const walk = await visit(stage().browser, stage().server.origin, {
    viewport: { width: 320, height: 640 },
    extraHTTPHeaders: { 'accept-language': 'es' },
  });
  await walk.context.request.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin: stage().server.origin } });
  const scripts: Promise<string>[] = [];
  walk.page.on('response', (answer) => {
    if (answer.request().resourceType() === 'script') scripts.push(answer.text().catch(() => ''));
  });
  // Long enough to be nothing else.
  const english = (await namesIn('en', walk)).filter((name) => name.length > 11);
  expect(english).toContain('Spent coffee grounds');
  const wide: string[] = [];
  const inEnglish: string[] = [];
  for (const route of ROUTES) {
    const answer = await walk.page.goto(route);
    const px = await sidewaysPx(walk.page);
    const lang = await walk.page.locator('html').getAttribute('lang');
    const said = (await walk.page.locator('main').textContent()) ?? '';
    inEnglish.push(...english.filter((name) => said.includes(name)).map((name) => `${route}: ${name}`));
    if (px > 0 || answer?.status() !== 200 || lang !== 'es') wide.push(`${route}: ${px} px, ${answer?.status()}, ${lang}`);
  }
  expect(wide).toEqual([]);
  expect(inEnglish).toEqual([]);
  const rows = await walk.page
    .locator('nav.tabs a')
    .evaluateAll((tabs) => new Set(tabs.map((tab) => Math.round(tab.getBoundingClientRect().top))).size);
  expect(rows).toBe(1);
  const fetched = (await Promise.all(scripts)).join('\n');
  expect(['Ponte guantes.', 'Wear gloves.'].map((words) => fetched.includes(words))).toEqual([true, false]);
  expect(walk.complaints).toEqual([]);
  await walk.close();
}

export function spanishWalks(stage: Stage): void {
  test('B7: a volunteer in Spanish takes a place and logs a feeding with a decimal comma', () => placeAndFeeding(stage));
  test('B26: no page in Spanish is wider than a narrow phone, each says its language, and no other is fetched', () => everyRoute(stage));
}
