/** Every page on light paper, and on dark paper those that have colours of their own: nothing for axe, nothing sideways, nothing asked of strangers, no broken policy. */
import { readdirSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { addDays } from '../../apps/web/src/lib/format/days.ts';
import { SMALL_JPEG } from '../api/hostile/photo-samples.ts';
import { axeFaults, openBrowser, type Running, serve, sidewaysPx, visit, type Walk, walkIn } from './harness.ts';

const ROUTES = fileURLToPath(new URL('../../apps/web/src/routes', import.meta.url));

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
    today: (await read('/api/session')).today,
    none: 'no-token-that-there-ever-was',
    site: (await read('/api/sites')).items[0].id,
  };
  await letIn(walk);
  places.run = await fillGaps(walk);
  await takePhotos(walk);
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
  const tokenOf = (path: string) => path.split('#').at(-1)!;
  const invite = async (role: string) =>
    tokenOf((await post(coordinator, '/api/invites', { id: newId(), role, name: 'Sorrel A.', siteIds: [siteId] })).path);
  places.invite = await invite('volunteer');
  const season = { siteId, name: 'Year', from: '2026-01-01', to: '2026-12-31' };
  places.named = (await post(coordinator, '/api/seasons', { id: newId(), ...season })).id;
  places.published = (await post(coordinator, '/api/published-seasons', { id: newId(), ...season })).id;
  places.look = tokenOf((await post(coordinator, '/api/links', { id: newId(), kind: 'board' })).path);
  const term = { name: 'Spring', from: addDays(places.today!, 60), to: addDays(places.today!, 150), way: 'draw' };
  const opens = { opensAt: `${addDays(places.today!, 30)}T09:00:00Z` };
  places.term = (await post(coordinator, '/api/sign-up-seasons', { id: newId(), siteId, ...term, ...opens })).id;
  const content = Buffer.from(`Date,Bin,Food,Weight\n3/4/2026,${places.code},Apple,2\n5/6/2026,Z9,Mystery,1 bucket\n`).toString('base64');
  const sheet = { kind: 'feedings', fileName: 'log.csv', content };
  places.sheet = (await post(coordinator, '/api/imports', { id: newId(), ...sheet })).id;
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

/** One of the bin for reports to choose, and one that waits for somebody to say who is in it. */
async function takePhotos({ context: { request } }: Walk): Promise<void> {
  const headers = { origin: server.origin };
  await request.patch('/api/programme', { data: { photosOfPeople: true }, headers });
  for (const people of ['none', 'some']) {
    const query = new URLSearchParams({
      binId: places.bin!,
      takenAt: new Date().toISOString(),
      kind: 'bin',
      people,
      alt: 'Castings on top',
    });
    const sent = await request.put(`/api/photos/${newId()}?${query}`, {
      data: SMALL_JPEG,
      headers: { ...headers, 'content-type': 'image/jpeg' },
    });
    expect(sent.status(), people).toBe(201);
  }
}

/** A search that has ended: its page holds proposals, gaps and the table. */
async function fillGaps(coordinator: Walk): Promise<string> {
  const id = newId();
  const data = { id, from: places.today!, to: addDays(places.today!, 14), seconds: 2 };
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
    '/reply/:none',
    '/join/:invite',
    '/look/:look',
    '/look/:look/wall',
    '/reply',
    `/reply#${'no-link-there-ever-was'.padEnd(43, '-')}`,
    '/join',
    '/join#:invite',
    '/look',
    '/look#:look',
    '/look/wall#:look',
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
    '/shifts/terms/:term',
    '/intake',
    '/second-step',
    '/shifts/:shift',
    '/season',
    '/season/climate',
    '/season/named/:named',
    '/season/named/:named/photos',
    '/season/published/:published',
    '/people',
    '/people/erase',
    '/consents',
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
    '/import/:sheet',
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
/** `:what` and `[what]` are the same: a place that is filled in. */
const shapeOf = (path: string) => path.split(/[?#]/)[0]!.replace(/:\w+|\[\w+\]/g, ':');

test('every page that there is stands in the list (C30)', () => {
  const inList = new Set(Object.values(PAGES).flat().map(shapeOf));
  const files = readdirSync(ROUTES, { recursive: true, encoding: 'utf8' }).filter((file) => basename(file) === '+page.svelte');
  const there = files.map((file) => shapeOf(`/${dirname(file)}`.replace(/\/(\(\w+\)|\.)(?=\/|$)/g, '') || '/'));
  expect(there.length).toBeGreaterThan(50);
  expect(there.filter((path) => !inList.has(path))).toEqual([]);
});

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
  ...['/sign-in', '/look#:look', '/', '/?order=place', '/bins/:bin', '/bins/:bin/log', '/bins/:bin/log?kind=check', '/bins/:bin/what-if'],
  ...['/shifts', '/shifts/:shift', '/season', '/wall', '/keep', '/messages', '/rota/:run', '/me', '/intake', '/waiting'],
];
const isOnDark = (path: string): boolean => process.env.PROOF === 'long' || ON_DARK_TOO.includes(path);

// Two at once: while one page is drawn, another is read.
test.concurrent.for(CASES)('%s at %s, on its papers (C30)', async ([who, path], { expect }) => {
  const walk = await pageOf(who);
  await walk.page.goto(real(path), { waitUntil: 'load' });
  // A link of the older form makes itself the new one, and what stands after the # is opened by the page itself.
  const [, older] = /^\/(?:join|look|reply)\/:(\w+)/.exec(path) ?? [];
  if (older !== undefined) await walk.page.waitForURL((url) => !url.pathname.includes(places[older]!));
  if (older !== 'none' && /^\/(join|look|reply).*[#:]/.test(path)) await walk.page.locator('.comes-late').waitFor({ state: 'detached' });
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
  // The page that is not there complains of itself, and so does a link that opens nothing; nothing else may.
  expect(
    walk.complaints.filter(
      (line) => !(path === '/no-such-page' && line.includes('404')) && !(path.startsWith('/reply#') && line.includes('410')),
    ),
  ).toEqual([]);
  await walk.close();
});
