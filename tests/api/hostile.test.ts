import { Problem, ROUTES, type RouteSpec } from '@middenry/contract';
import { afterAll, beforeEach, expect, test } from 'vitest';
import * as z from 'zod';
import { type Answer, PASSWORD } from '../cast.ts';
import { type JsonSchema, type Mutation, mutationsOf, unknownId } from './hostile/mutations.ts';
import { prepare, type RouteSample, type Sample } from './hostile/sample.ts';
import { samples } from './hostile/samples.ts';
import { fingerprint, openStage, type Stage, stagesOf } from './hostile/stage.ts';

const routes: readonly RouteSpec[] = ROUTES;
const sampleOf = (spec: RouteSpec, stage: Stage): RouteSample => samples[spec.name as keyof typeof samples](stage);

let stage: Stage;
let before: string;
const stages = stagesOf(async () => {
  const opened = await openStage();
  await opened.cast.call('owner', 'POST', '/api/people', {
    id: unknownId.replace('4fff', '7fff'),
    name: 'Nell Ashby',
    role: 'coordinator',
    email: 'nell@example.org',
    password: PASSWORD,
  });
  return opened;
});
beforeEach(async () => {
  stage = await stages.next();
  before = fingerprint(stage.cast.store);
});
afterAll(() => stages.close());

const send = (method: string, { who, url, body, headers }: Sample): Promise<Answer> => stage.cast.call(who, method, url, body, headers);

