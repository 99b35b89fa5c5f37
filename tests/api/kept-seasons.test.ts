/** Reports that were published before something was counted (criteria D14, D4). */
import { KeptSeason, Season } from '@middenry/contract';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import * as z from 'zod';
import { BINS, type Cast, freshId, openCast } from '../cast.ts';
import { readPdf } from './read-pdf.ts';

const NOT_COUNTED = 'not counted then';
const SPAN = { from: '2026-09-01', to: '2026-11-30' };
let cast: Cast;
let body: Record<string, unknown>;
beforeAll(async () => {
  cast = await openCast({ at: '2026-11-25T10:00:00.000Z' });
  const at = (happenedAt: string, part: object) => ({ id: freshId(), binId: BINS.tote, happenedAt, ...part });
  const items = [{ materialId: 'apple', massKg: 1.5, how: 'weighed' }];
  for (const [url, entry] of [
    ['/api/feedings', at('2026-09-20T10:00:00Z', { zone: 1, items, beddingKg: 0.5, beddingMaterialId: 'coir' })],
    ['/api/harvests', at('2026-10-01T10:00:00Z', { massKg: 2, destination: 'beds' })],
    ['/api/harvests', at('2026-10-02T10:00:00Z', { massKg: 1, destination: 'sale' })],
    ['/api/checks', at('2026-09-03T10:00:00Z', { smell: 'sour' })],
  ] as const)
    expect((await cast.call('coordinator', 'POST', url, entry)).status).toBe(201);
  body = (await cast.call('coordinator', 'GET', `/api/season?from=${SPAN.from}&to=${SPAN.to}`)).body;
});
afterAll(() => cast.close());

type Path = readonly string[];
/** `*`: of every row of a list. */
function pathsOf(schema: z.ZodType, wanted: (schema: z.ZodType) => boolean, at: Path = []): Path[] {
  const here = wanted(schema) && at.length > 0 ? [at] : [];
  if (schema instanceof z.ZodNullable) return [...here, ...pathsOf(schema.unwrap() as z.ZodType, wanted, at)];
  if (schema instanceof z.ZodArray) return [...here, ...pathsOf(schema.element as z.ZodType, wanted, [...at, '*'])];
  if (!(schema instanceof z.ZodObject)) return here;
  const parts = Object.entries(schema.shape as Record<string, z.ZodType>);
  return [...here, ...parts.flatMap(([key, part]) => pathsOf(part, wanted, [...at, key]))];
}

const BRANCHES = [z.ZodNullable, z.ZodArray, z.ZodObject, z.ZodNumber] as const;
const isText = (schema: z.ZodType) => !BRANCHES.some((one) => schema instanceof one);

/** Whose null says something else, and which every report has held from the first one on. */
const SAYS_ITSELF = ['young', 'daysToSolveMedian', 'daysToSolveLongest', 'climate'];
const KEPT = KeptSeason as unknown as z.ZodType;
const mayLack = () =>
  pathsOf(KEPT, (schema) => schema instanceof z.ZodNullable)
    .filter((path) => path[0] !== 'climate' || path.length === 1)
    .filter((path) => !SAYS_ITSELF.includes(path.at(-1)!));

function without(value: unknown, [key, ...rest]: Path): unknown {
  if (key === undefined || value === null || value === undefined) return value;
  if (key === '*') return (value as unknown[]).map((row) => without(row, rest));
  const { [key]: part, ...others } = value as Record<string, unknown>;
  return rest.length === 0 ? others : { ...others, [key]: without(part, rest) };
}

const at = (value: unknown, path: Path): unknown[] =>
  path.reduce<unknown[]>(
    (found, key) =>
      found.flatMap((one) =>
        one === null || one === undefined ? [] : key === '*' ? (one as unknown[]) : [(one as Record<string, unknown>)[key]],
      ),
    [value],
  );

/** As an older release kept it. */
function publishOlder(older: unknown): string {
  const id = freshId();
  cast.store
    .sql(
      'INSERT INTO published_season (id, site_id, name, from_date, to_date, body, texts, published_at) VALUES (?, NULL, ?, ?, ?, ?, ?, ?)',
    )
    .run(id, 'Older', SPAN.from, SPAN.to, JSON.stringify(older), '{}', '2026-11-24T10:00:00.000Z');
  return id;
}

async function everyForm(id: string) {
  const url = `/api/published-seasons/${id}`;
  const ask = (path: string) => cast.call('coordinator', 'GET', url + path);
  const answers = await Promise.all(
    ['', '/report.csv?profile=data', '/report.csv', '/report.xlsx', '/report.pdf', '/report.pdf?language=es'].map(ask),
  );
  expect(answers.map(({ status }) => status)).toEqual([200, 200, 200, 200, 200, 200]);
  return { json: answers[0]!.body.season as unknown, csv: answers[1]!.text, changed: answers[0]!.body.changed as unknown[] };
}

