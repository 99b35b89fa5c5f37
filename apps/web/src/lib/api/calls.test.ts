import { classRoutes, eventsRoutes, keepRoutes, ROUTES } from '@middenry/contract';
import { describe, expect, it } from 'vitest';
import { CALLS } from './calls.ts';

describe('CALLS', () => {
  const table = new Map(
    [...ROUTES, ...classRoutes, ...keepRoutes, ...eventsRoutes].map((route) => [route.name as string, `${route.method} ${route.path}`]),
  );

  it.each(Object.entries(CALLS))('%s is what the contract says', (name, line) => {
    expect(line).toBe(table.get(name));
  });
});
