import { Problem, ROUTES, type RouteSpec } from '@middenry/contract';
import * as z from 'zod';

type Json = Record<string, unknown>;
type Io = 'input' | 'output';

let text: string | undefined;

/** The API as an OpenAPI 3.1 document, made from the route table once. */
export function openapiText(): string {
  text ??= JSON.stringify(openapiOf(ROUTES), null, 2);
  return text;
}

export function openapiOf(routes: readonly RouteSpec[]): Json {
  const paths: Record<string, Json> = {};
  for (const spec of routes) {
    const path = spec.path.replace(/:(\w+)/g, '{$1}');
    paths[path] = { ...paths[path], [spec.method.toLowerCase()]: operationOf(spec) };
  }
  return {
    openapi: '3.1.1',
    info: {
      title: 'Middenry',
      version: '1',
      description: 'Worm bins kept together. Masses are kilograms, instants UTC, days local dates of the site.',
    },
    servers: [{ url: '/' }],
    tags: [...new Set(routes.map(({ tag }) => tag))].map((name) => ({ name })),
    paths,
    components: {
      schemas: { Problem: schemaOf(Problem, 'output') },
      securitySchemes: { session: { type: 'apiKey', in: 'cookie', name: 'middenry' } },
    },
  };
}

function operationOf(spec: RouteSpec): Json {
  return {
    operationId: spec.name,
    summary: spec.summary,
    tags: [spec.tag],
    ...(spec.access.anonymous === 'none' ? { security: [{ session: [] }] } : { security: [] }),
    parameters: [...parametersOf(spec.params, 'path'), ...parametersOf(spec.query, 'query')],
    ...(spec.body === undefined ? {} : { requestBody: { required: true, content: jsonOf(schemaOf(spec.body, 'input')) } }),
    ...(spec.takes === undefined ? {} : { requestBody: { required: true, content: pictures } }),
    responses: { [spec.status]: answerOf(spec), default: problemAnswer },
  };
}

const jsonOf = (schema: Json): Json => ({ 'application/json': { schema } });
const pictures: Json = { 'image/jpeg': {}, 'image/png': {}, 'image/webp': {} };
const problemAnswer: Json = {
  description: 'What went wrong, by RFC 9457',
  content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
};

function answerOf(spec: RouteSpec): Json {
  if (spec.status === 204) return { description: 'Done' };
  if (spec.answer !== undefined) return { description: spec.summary, content: jsonOf(schemaOf(spec.answer, 'output')) };
  const type = spec.contentType ?? 'application/json';
  return {
    description: spec.summary,
    content: { [type]: { schema: { type: type.startsWith('application/json') ? 'object' : 'string' } } },
  };
}

function parametersOf(schema: z.ZodType | undefined, place: 'path' | 'query'): Json[] {
  if (schema === undefined) return [];
  const { properties = {}, required = [] } = schemaOf(schema, 'input') as { properties?: Record<string, Json>; required?: string[] };
  return Object.entries(properties).map(([name, inner]) => ({
    name,
    in: place,
    required: place === 'path' || required.includes(name),
    ...(typeof inner.description === 'string' ? { description: inner.description } : {}),
    schema: inner,
  }));
}

function schemaOf(schema: z.ZodType, io: Io): Json {
  const { $schema: _dialect, ...rest } = z.toJSONSchema(schema, { io, target: 'draft-2020-12', unrepresentable: 'any' });
  return rest as Json;
}
