import { ROUTES, type RouteSpec } from '@middenry/contract';
import { Validator } from '@seriousme/openapi-schema-validator';
import { Ajv2020 } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { prepare } from '../api/hostile/sample.ts';
import { samples } from '../api/hostile/samples.ts';
import { openStage, type Stage } from '../api/hostile/stage.ts';

interface Operation {
  readonly operationId: string;
  readonly parameters?: readonly { readonly name: string; readonly in: string; readonly required?: boolean }[];
  readonly requestBody?: unknown;
  readonly responses: Readonly<Record<string, { readonly content?: Readonly<Record<string, { readonly schema: object }>> }>>;
}

interface OpenApi {
  readonly openapi: string;
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: object;
}

const routes: readonly RouteSpec[] = ROUTES;
const titled = routes.map((spec) => [`${spec.method} ${spec.path}`, spec] as const);

let stage: Stage;
let text: string;
let document: OpenApi;
beforeAll(async () => {
  stage = await openStage();
  text = (await stage.cast.call(null, 'GET', '/api/openapi.json')).text;
  document = JSON.parse(text);
});
afterAll(() => stage.cast.close());

const operationOf = ({ method, path }: RouteSpec): Operation | undefined =>
  document.paths[path.replace(/:(\w+)/g, '{$1}')]?.[method.toLowerCase()];

describe('the OpenAPI document, by a general validator', () => {
  test('is valid OpenAPI 3.1', async () => {
    const validator = new Validator();
    const { valid, errors } = await validator.validate(text);
    expect(errors ?? []).toEqual([]);
    expect(valid).toBe(true);
    expect(validator.version).toBe('3.1');
  });

  test.each([
    ['no title', (broken: OpenApi) => ({ ...broken, info: {} })],
    [
      'a parameter without a place',
      (broken: OpenApi) => ({ ...broken, paths: { '/api/x/{id}': { get: { parameters: [{ name: 'id' }], responses: {} } } } }),
    ],
    ['an unknown version', (broken: OpenApi) => ({ ...broken, openapi: '9.9' })],
  ])('would be refused with %s', async (_, spoil) => {
    expect((await new Validator().validate(JSON.stringify(spoil(document)))).valid).toBe(false);
  });
});

test('the document holds every route once and nothing else', () => {
  const told = Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.keys(methods).map((method) => `${method.toUpperCase()} ${path}`),
  );
  expect(told.sort()).toEqual(routes.map(({ method, path }) => `${method} ${path.replace(/:(\w+)/g, '{$1}')}`).sort());
  const ids = Object.values(document.paths).flatMap((methods) => Object.values(methods).map(({ operationId }) => operationId));
  expect(new Set(ids).size).toBe(routes.length);
});

test.each(titled)('%s tells its path, its body and its problems', (_, spec) => {
  const operation = operationOf(spec);
  const inPath = (operation?.parameters ?? []).filter((parameter) => parameter.in === 'path' && parameter.required).map(({ name }) => name);
  expect(inPath.sort()).toEqual([...spec.path.matchAll(/:(\w+)/g)].map(([, name]) => name).sort());
  expect(operation?.requestBody !== undefined).toBe(spec.body !== undefined || spec.takes !== undefined);
  expect(Object.keys(operation?.responses.default?.content ?? {})).toEqual(['application/problem+json']);
});

const answering = titled.filter(([, spec]) => spec.answer && spec.method === 'GET');

test.each(answering)('%s answers as the document says, by a general JSON Schema validator', async (_, spec) => {
  const ajv = new Ajv2020({ strict: false, allErrors: true });
  addFormats.default(ajv);
  ajv.addSchema({ $id: 'https://middenry.example/openapi', components: document.components });
  const schema = operationOf(spec)?.responses[String(spec.status)]?.content?.['application/json']?.schema ?? false;
  const sample = samples[spec.name as keyof typeof samples](stage);
  await prepare(stage, sample);
  const { who, url } = sample;
  const { body, status } = await stage.cast.call(who, 'GET', url);
  expect(status).toBe(spec.status);
  const holds = ajv.compile(schema);
  holds(body);
  expect(holds.errors ?? []).toEqual([]);
  expect(ajv.compile(schema)('no object')).toBe(false);
});
