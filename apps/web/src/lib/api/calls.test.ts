import { classRoutes, eventsRoutes, keepRoutes, RELEASE, RELEASE_HEADER, ROUTES } from '@middenry/contract';
import { describe, expect, it, test } from 'vitest';
import { CALLS as NEAR_CALLS } from './calls.ts';
import { FAR_CALLS } from './far-calls.ts';
import * as pages from './release.ts';

const CALLS = { ...NEAR_CALLS, ...FAR_CALLS };

describe('CALLS', () => {
  const table = new Map(
    [...ROUTES, ...classRoutes, ...keepRoutes, ...eventsRoutes].map((route) => [route.name as string, `${route.method} ${route.path}`]),
  );

  it.each(Object.entries(CALLS))('%s is what the contract says', (name, line) => {
    expect(line).toBe(table.get(name));
  });
});

test('B23: the pages say the release and the header of the contract', () => {
  expect([pages.PAGES_RELEASE, pages.RELEASE_HEADER]).toEqual([RELEASE, RELEASE_HEADER]);
});