const leak = /SQLITE|sqlite|node_modules|\bat \S+ \(|\.(ts|mjs|js):\d|\b(select|insert|update|delete)\b.{1,40}\b(from|into|set|where)\b/i;

/** What is wrong with a refusal, or with there being none. */
function complaintAbout(answer: Answer): string | undefined {
  if (answer.status < 400 || answer.status > 499) return `answered ${answer.status}`;
  if (!String(answer.headers['content-type']).startsWith('application/problem+json')) return `answered ${answer.headers['content-type']}`;
  const problem = Problem.strict().safeParse(answer.body);
  if (!problem.success) return `no problem document: ${problem.error.message}`;
  if (problem.data.status !== answer.status) return `says ${problem.data.status}, is ${answer.status}`;
  if (!/^[A-Z][^.]*( [^ ]+){2,}.*[.;]?$/.test(problem.data.detail)) return `no words: ${problem.data.detail}`;
  if (problem.data.code === 'invalid' && !problem.data.errors?.length) return 'names no field';
  if (leak.test(answer.text)) return `leaks: ${answer.text}`;
  return undefined;
}

/** Sends each request and gives a line for every one that was not refused in words, or that changed something. */
async function unrefused(method: string, requests: readonly (readonly [name: string, sample: Sample])[]): Promise<string[]> {
  const found: string[] = [];
  for (const [name, sample] of requests) {
    const what = complaintAbout(await send(method, sample));
    if (what) found.push(`${name}: ${what}`);
    const after = fingerprint(stage.cast.store);
    if (after !== before) found.push(`${name}: changed the store`);
    before = after;
  }
  return found;
}

const schemaOf = (type: z.ZodType): JsonSchema => z.toJSONSchema(type, { io: 'input', unrepresentable: 'any' }) as JsonSchema;

function badBodies(spec: RouteSpec, sample: RouteSample): Mutation[] {
  return spec.body ? [...mutationsOf(schemaOf(spec.body), sample.body), ...(sample.also ?? [])] : [];
}

function badUrls({ url, params = {} }: RouteSample): [string, string][] {
  return Object.entries(params).flatMap(([name, value]) => {
    const bad = {
      'no id': 'seven',
      unknown: name === 'code' ? 'ZZ9' : unknownId,
      'a path': '..%2f..%2fetc',
      empty: '%20',
      nul: '%00',
      long: 'x'.repeat(300),
      quote: "'%20OR%201=1--",
    };
    return Object.entries(bad).map(([fault, instead]): [string, string] => [`${name}: ${fault}`, url.replace(value, instead)]);
  });
}

/** Each field of a query spoilt in turn. Every value of a query is text, so only what does not read as its kind is wrong. */
function badQueries(spec: RouteSpec, { url }: RouteSample): [string, string][] {
  const [path = '', query = ''] = url.split('?');
  if (!spec.query) return [];
  return [...new URLSearchParams(query)].map(([name]) => {
    const spoilt = new URLSearchParams(query);
    spoilt.set(name, 'no such thing');
    return [`query ${name}`, `${path}?${spoilt}`];
  });
}

const titled = (list: readonly RouteSpec[]) => list.map((spec) => [`${spec.method} ${spec.path}`, spec] as const);
const withInput = routes.filter(({ body, params, query }) => body || params || query);
const withOwners = routes.filter(({ own }) => own !== 'nothing' && own !== 'session');

test.each(titled(routes))('%s takes a good request', async (_, spec) => {
  const sample = sampleOf(spec, stage);
  await prepare(stage, sample);
  const answer = await send(spec.method, sample);
  expect([answer.status, answer.status === spec.status ? '' : answer.text]).toEqual([spec.status, '']);
});

test.each(titled(withInput))('E16: %s refuses each spoilt request in words and changes nothing', async (_, spec) => {
  const sample = sampleOf(spec, stage);
  const bodies = badBodies(spec, sample).map(({ name, value }) => [name, { ...sample, body: value }] as const);
  const urls = [...badUrls(sample), ...badQueries(spec, sample)].map(([name, url]) => [name, { ...sample, url }] as const);
  expect(await unrefused(spec.method, [...bodies, ...urls])).toEqual([]);
});

test.each(titled(withOwners))('E11: %s shows nobody what is not theirs, and lets them change none of it', async (_, spec) => {
  const others = (sampleOf(spec, stage).notTheirs ?? []).map((other, index) => [`not theirs ${index + 1}`, other] as const);
  expect(others.length).toBeGreaterThan(0);
  expect(await unrefused(spec.method, others)).toEqual([]);
  for (const [, other] of others) expect((await send(spec.method, other)).status).toBe(404);
});

const megabytes = (count: number): string => `{"note":"${'x'.repeat(count * 1024 * 1024)}"}`;

const rawBodies: readonly (readonly [name: string, payload: string, contentType: string])[] = [
  ['malformed JSON', '{"id": ', 'application/json'],
  ['nothing at all', '', 'application/json'],
  ['JSON that is nothing', 'null', 'application/json'],
  ['a body of 2 MB', megabytes(2), 'application/json'],
  ['ten thousand brackets', '['.repeat(10_000), 'application/json'],
  ['keys that would change every object', '{"__proto__":{"id":"x"},"constructor":{"prototype":{"id":"x"}}}', 'application/json'],
  ['bytes that are no text', '\u0000\u0001\u0002', 'application/json'],
  ['a form', 'id=1', 'application/x-www-form-urlencoded'],
  ['plain text', '{"id":1}', 'text/plain'],
];

test.each(titled(routes.filter(({ body }) => body)))('%s refuses bodies that are no JSON object, or too large', async (_, spec) => {
  const { who, url } = sampleOf(spec, stage);
  const cookie = who === null ? {} : { cookie: stage.cast.cookie(who) };
  const found: string[] = [];
  for (const [name, payload, contentType] of rawBodies) {
    const answer = await stage.cast.app.inject({ method: spec.method, url, payload, headers: { 'content-type': contentType, ...cookie } });
    const body = answer.body ? answer.json() : undefined;
    const what = complaintAbout({ status: answer.statusCode, body, text: answer.body, headers: answer.headers });
    if (what) found.push(`${name}: ${what}`);
  }
  expect(found).toEqual([]);
  expect(fingerprint(stage.cast.store)).toBe(before);
});

test('spoils enough to mean something', () => {
  const feed = routes.find(({ name }) => name === 'logFeeding') as RouteSpec;
  const names = badBodies(feed, sampleOf(feed, stage)).map(({ name }) => name);
  expect(names).toEqual(
    expect.arrayContaining([
      'items/0/massKg: negative',
      'items/0/massKg: a thousand million',
      'binId: unknown id',
      'the day before the bin began',
    ]),
  );
  expect(routes.flatMap((spec) => badBodies(spec, sampleOf(spec, stage))).length).toBeGreaterThan(500);
});
