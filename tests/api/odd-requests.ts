/** Requests that nobody would write: random methods, paths, bodies and headers, the same every time. */
import { ROUTES } from '@middenry/contract';
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
