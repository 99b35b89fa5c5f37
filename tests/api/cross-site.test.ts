import { ROUTES, type RouteSpec } from '@middenry/contract';
import { afterAll, beforeEach, expect, test } from 'vitest';
import { PASSWORD, payloadOf } from '../cast.ts';
import { prepare, type RouteSample } from './hostile/sample.ts';
import { samples } from './hostile/samples.ts';
import { fingerprint, openStage, type Stage, stagesOf } from './hostile/stage.ts';

const routes: readonly RouteSpec[] = ROUTES;
const sampleOf = (spec: RouteSpec, stage: Stage): RouteSample => samples[spec.name as keyof typeof samples](stage);
const titled = (list: readonly RouteSpec[]) => list.map((spec) => [`${spec.method} ${spec.path}`, spec] as const);
const unsafe = routes.filter(({ method }) => method !== 'GET');
const safe = routes.filter(({ method }) => method === 'GET');

let stage: Stage;
let before: string;
const stages = stagesOf(async () => {
  const opened = await openStage();
  const nell = {
    id: '0192f000-0000-7000-8000-00000000abcd',
    name: 'Nell Ashby',
    role: 'coordinator',
    email: 'nell@example.org',
    password: PASSWORD,
  };
  await opened.cast.call('owner', 'POST', '/api/people', nell);
  return opened;
});
beforeEach(async () => {
  stage = await stages.next();
  before = fingerprint(stage.cast.store);
});
afterAll(() => stages.close());

type Headers = Readonly<Record<string, string>>;

/** How a page of another site can make a visitor's browser send something, cookie and all (OWASP CSRF Prevention cheat sheet). */
const attacks: Readonly<Record<string, { readonly headers: Headers }>> = {
  'a form': {
    headers: { origin: 'https://elsewhere.example', 'sec-fetch-site': 'cross-site', 'content-type': 'application/x-www-form-urlencoded' },
  },
  'a form with files': {
    headers: { origin: 'https://elsewhere.example', 'sec-fetch-site': 'cross-site', 'content-type': 'multipart/form-data; boundary=x' },
  },
  'a form of plain text': {
    headers: { origin: 'https://elsewhere.example', 'sec-fetch-site': 'cross-site', 'content-type': 'text/plain' },
  },
  'a form in a sandbox': { headers: { origin: 'null', 'content-type': 'application/x-www-form-urlencoded' } },
  'fetch with JSON': { headers: { origin: 'https://elsewhere.example', 'content-type': 'application/json' } },
  'fetch without an origin': { headers: { 'sec-fetch-site': 'cross-site', 'content-type': 'application/json' } },
  'a neighbour under the same domain': { headers: { 'sec-fetch-site': 'same-site', 'content-type': 'application/json' } },
  'an old browser and plain text': { headers: { 'content-type': 'text/plain' } },
  'our name at another port': { headers: { origin: 'http://localhost:81', 'content-type': 'application/json' } },
  'our name inside another': { headers: { origin: 'http://localhost.elsewhere.example', 'content-type': 'application/json' } },
};

async function attack(spec: RouteSpec, { who, url, body, headers: own }: RouteSample, headers: Headers): Promise<number> {
  const cookie: Headers = who === null ? {} : { cookie: stage.cast.cookie(who) };
  const { 'content-type': contentType = '', ...rest } = headers;
  const answer = await stage.cast.app.inject({
    method: spec.method,
    url,
    ...(body === undefined ? {} : { payload: payloadOf(body) }),
    headers: { ...cookie, ...own, ...rest, ...(body === undefined ? {} : { 'content-type': contentType }) },
  });
  return answer.statusCode;
}

test.each(titled(unsafe))('E8: %s is refused from another site, however it is sent', async (_, spec) => {
  const isTold = spec.body !== undefined || spec.takes !== undefined;
  const sample = sampleOf(spec, stage);
  before = fingerprint(stage.cast.store);
  const found: string[] = [];
  for (const [name, { headers }] of Object.entries(attacks)) {
    // Without a body there is no content type to go by: no form and no picture can send such a method, and a fetch tells its origin.
    if (!isTold && !headers.origin && !headers['sec-fetch-site']) continue;
    const status = await attack(spec, sample, headers);
    if (status !== 403 && status !== 400 && status !== 415) found.push(`${name}: answered ${status}`);
  }
  expect(found).toEqual([]);
  expect(fingerprint(stage.cast.store)).toBe(before);
});

test.each(titled(unsafe))('E8: %s is taken from our own page', async (_, spec) => {
  const sample = sampleOf(spec, stage);
  await prepare(stage, sample);
  const status = await attack(spec, sample, {
    origin: 'http://localhost:80',
    host: 'localhost:80',
    'sec-fetch-site': 'same-origin',
    'content-type': sample.headers?.['content-type'] ?? 'application/json',
  });
  expect(status).toBe(spec.status);
});

test.each(titled(safe))('E8: %s changes nothing, though a picture or a link of another site can ask for it', async (_, spec) => {
  const sample = sampleOf(spec, stage);
  before = fingerprint(stage.cast.store);
  const status = await attack(spec, sample, { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'no-cors' });
  expect(status).toBeLessThan(500);
  expect(fingerprint(stage.cast.store)).toBe(before);
});
