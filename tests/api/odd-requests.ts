/** Requests that nobody would write: random methods, paths, bodies and headers, the same every time. */
import { ROUTES, type RouteSpec } from '@middenry/contract';
import fc from 'fast-check';

export interface OddRequest<Who> {
  readonly who: Who;
  readonly method: string;
  readonly url: string;
  readonly body: unknown;
}

// The event stream never ends by itself; it has its own tests.
const paths = ROUTES.map(({ path }) => path).filter((path) => path !== '/api/events');
const filled = fc
  .tuple(fc.constantFrom(...paths), fc.oneof(fc.uuid(), fc.string({ maxLength: 40 })))
  .map(([path, value]) => path.replace(/:\w+/g, encodeURIComponent(value)));

export function oddRequests<Who>(whose: readonly Who[], count: number): readonly OddRequest<Who>[] {
  const request = fc.record({
    who: fc.constantFrom(...whose),
    method: fc.constantFrom('GET', 'POST', 'PUT', 'PATCH', 'DELETE'),
    url: fc.tuple(filled, fc.option(fc.webQueryParameters(), { nil: '' })).map(([path, query]) => (query ? `${path}?${query}` : path)),
    body: fc.option(fc.jsonValue({ maxDepth: 6 }), { nil: undefined }),
  });
  return fc.sample(request, { numRuns: count, seed: 20261125 });
}

const routes: readonly RouteSpec[] = ROUTES;

/** As many odd requests to every row of the route list, by its own method, half of them with ids that could be. */
export function oddRequestsToEach<Who>(whose: readonly Who[], perRow: number): readonly (OddRequest<Who> & { readonly row: string })[] {
  const who = fc.constantFrom(...whose);
  const value = fc.oneof(fc.uuid(), fc.uuid({ version: 7 }), fc.string({ minLength: 1, maxLength: 40 }));
  const query = fc.option(fc.webQueryParameters(), { nil: '' });
  const body = fc.jsonValue({ maxDepth: 4 });
  return routes
    .filter(({ path }) => path !== '/api/events')
    .flatMap(({ name, method, path }, at) =>
      fc.sample(fc.record({ who, value, query, body }), { numRuns: perRow, seed: 20261126 + at }).map(({ who, value, query, body }) => ({
        ...{ row: name, who, method },
        url: path.replace(/:\w+/g, encodeURIComponent(value)) + (query ? `?${query}` : ''),
        body: method === 'GET' ? undefined : body,
      })),
    );
}

/** What a stranger could learn of how it is made: a stack, SQL, a path of this machine, a version. */
const INSIDES = [
  /\bat \S+ \(|\.(ts|mjs|js):\d|node_modules/,
  /SQLITE|sqlite|\b(select|insert|update|delete)\b.{1,40}\b(from|into|set|where)\b/i,
  /\/(work|home|root|tmp|usr|var|opt)\/\w|file:\/\//,
  /fastify|better-sqlite|zod|\bnode(\.js)?[ /]v?\d|middenry[ /]v?\d/i,
] as const;

export const insidesIn = (text: string): string[] => INSIDES.flatMap((pattern) => pattern.exec(text)?.[0] ?? []);
