import type { Problem } from '@middenry/contract';
import { error } from '@sveltejs/kit';
import { type Answer, type BodyOf, CALLS, type CallName, type NearCall } from './calls.ts';
import { PAGES_RELEASE, RELEASE_HEADER } from './release.ts';

export type Outcome<T> = { readonly ok: true; readonly data: T } | { readonly ok: false; readonly problem: Problem };

interface Options<N extends CallName> {
  readonly params?: Readonly<Record<string, string>>;
  readonly query?: Readonly<Record<string, string | number | boolean | undefined>>;
  readonly body?: BodyOf<N>;
  /** The revision that was read, where two people might write at once. */
  readonly ifMatch?: number;
}

type Query = Options<CallName>['query'];

/** The address of a call with its parameters filled in. */
export const addressOf = (name: NearCall, params: Readonly<Record<string, string>> = {}, query: Query = {}): string =>
  filled(CALLS[name], params, query);

/** The path of a line such as `GET /api/bins/:id`, with its parameters filled in. */
export function filled(line: string, params: Readonly<Record<string, string>> = {}, query: Query = {}): string {
  const path = line.slice(line.indexOf(' ') + 1).replace(/:(\w+)/g, (_, key: string) => encodeURIComponent(params[key] ?? ''));
  const search = new URLSearchParams();
  for (const [key, value] of Object.entries(query)) if (value !== undefined) search.set(key, String(value));
  return search.size === 0 ? path : `${path}?${search}`;
}

const isNear = (name: CallName): name is NearCall => name in CALLS;
const lineOf = async (name: CallName): Promise<string> => (isNear(name) ? CALLS[name] : (await import('./far-calls.ts')).FAR_CALLS[name]);

/**
 * Calls the API and gives either its answer or its problem; never throws for an expected refusal.
 *
 * @param send `fetch` of the page's load or form action, so that the server's own process answers
 */
export async function call<N extends CallName>(send: typeof fetch, name: N, options: Options<N> = {}): Promise<Outcome<Answer<N>>> {
  const line = await lineOf(name);
  const method = line.slice(0, line.indexOf(' '));
  const headers: Record<string, string> = { accept: 'application/json' };
  if (options.body !== undefined) headers['content-type'] = 'application/json';
  if (method !== 'GET') headers[RELEASE_HEADER] = String(PAGES_RELEASE);
  if (options.ifMatch !== undefined) headers['if-match'] = `"${options.ifMatch}"`;
  let response: Response;
  try {
    response = await send(filled(line, options.params, options.query), {
      method,
      headers,
      ...(options.body === undefined ? {} : { body: JSON.stringify(options.body) }),
    });
  } catch {
    return { ok: false, problem: noAnswer() };
  }
  if (response.status === 204) return { ok: true, data: undefined as Answer<N> };
  const type = response.headers.get('content-type') ?? '';
  // A captive portal answers 200 with a page of its own: that is no answer of ours.
  if (!type.includes('json')) return { ok: false, problem: noAnswer() };
  const body: unknown = await response.json();
  return response.ok ? { ok: true, data: body as Answer<N> } : { ok: false, problem: body as Problem };
}

/** For pages that cannot be without the answer. */
export async function need<N extends CallName>(send: typeof fetch, name: N, options: Options<N> = {}): Promise<Answer<N>> {
  const outcome = await call(send, name, options);
  if (outcome.ok) return outcome.data;
  const { problem } = outcome;
  error(problem.status >= 400 ? problem.status : 503, { message: problem.code, code: problem.code, requestId: problem.requestId });
}

function noAnswer(): Problem {
  return { type: 'about:blank', title: 'No answer', status: 503, detail: 'The server did not answer.', code: 'unavailable', requestId: '' };
}
