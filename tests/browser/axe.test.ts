/** Every page on light paper, and on dark paper those that have colours of their own: nothing for axe, nothing sideways, nothing asked of strangers, no broken policy. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { addDays } from '../../apps/web/src/lib/format/days.ts';
import { axeFaults, openBrowser, type Running, serve, sidewaysPx, visit, type Walk, walkIn } from './harness.ts';

let server: Running;
let browser: Browser;
let places: Record<string, string>;
/** What each of them came in with. */
let cookies: Record<string, Awaited<ReturnType<Walk['context']['cookies']>>>;
beforeAll(async () => {
  [server, browser] = await Promise.all([serve(), openBrowser()]);
  const walk = await visit(browser, server.origin);
  await signIn(walk, 'coordinator');
  const read = async (path: string) => (await walk.context.request.get(path)).json();
  const { bins } = await read('/api/board');
  const { id: bin, code } = bins.find((one: { band: string }) => one.band === 'act') as { id: string; code: string };
  places = {
    bin,
    code,
    entry: (await read(`/api/bins/${bin}/entries`)).items[0].id,
    shift: (await read('/api/shifts')).items[0].id,
    site: (await read('/api/sites')).items[0].id,
  };
  await letIn(walk);
  places.run = await fillGaps(walk);
  await walk.close();
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

let made = 0;
const newId = () => `0199f000-0000-7000-8000-${String(++made).padStart(12, '0')}`;

/** A site lead by an invite and a pupil by a card; another invite and a link for readers stay open. */
async function letIn(coordinator: Walk): Promise<void> {
  const post = async (walk: Walk, path: string, data: object) => {
    const answer = await walk.context.request.post(path, { data, headers: { origin: server.origin } });
    expect(answer.status(), path).toBe(201);
    return answer.json();
  };
  const siteId = places.site!;
  const tokenOf = (path: string) => path.split('/').at(-1)!;
  const invite = async (role: string) =>
    tokenOf((await post(coordinator, '/api/invites', { id: newId(), role, name: 'Sorrel A.', siteIds: [siteId] })).path);
  places.invite = await invite('volunteer');
  const season = { siteId, name: 'Year', from: '2026-01-01', to: '2026-12-31' };
  places.named = (await post(coordinator, '/api/seasons', { id: newId(), ...season })).id;
  places.published = (await post(coordinator, '/api/published-seasons', { id: newId(), ...season })).id;
  places.look = tokenOf((await post(coordinator, '/api/links', { id: newId(), kind: 'board' })).path);
  const classId = newId();
  await post(coordinator, '/api/classes', { id: classId, siteId, name: 'Visitors', ageBand: '9-12' });
  const { classCode, pictures } = await post(coordinator, `/api/classes/${classId}/pupils`, { id: newId(), name: 'Wilf A.' });
  cookies = {};
  for (const [who, path, data] of [
    ['siteLead', '/api/session/invite', { token: await invite('site-lead') }],
    ['pupil', '/api/session/pupil', { classCode, pictures }],
  ] as const) {
    const walk = await visit(browser, server.origin);
    await post(walk, path, data);
    cookies[who] = await walk.context.cookies();
    await walk.close();
  }
}

/** A search that has ended: its page holds proposals, gaps and the table. */
async function fillGaps(coordinator: Walk): Promise<string> {
  const id = newId();
  const { today } = await (await coordinator.context.request.get('/api/session')).json();
  const data = { id, from: today, to: addDays(today, 14), seconds: 2 };
  await coordinator.context.request.post('/api/rota/runs', { data, headers: { origin: server.origin } });
  const status = async () => (await (await coordinator.context.request.get(`/api/rota/runs/${id}`)).json()).status;
  await vi.waitUntil(async () => (await status()) !== 'working', { timeout: 30_000, interval: 250 });
  return id;
}

async function signIn(walk: Walk, as: string): Promise<void> {
  if (as === 'nobody') return;
  const kept = cookies?.[as];
  if (kept) return walk.context.addCookies(kept);
  const answer = await walk.context.request.post('/api/session/demo', { data: { as }, headers: { origin: server.origin } });
  expect(answer.status()).toBe(201);
}

const PAGES: Readonly<Record<string, readonly string[]>> = {
  nobody: [
    '/sign-in',
    '/sign-in/code',
    '/sign-in/pupil',
    '/erased',
    '/privacy',
    '/setup',
    '/setup/export',
    '/no-such-page',
    '/reply/no-token-that-there-ever-was',
    '/join/:invite',
    '/look/:look',
    '/look/:look/wall',
    '/b/:code',
  ],
  pupil: ['/', '/bins/:bin', '/more', '/what-if?bed=thin&story=0f12g&day=7'],
  siteLead: ['/', '/shifts/:shift', '/classes', '/intake'],
  volunteer: [
    '/',
    '/shifts',
    '/log',
    '/bins/:bin',
    '/bins/:bin/log',
    '/me',
    '/me/erase',
    '/messages',
    '/me/when',
    '/waiting',
    '/find?code=ZZ9',
  ],
  coordinator: [
    '/?order=place',
    '/bins/:bin',
    '/bins/:bin/edit',
    '/bins/new',
    '/bins/labels',
    '/bins/:bin/card',
    '/bins/:bin/log',
    '/bins/:bin/log?kind=check',
    '/bins/:bin/log?kind=harvest',
    '/bins/:bin/log?kind=care',
    '/bins/:bin/what-if',
    '/entries/:entry',
    '/shifts',
    '/shifts/new',
    '/shifts/weekly',
    '/shifts/proposals',
    '/shifts/terms',
    '/intake',
    '/second-step',
    '/shifts/:shift',
    '/season',
    '/season/climate',
    '/season/named/:named',
    '/season/published/:published',
    '/people',
    '/people/erase',
    '/classes',
    '/sites',
    '/sites/:site',
    '/materials',
    '/castings',
    '/flags',
    '/programme',
    '/keep',
    '/status',
    '/export',
    '/import',
    '/audit',
    '/links',
    '/wall',
    '/wall?inch=32&m=5',
    '/me',
    '/messages/settings',
    '/messages/mail',
    '/messages/group',
    '/rota',
    '/rota/:run',
    '/more',
    '/api-page',
  ],
};
/** One visitor of every kind, whose pages share what was fetched: the scripts of each page are read once for all. */
const visitors = new Map<string, Promise<Walk>>();
async function entered(as: string): Promise<Walk> {
  const walk = await visit(browser, server.origin, { colorScheme: 'light', viewport: { width: 360, height: 640 } });
  await signIn(walk, as);
  return walk;
}
async function pageOf(as: string): Promise<Walk> {
  const visitor = visitors.get(as) ?? entered(as);
  visitors.set(as, visitor);
  return walkIn((await visitor).context, server.origin);
}

const real = (path: string) => path.replace(/:(\w+)/, (_, name: string) => places[name]!);
const CASES = Object.entries(PAGES).flatMap(([who, paths]) => paths.map((path) => [who, path] as const));

/** Marks, plans, charts and notices; the others are made of the same tokens. `npm run proof` asks them all. */
const ON_DARK_TOO = [
  ...['/sign-in', '/look/:look', '/', '/?order=place', '/bins/:bin', '/bins/:bin/log', '/bins/:bin/log?kind=check', '/bins/:bin/what-if'],
  ...['/shifts', '/shifts/:shift', '/season', '/wall', '/keep', '/messages', '/rota/:run', '/me', '/intake', '/waiting'],
];
const isOnDark = (path: string): boolean => process.env.PROOF === 'long' || ON_DARK_TOO.includes(path);

// Two at once: while one page is drawn, another is read.
test.concurrent.for(CASES)('%s at %s, on its papers (C30)', async ([who, path], { expect }) => {
  const walk = await pageOf(who);
  await walk.page.goto(real(path), { waitUntil: 'load' });
  const found = { light: await axeFaults(walk.page), dark: [] as string[] };
  for (const width of [320, 390, 768, 1440, 360]) {
    await walk.page.setViewportSize({ width, height: 800 });
    // A chart draws itself anew after the window has changed.
    await expect.poll(() => sidewaysPx(walk.page), { message: `sideways at ${width}`, timeout: 3000 }).toBeLessThanOrEqual(0);
  }
  // Dark paper on the wide layout, light paper on the narrow one: both papers and both layouts in half the time of all four.
  if (isOnDark(path)) {
    await walk.page.emulateMedia({ colorScheme: 'dark' });
    await walk.page.setViewportSize({ width: 1440, height: 800 });
    found.dark = await axeFaults(walk.page, 'colours');
  }
  expect(found).toEqual({ light: [], dark: [] });
  expect(walk.strangers).toEqual([]);
  // The page that is not there complains of itself, and nothing else may.
  expect(walk.complaints.filter((line) => !(path === '/no-such-page' && line.includes('404')))).toEqual([]);
  await walk.close();
});