describe('D14: a report that was published before something was counted', () => {
  test('is served in every form whatever it lacks; what it lacks is null and never 0, and the rest is as it was published', async () => {
    const paths = mayLack();
    expect(paths.length).toBeGreaterThan(100);
    await fc.assert(
      fc.asyncProperty(fc.subarray(paths, { minLength: 1 }), async (lacking) => {
        const older = lacking.reduce<unknown>(without, body);
        const { json, changed } = await everyForm(publishOlder(older));
        for (const path of lacking) expect([path, at(json, path).filter((value) => value !== null)]).toEqual([path, []]);
        // Taken out of both, nothing else differs.
        expect(lacking.reduce<unknown>(without, json)).toEqual(older);
        expect(changed).toEqual([]);
      }),
      { numRuns: 12, seed: 20_261_126 },
    );
  }, 120_000);

  test.each(['harvestedG', 'fedEstimatedG', 'minutes'])('without %s every file says that it was not counted then', async (column) => {
    const lacking = ['total', 'bySite.*.figures', 'byBin.*.figures', 'byMonth.*.figures', 'before.total'].map((part) => [
      ...part.split('.'),
      column,
    ]);
    const id = publishOlder(lacking.reduce<unknown>(without, body));
    const { csv } = await everyForm(id);
    const heading = { harvestedG: 'harvested_g', fedEstimatedG: 'fed_estimated_g', minutes: 'minutes_given' }[column];
    const rows = (parse(csv) as string[][]).filter(
      ([section, , figure]) => figure === heading && !['material', 'harvest-went', 'store'].includes(section!),
    );
    expect(rows.length).toBeGreaterThan(3);
    expect(rows.map(([, , , value]) => value)).toEqual(rows.map(() => NOT_COUNTED));
    for (const [language, said] of [
      ['en', NOT_COUNTED],
      ['es', 'entonces no se contaba'],
    ] as const) {
      const url = `/api/published-seasons/${id}/report.pdf?language=${language}`;
      const pdf = await cast.app.inject({ method: 'GET', url, headers: { cookie: cast.cookie('coordinator') } });
      expect(JSON.stringify((await readPdf(pdf.rawPayload)).tags)).toContain(said);
    }
  });
});

test('D14: whatever a report must hold it has held from the first one on: anything newer may be lacking, or an older one could not be opened', () => {
  const texts = pathsOf(KEPT, isText).filter(([part]) => part !== 'climate');
  const lists = pathsOf(KEPT, (schema) => schema instanceof z.ZodArray);
  // One that comes later is `.nullable()` in the contract, and whoever shows it says `not counted then`.
  expect(texts.map((path) => path.join('.'))).toEqual([
    'from',
    'to',
    ...['bySite', 'byBin', 'byMonth', 'byMaterial'].flatMap((part) => [`${part}.*.key`, `${part}.*.label`]),
    'destinations.*.destination',
    'castings.givenOut.*.destination',
    'castings.expected.bySite.*.key',
    'castings.expected.bySite.*.label',
    'problems.byKind.*.problem',
    'before.from',
    'before.to',
    'before.problems.byKind.*.problem',
  ]);
  expect(lists.map((path) => path.join('.'))).toEqual([
    ...['bySite', 'byBin', 'byMonth', 'byMaterial', 'destinations'],
    ...['castings.givenOut', 'castings.expected.bySite', 'problems.byKind', 'before.problems.byKind'],
  ]);
  // Whatever of the season may be null today says something by it, and nothing may begin to.
  const rates = ['yieldFrac', 'weighedFrac', 'estimatedFrac', 'moistureNotedFrac', 'givenFrac', 'fedPerHourG'];
  const solved = ['daysToSolveMedian', 'daysToSolveLongest'];
  const own = pathsOf(Season, (schema) => schema instanceof z.ZodNullable).filter(([part]) => part !== 'climate');
  expect(own.map((path) => path.join('.')).sort()).toEqual(
    [
      ...['rates', 'bySite.*.rates', 'byBin.*.rates', 'byMonth.*.rates'].flatMap((part) => rates.map((rate) => `${part}.${rate}`)),
      ...['problems', 'problems.byKind.*', 'before.problems', 'before.problems.byKind.*'].flatMap((part) =>
        solved.map((days) => `${part}.${days}`),
      ),
      ...['castings', 'castings.expected', 'people.young', 'before.people.young'],
    ].sort(),
  );
});
