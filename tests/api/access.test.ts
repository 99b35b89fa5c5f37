import { ROUTES, type RouteName, type RouteSpec } from '@middenry/contract';
import { afterAll, beforeAll, describe, expect, it, test } from 'vitest';
import { type Answer, PASSWORD, type PersonKey } from '../cast.ts';
import { headerFaults } from './access/headers.ts';
import { matrix } from './access/matrix.ts';
import { prepare, type Sample } from './hostile/sample.ts';
import { samples } from './hostile/samples.ts';
import { fingerprint, openStage, type Stage, stagesOf } from './hostile/stage.ts';

const routes: readonly RouteSpec[] = ROUTES;
/** In the order of the matrix's columns; nobody first. */
const columns = [null, 'pupil', 'volunteer', 'siteLead', 'coordinator'] as const satisfies readonly (PersonKey | null)[];
const roles = ['anonymous', 'pupil', 'volunteer', 'site-lead', 'coordinator'] as const;

let stage: Stage;
const stages = stagesOf(async () => {
  const opened = await openStage();
  const nell = { id: '0192f000-0000-7000-8000-00000000abcd', name: 'Nell Ashby', role: 'coordinator', email: 'nell@example.org' };
  await opened.cast.call('owner', 'POST', '/api/people', { ...nell, password: PASSWORD });
  return opened;
});
const open = async () => {
  stage = await stages.next();
};
afterAll(() => stages.close());

const send = (spec: RouteSpec, who: PersonKey | null, { url, body, headers }: Sample): Promise<Answer> =>
  stage.cast.call(who, spec.method, url, body, headers);
const sampleOf = (spec: RouteSpec) => samples[spec.name as RouteName](stage);

/** Two answers that must look alike, without what is new in every answer. */
const lookOf = ({ status, body }: Answer) => ({ status, body: { ...body, requestId: '' } });

describe('the matrix', () => {
  test('names every route of the table and no other', () => {
    expect(Object.keys(matrix).sort()).toEqual(routes.map(({ name }) => name).sort());
  });

  test.each(routes.map((spec) => [spec.name, spec] as const))('%s says in the table what it says here', (name, spec) => {
    expect(roles.map((role) => spec.access[role])).toEqual(matrix[name as RouteName]);
  });
});

describe('a route that nobody thought of', () => {
  beforeAll(open);

  it('is not there, whoever asks', async () => {
    const answers = await Promise.all(columns.map((who) => stage.cast.call(who, 'GET', '/api/everything')));
    expect(answers.map(({ status }) => status)).toEqual(columns.map(() => 404));
  });

  it('is registered by Fastify only when the table has it', () => {
    const known = routes.map(({ method, path }) => `${method} ${path}`);
    expect(stage.cast.app.middenry.registered.filter((line) => !known.includes(line))).toEqual([]);
    expect(known.filter((line) => !stage.cast.app.middenry.registered.includes(line))).toEqual([]);
  });
});

describe.each(routes.map((spec) => [`${spec.method} ${spec.path}`, spec] as const))('%s', (_title, spec) => {
  // One stage for the four: the first three change nothing, and say so.
  beforeAll(open);

  it('E10: keeps out who may not, and changes nothing for them', async () => {
    const before = fingerprint(stage.cast.store);
    const row = matrix[spec.name as RouteName];
    const outsiders = columns.filter((_who, at) => row[at] === 'none');
    const answers = await Promise.all(outsiders.map((who) => send(spec, who, sampleOf(spec))));
    expect(answers.map(({ status }) => status)).toEqual(outsiders.map((who) => (who === null ? 401 : 403)));
    expect(fingerprint(stage.cast.store)).toBe(before);
  });

  it('lets nobody in whose account is disabled', async () => {
    const before = fingerprint(stage.cast.store);
    const answer = await send(spec, 'disabled', sampleOf(spec));
    const asNobody = spec.access.anonymous === 'any';
    expect([answer.status, answer.body?.code === 'not-signed-in']).toEqual(asNobody ? [answer.status, false] : [401, true]);
    expect(asNobody || fingerprint(stage.cast.store) === before).toBe(true);
  });

  it('E11: shows what is not theirs as if it were not there', async () => {
    const before = fingerprint(stage.cast.store);
    const foreign = sampleOf(spec).notTheirs ?? [];
    const knowsOwn = matrix[spec.name as RouteName].includes('own') && spec.own !== 'nothing';
    expect(foreign.length > 0).toBe(knowsOwn);
    for (const sample of foreign) {
      const answer = await send(spec, sample.who, sample);
      const missing = await stage.cast.call(sample.who, 'GET', '/api/bins/0192f000-0000-7000-8000-0000000fffff');
      expect(lookOf(answer)).toEqual(lookOf(missing));
    }
    expect(fingerprint(stage.cast.store)).toBe(before);
  });

  it('E9: answers a coordinator, with every header that an answer must have and none that tells too much', async () => {
    const sample = sampleOf(spec);
    await prepare(stage, sample, 'coordinator');
    const answer = await send(spec, 'coordinator', sample);
    expect([answer.status, answer.text]).toEqual([spec.status, answer.text]);
    expect(headerFaults(answer.headers, answer.text !== '')).toEqual([]);
  });
});
