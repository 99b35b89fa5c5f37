import type { Handle, HandleFetch, HandleServerError } from '@sveltejs/kit';
import { LANGUAGE_COOKIE, languageFor } from '$lib/messages/languages.ts';
import { inLanguage } from '$lib/messages/per-reader.server.ts';
import { pageClass } from '$lib/paths/page-class.ts';

const PASSED_ON = ['accept', 'content-type', 'cookie', 'user-agent', 'accept-language', 'idempotency-key', 'if-match', 'if-none-match'];

/** Calls of the pages to the API stay inside this process. */
export const handleFetch: HandleFetch = async ({ event, request, fetch }) => {
  const url = new URL(request.url);
  const inject = event.platform?.inject;
  if (inject === undefined || url.origin !== event.url.origin || !url.pathname.startsWith('/api/')) return fetch(request);
  const headers: Record<string, string> = { host: event.url.host, origin: event.url.origin, 'sec-fetch-site': 'same-origin' };
  for (const name of PASSED_ON) {
    const value = request.headers.get(name) ?? event.request.headers.get(name);
    if (value !== null && !(name === 'content-type' && request.body === null)) headers[name] = value;
  }
  if (event.url.protocol === 'https:') headers['x-forwarded-proto'] = 'https';
  const payload = request.body === null ? undefined : Buffer.from(await request.arrayBuffer());
  const answer = await inject({
    method: request.method,
    url: url.pathname + url.search,
    headers,
    payload,
    remoteAddress: event.locals.clientAddress,
  });
  return toResponse(answer, event.locals.apiCookies);
};

function toResponse(answer: Awaited<ReturnType<App.Platform['inject']>>, apiCookies: string[]): Response {
  const headers = new Headers();
  for (const [name, value] of Object.entries(answer.headers)) {
    if (value === undefined || name === 'content-length' || name === 'transfer-encoding' || name === 'connection') continue;
    const all = Array.isArray(value) ? value : [String(value)];
    if (name === 'set-cookie') apiCookies.push(...all);
    else for (const one of all) headers.append(name, one);
  }
  const empty = answer.statusCode === 204 || answer.statusCode === 304;
  return new Response(empty ? null : new Uint8Array(answer.rawPayload), { status: answer.statusCode, headers });
}

export const handle: Handle = async ({ event, resolve }) => {
  event.locals.apiCookies = [];
  event.locals.clientAddress = clientAddress(event);
  const paper = event.cookies.get('paper');
  const chosen = paper === 'day' || paper === 'night' ? `data-paper="${paper}"` : '';
  const language = languageFor(event.cookies.get(LANGUAGE_COOKIE), event.request.headers.get('accept-language'));
  const response = await inLanguage(language, () =>
    resolve(event, {
      transformPageChunk: ({ html }) =>
        html.replace('%lang%', language).replace('%page-class%', pageClass(event.url.pathname)).replace('%paper%', chosen),
      filterSerializedResponseHeaders: (name) => name === 'content-type' || name === 'etag',
    }),
  );
  for (const cookie of event.locals.apiCookies) response.headers.append('set-cookie', cookie);
  // A link of the older form has its secret in the path: no file that its page fetches may be told of it.
  if (event.route.id?.includes('[token]')) response.headers.set('referrer-policy', 'strict-origin');
  if (response.headers.get('content-type')?.startsWith('text/html')) response.headers.set('cache-control', 'no-store');
  return response;
};

function clientAddress(event: { getClientAddress(): string }): string {
  try {
    return event.getClientAddress();
  } catch {
    return '127.0.0.1'; // while the shell is made at build time there is no client
  }
}

/** A missing page is not a fault; a fault is logged by Fastify and shown as a number only. */
export const handleError: HandleServerError = ({ error, status }) => {
  if (status === 404) return { message: 'not-found', code: 'not-found' };
  const requestId = crypto.randomUUID().slice(0, 8);
  console.error(JSON.stringify({ level: 50, requestId, msg: 'page failed', error: error instanceof Error ? error.stack : String(error) }));
  return { message: 'fault', code: 'fault', requestId };
};
