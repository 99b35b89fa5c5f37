/** The sheet of ASVS 5.0, first level (criteria E1), and what it says of pages and the proxy's file. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { ROUTES, type RouteSpec } from '@middenry/contract';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { root } from '../../scripts/lib.mjs';
import { allFiles, readRoot } from './rule.ts';

/** Ids of the first level by section, as "section: how many of them, from which on". */
const LEVEL_1 = {
  '1.2': [1, 2, 3, 4, 5],
  '1.3': [1, 2],
  '1.5': [1],
  '2.1': [1],
  '2.2': [1, 2],
  '2.3': [1],
  '3.2': [1, 2],
  '3.3': [1],
  '3.4': [1, 2],
  '3.5': [1, 2, 3],
  '4.1': [1],
  '4.4': [1],
  '5.2': [1, 2],
  '5.3': [1, 2],
  '6.1': [1],
  '6.2': [1, 2, 3, 4, 5, 6, 7, 8],
  '6.3': [1, 2],
  '6.4': [1, 2],
  '7.2': [1, 2, 3, 4],
  '7.4': [1, 2],
  '8.1': [1],
  '8.2': [1, 2],
  '8.3': [1],
  '9.1': [1, 2, 3],
  '9.2': [1],
  '10.4': [1, 2, 3, 4, 5],
  '11.3': [1, 2],
  '11.4': [1],
  '12.1': [1],
  '12.2': [1, 2],
  '13.4': [1],
  '14.2': [1],
  '14.3': [1],
  '15.1': [1],
  '15.2': [1],
  '15.3': [1],
} as const;
const ids = Object.entries(LEVEL_1).flatMap(([section, numbers]) => numbers.map((number) => `${section}.${number}`));

const rows = readRoot('docs/security.md')
  .split('\n')
  .map((line) => line.split('|').map((cell) => cell.trim()))
  .filter((cells) => /^\d+\.\d+\.\d+$/.test(cells[1] ?? ''))
  .map(([, id = '', asks = '', here = '', shown = '']) => ({ id, asks, here, shown }));
const linked = (shown: string) => [...shown.matchAll(/\]\(\.\.\/([^)#]+)\)/g)].map(([, path]) => path!);

describe('docs/security.md', () => {
  it('E1: has each of the seventy rows of the first level once', () => {
    expect(ids).toHaveLength(70);
    expect(rows.map(({ id }) => id)).toEqual(ids);
  });

  it('E1: says of each what it asks, whether it holds, and why where it does not', () => {
    const unclear = rows.filter(({ asks, here }) => asks.length < 15 || !/^(passes|does not apply[,:]? .{5,}|fails, .{40,})/.test(here));
    expect(unclear).toEqual([]);
  });

  it('E1: names for each a test, or a rule that is one, that exists', () => {
    const isTest = (path: string) => /\.(test|proof)\.ts$|^tests\/(tidy\/rules|api\/access)\//.test(path);
    const without = rows.filter(({ shown }) => !linked(shown).some((path) => isTest(path)));
    const missing = rows.flatMap(({ id, shown }) =>
      linked(shown)
        .filter((path) => !existsSync(join(root, path)))
        .map((path) => `${id}: ${path}`),
    );
    expect([without.map(({ id }) => id), missing]).toEqual([[], []]);
  });
});

it('E2: every field for a password hides it, says which it is, and lets it be pasted', () => {
  const pages = allFiles.filter(({ path }) => path.startsWith('apps/web/src/') && path.endsWith('.svelte'));
  const fields = pages.flatMap(({ path, text }) =>
    [...text.matchAll(/<(?:input|Field)\b(?:[^>{]|\{[^}]*\})*>/g)]
      .map(([field]) => ({ path, field }))
      .filter(({ field }) => /password/i.test(field)),
  );
  expect(fields.length).toBeGreaterThanOrEqual(5);
  const wrong = fields.filter(({ field }) => !field.includes('type="password"') || !/autocomplete="(new|current)-password"/.test(field));
  expect(wrong).toEqual([]);
  expect(pages.filter(({ text }) => /onpaste|on:paste/.test(text)).map(({ path }) => path)).toEqual([]);
});

/** Names and forms of everything that a caller may send. */
function fieldsOf(schema: unknown): { name: string; format: string }[] {
  if (typeof schema !== 'object' || schema === null) return [];
  const { properties = {} } = schema as { properties?: Record<string, { format?: string }> };
  const own = Object.entries(properties).map(([name, { format = '' }]) => ({ name, format }));
  return [...own, ...Object.values(schema).flatMap(fieldsOf)];
}

it('E21: no request can name another machine: no field takes an address to connect to', () => {
  const shapes = (ROUTES as readonly RouteSpec[]).flatMap(({ body, query, params }) =>
    [body, query, params].filter((one) => one !== undefined),
  );
  const fields = shapes.flatMap((shape) => fieldsOf(z.toJSONSchema(shape, { io: 'input', unrepresentable: 'any' })));
  expect(fields.length).toBeGreaterThan(200);
  expect(
    fields.filter(({ name, format }) => /^(uri|url|iri|hostname|ip)/.test(format) || /url|uri|host|server|endpoint|webhook/i.test(name)),
  ).toEqual([]);
});

it('E15: the file for the proxy speaks TLS 1.2 and 1.3 only', () => {
  expect(readRoot('docs/how-to/nginx-middenry.conf').match(/ssl_protocols (.*);/)?.[1]).toBe('TLSv1.2 TLSv1.3');
});
