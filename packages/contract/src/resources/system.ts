import * as z from 'zod';
import { everyone, type RouteSpec } from '../route.ts';

export const systemRoutes = [
  {
    method: 'GET',
    path: '/livez',
    name: 'live',
    summary: 'The process answers',
    tag: 'system',
    access: everyone,
    own: 'nothing',
    answer: z.object({ ok: z.literal(true) }),
    status: 200,
  },
  {
    method: 'GET',
    path: '/readyz',
    name: 'ready',
    summary: 'The store answers and can be written',
    tag: 'system',
    access: everyone,
    own: 'nothing',
    answer: z.object({ ok: z.boolean() }),
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/openapi.json',
    name: 'openapi',
    summary: 'This API as OpenAPI 3.1',
    tag: 'system',
    access: everyone,
    own: 'nothing',
    status: 200,
    contentType: 'application/json',
  },
] as const satisfies readonly RouteSpec[];
