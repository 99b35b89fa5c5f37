import type { FieldError, RouteSpec } from '@middenry/contract';
import type { FastifyRequest } from 'fastify';
import type * as z from 'zod';
import { refuse } from '../refusal.ts';

interface Input {
  readonly params: unknown;
  readonly query: unknown;
  readonly body: unknown;
}

/** Checks everything that came in and gives every fault at once, so that a form can show them all. */
export function parseInput(spec: RouteSpec, request: FastifyRequest): Input {
  const params = spec.params?.safeParse(request.params);
  // An id of the wrong shape names nothing, so it looks like any other id that is not there.
  if (params !== undefined && !params.success) throw refuse('not-found');
  const query = spec.query?.safeParse(request.query);
  const body = spec.body?.safeParse(request.body === undefined ? {} : request.body);
  const errors = [...faultsOf('query', query), ...faultsOf('', body)];
  if (errors.length > 0) throw refuse('invalid', { errors });
  return { params: params?.data, query: query?.data, body: body?.data };
}

export function faultsOf(prefix: string, result: z.ZodSafeParseResult<unknown> | undefined): FieldError[] {
  if (result === undefined || result.success) return [];
  return result.error.issues.flatMap((issue) => {
    const path = issue.path.map((part) => String(part).replaceAll('~', '~0').replaceAll('/', '~1'));
    if (issue.code !== 'unrecognized_keys') return [{ pointer: pointerOf(prefix, path), message: issue.message }];
    return issue.keys.map((key) => ({ pointer: pointerOf(prefix, [...path, key]), message: 'is not a field here' }));
  });
}

const pointerOf = (prefix: string, path: readonly string[]): string =>
  prefix === '' ? path.map((part) => `/${part}`).join('') : [prefix, ...path].join('/');
