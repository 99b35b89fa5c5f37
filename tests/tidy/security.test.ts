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

/** As long as the secret of a link, and the forms it comes in. */
const SECRET = 'k3J9_-QwErTyUiOpAsDfGhJkLzXcVbNm0123456789_';
const FORMS = [SECRET, `${SECRET}.ics`, `${SECRET}.csv`];
const SECRET_WORD = /token|secret|passw|pin$|otp|credential|session|cookie|signature|hash|(?<!bar)code$|card|key$/i;

/**
 * Parts of an address that could hold a secret by their name or by their shape, and what they are. The first two are the exception
 * that docs/security.md spells out at 14.2.1; nothing else here is a secret.
 */
const IN_ADDRESSES: Readonly<Record<string, string>> = {
  'readCalendar /file': 'a secret: calendar programs can only open an address',
  'readSeasonLink /file': 'a secret: spreadsheets can only open an address',
  'readBinCard /code': 'what is written on a bin, for everybody to read',
  'fillMaterial /id': 'the name of a food in the table of materials',
  'readWhatIf ?food': 'foods and amounts that somebody tries out',
  'putPhoto ?alt': 'what a photo shows, in words; the body is the photo',
};

it('E1, 14.2.1: no part of an address of the API may hold a secret, but those of the written exception', () => {
  const parts = (ROUTES as readonly RouteSpec[]).flatMap(({ name, path, params, query }) => {
    const named = [...path.matchAll(/:(\w+)/g)].map(([, part]) => ({ at: `${name} /${part}`, part: part!, schema: params, said: {} }));
    const shape = (schema: z.ZodType | undefined) => (schema instanceof z.ZodObject ? (schema.shape as Record<string, z.ZodType>) : {});
    const asked = Object.keys(shape(query)).map((part) => ({ at: `${name} ?${part}`, part, schema: query, said: {} }));
    return [...named, ...asked].map(({ at, part, schema }) => ({
      at,
      part,
      takes: (value: string) => shape(schema)[part]?.safeParse(value).success === true,
    }));
  });
  expect(parts.length).toBeGreaterThan(100);
  const suspect = parts.filter(({ part, takes }) => SECRET_WORD.test(part) || FORMS.some(takes)).map(({ at }) => at);
  expect(suspect.sort()).toEqual(Object.keys(IN_ADDRESSES).sort());
});

it('E1, 14.2.1: no page has a secret in its address, but those that turn links of the older form into the new one', () => {
  const files = allFiles.filter(({ path }) => path.startsWith('apps/web/src/routes/'));
  const pages = [...new Set(files.map(({ path }) => path.slice('apps/web/src/routes'.length, path.lastIndexOf('/'))))];
  const parts = [...new Set(pages.flatMap((path) => (/\[(?!id\]|code\])/.test(path) ? [path] : [])))];
  expect(pages.length).toBeGreaterThan(50);
  expect(parts.sort()).toEqual(['/join/[token]', '/look/[token]', '/look/[token]/wall', '/reply/[token]']);
  const asked = allFiles
    .filter(({ path }) => path.startsWith('apps/web/src/') && /\.(ts|svelte)$/.test(path) && !path.endsWith('.test.ts'))
    .flatMap(({ text }) => [...text.matchAll(/(?:searchParams|query)\.(?:get|has|getAll)\(\s*'([^']+)'/g)].map(([, name]) => name!));
  expect(asked.length).toBeGreaterThan(20);
  // The code that is looked for is that of a bin.
  expect([...new Set(asked.filter((name) => SECRET_WORD.test(name)))]).toEqual(['code']);
});

it('C16: the file for the proxy logs none of the addresses that hold a secret, and robots are told of each', () => {
  const [, paths = ''] =
    /location ~ \^\/\(([\w|-]+)\)\/ \{\s+access_log off;\s+error_log \/dev\/null crit;/.exec(readRoot('docs/how-to/nginx-middenry.conf')) ??
    [];
  expect(paths.split('|').sort()).toEqual(['calendar', 'join', 'look', 'reply', 'season-link']);
  const [, carried = ''] = /SECRET_PATH = \/\^\\\/\(([\w|-]+)\)/.exec(readRoot('apps/web/src/service-worker.ts')) ?? [];
  expect(carried).toBe(paths);
  const robots = readRoot('apps/web/static/robots.txt');
  expect(paths.split('|').filter((path) => !robots.includes(`Disallow: /${path}`))).toEqual([]);
});

it('E15: the file for the proxy speaks TLS 1.2 and 1.3 only', () => {
  expect(readRoot('docs/how-to/nginx-middenry.conf').match(/ssl_protocols (.*);/)?.[1]).toBe('TLSv1.2 TLSv1.3');
});
