/**
 * Lets the pages at the bin, and the made-up bin, open with no network. It keeps files of the build and nothing else: no
 * answer of the API, and no page with people in it. What is noted is kept by the page (lib/outbox).
 */
import { version } from '$service-worker';

/** The part of a service worker's world that is used; the library for it does not go with the one for pages. */
interface WorkerEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface FetchEvent extends WorkerEvent {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface Worker extends EventTarget {
  skipWaiting(): Promise<void>;
  readonly clients: { claim(): Promise<void> };
  readonly location: Location;
}
const worker = globalThis as unknown as Worker;

/** Filled in by the adapter, which knows what was built. */
const FILES = '%carried-files%'.split(' ');
const PAGES = '%carried-pages%'.split(' ').map((page) => new RegExp(`^${page.replaceAll('*', '[^/]+')}/?$`));
const PREFIX = 'middenry ';
const CACHE = PREFIX + version;
/** Of this build and the two before it, whose pages may still be open somewhere. */
const BUILDS_KEPT = 3;
const PATIENCE_MS = 4000;
const [BAD_GATEWAY, GATEWAY_TIMEOUT] = [502, 504];
const SHELL = '/shell.html';
/** Addresses that end in a secret, for calendars, spreadsheets and links of the older form: left to the browser, and led nowhere that tells them on. */
const SECRET_PATH = /^\/(calendar|season-link|join|look|reply)\//;

worker.addEventListener('install', (event) => {
  (event as WorkerEvent).waitUntil(caches.open(CACHE).then((cache) => cache.addAll(FILES.map(freshly))));
});
worker.addEventListener('activate', (event) => {
  (event as WorkerEvent).waitUntil(dropOldBuilds().then(() => worker.clients.claim()));
});
worker.addEventListener('message', (event) => {
  // Said by a page whose reader has asked for the newer build.
  if ((event as MessageEvent).data === 'take-over') void worker.skipWaiting();
});
worker.addEventListener('fetch', (event) => {
  const { request, respondWith } = event as FetchEvent;
  const url = new URL(request.url);
  if (
    request.method !== 'GET' ||
    url.origin !== worker.location.origin ||
    url.pathname.startsWith('/api/') ||
    SECRET_PATH.test(url.pathname)
  )
    return;
  if (request.mode === 'navigate') respondWith.call(event, page(request, url));
  else if (url.pathname.startsWith('/_app/immutable/') || FILES.includes(url.pathname)) respondWith.call(event, file(request, url));
});

/** A file without a hash in its name may be another one by now. */
const freshly = (path: string) => new Request(path, { cache: path.includes('/immutable/') ? 'default' : 'reload' });

async function dropOldBuilds(): Promise<void> {
  const ours = (await caches.keys()).filter((name) => name.startsWith(PREFIX));
  const older = ours.sort((a, b) => Number(b.slice(PREFIX.length)) - Number(a.slice(PREFIX.length))).slice(BUILDS_KEPT);
  await Promise.all(older.map((name) => caches.delete(name)));
}

/** The network, for four seconds; then the shell at the bin, or the way there from a page that needs a network. */
async function page(request: Request, url: URL): Promise<Response> {
  const asked = fetch(request);
  const answer = await inTime(asked);
  if (answer !== null && (answer.status < BAD_GATEWAY || answer.status > GATEWAY_TIMEOUT)) return answer;
  const shell = await wholeShell();
  if (shell === null) return answer ?? asked;
  if (PAGES.some((carried) => carried.test(url.pathname))) return shell;
  return Response.redirect(`/log?wanted=${encodeURIComponent(url.pathname)}`);
}

async function inTime(asked: Promise<Response>): Promise<Response | null> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<null>((resolve) => {
    timer = setTimeout(() => resolve(null), PATIENCE_MS);
  });
  const answer = await Promise.race([asked.catch(() => null), late]);
  clearTimeout(timer);
  return answer;
}

/** A shell whose chunks are gone would be a blank page: then there is none. */
async function wholeShell(): Promise<Response | null> {
  const cache = await caches.open(CACHE);
  const kept = new Set((await cache.keys()).map(({ url }) => new URL(url).pathname));
  return FILES.every((path) => kept.has(path)) ? ((await cache.match(SHELL)) ?? null) : null;
}

/** Of this build first; what is open may still be of an older one. */
async function file(request: Request, url: URL): Promise<Response> {
  const kept = (await (await caches.open(CACHE)).match(url.pathname)) ?? (await caches.match(url.pathname));
  return kept ?? fetch(request);
}
