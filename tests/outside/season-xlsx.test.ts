/** The workbook, opened by a library that did not write it; its sums, and those of JSON and CSV, are the same grams. */
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { type Cell, readXlsx, type Sheet } from 'hucre/xlsx';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { BINS, type Cast, freshId, openCast, SITES } from '../cast.ts';
import { formulaPayloads } from './payloads.ts';

const PROGRAMMES = 3;
const DAYS_EACH = 28;
const CODES = Object.values(BINS);
let cast: Cast;

const day = (programme: number, offset: number): string =>
  new Date(Date.UTC(2026, 6, 1 + programme * DAYS_EACH + offset, 10)).toISOString();
const spanOf = (programme: number): string => `from=${day(programme, 0).slice(0, 10)}&to=${day(programme, DAYS_EACH - 1).slice(0, 10)}`;

async function make(path: string, body: object): Promise<void> {
  const answer = await cast.call('owner', 'POST', path, { id: freshId(), ...body });
  if (answer.status >= 300) throw new Error(`${path}: ${answer.text}`);
}

const entries = fc.array(
  fc.record({
    bin: fc.constantFrom(...CODES),
    offset: fc.integer({ min: 0, max: DAYS_EACH - 1 }),
    grams: fc.integer({ min: 1, max: 60_000 }),
    beddingG: fc.integer({ min: 0, max: 5_000 }),
    how: fc.constantFrom('weighed', 'container', 'guessed'),
    isHarvest: fc.boolean(),
  }),
  { minLength: 12, maxLength: 18 },
);

async function keep(programme: number): Promise<void> {
  for (const each of fc.sample(entries, { seed: 80 + programme, numRuns: 1 })[0]!) {
    const { bin: binId, how, grams, beddingG } = each;
    const at = { binId, happenedAt: day(programme, each.offset) };
    if (each.isHarvest) await make('/api/harvests', { ...at, massKg: grams / 1000, how, destination: 'beds' });
    else
      await make('/api/feedings', {
        ...{ ...at, zone: 1, beddingKg: beddingG / 1000 },
        items: [{ materialId: 'apple', massKg: grams / 1000, how }],
      });
  }
  const localDate = day(programme, 3).slice(0, 10);
  await make('/api/shifts', { siteId: SITES.meadow, title: 'Round', localDate, localTime: '09:00', minutes: 47, places: 3 });
}

beforeAll(async () => {
  cast = await openCast();
  for (let programme = 0; programme < PROGRAMMES; programme += 1) await keep(programme);
});
afterAll(() => cast.close());

async function openWorkbook(span: string): Promise<{ readonly sheets: Map<string, Sheet>; readonly bytes: Buffer }> {
  const answer = await cast.app.inject({ url: `/api/season.xlsx?${span}`, headers: { cookie: cast.cookie('owner') } });
  expect([answer.statusCode, answer.headers['content-type']]).toEqual([
    ...[200, 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet'],
  ]);
  const { sheets } = await readXlsx(answer.rawPayload);
  return { sheets: new Map(sheets.map((each) => [each.name, each])), bytes: answer.rawPayload };
}

const SIZES = { kg: 1000, lb: 453.59237, litres: 1000, 'US gallons': 3785.411784, hours: 60 } as const;
/** A column in whole grams, millilitres, minutes or counts again. */
function column(sheet: Sheet, at: number): number[] {
  const unit = /, ([^,]+)$/.exec(String(sheet.rows[0]![at]))?.[1] as keyof typeof SIZES | undefined;
  const size = unit === undefined ? 1 : SIZES[unit];
  return sheet.rows.slice(1).map((row) => {
    const stored = Number(row[at]) * size;
    expect(Math.abs(stored - Math.round(stored))).toBeLessThan(1e-6);
    return Math.round(stored);
  });
}

describe.each(['metric', 'us'])('D3: over random programmes, units %s', (units) => {
  beforeAll(async () => {
    expect((await cast.call('owner', 'PATCH', '/api/programme', { units })).status).toBe(200);
  });

  test.each([...Array(PROGRAMMES).keys()])(
    'programme %i has the same grams in JSON, CSV and XLSX, and rows that add up',
    async (programme) => {
      const span = spanOf(programme);
      const { total } = (await cast.call('owner', 'GET', `/api/season?${span}`)).body as { total: Record<string, number> };
      const { text } = await cast.call('owner', 'GET', `/api/season.csv?${span}&profile=data`);
      const { sheets } = await openWorkbook(span);
      expect(total.harvestedG! + total.fedWeighedG!).toBeGreaterThan(0);
      const ofCsv = Object.values((parse(text, { columns: true }) as Record<string, string>[]).at(-1)!).slice(5);
      expect(ofCsv.map(Number)).toEqual(Object.values(total));
      for (const name of ['Sites', 'Bins', 'Months'])
        for (const [at, value] of Object.values(total).entries()) {
          const cells = column(sheets.get(name)!, at + 1);
          const sum = cells.slice(0, -1).reduce((all, cell) => all + cell, 0);
          expect([name, at, cells.at(-1), sum]).toEqual([name, at, value, value]);
        }
      const materials = sheets.get('Materials')!;
      const sums = [1, 2, 3].map((at) => column(materials, at).reduce((all, cell) => all + cell, 0));
      expect(sums).toEqual([total.fedWeighedG, total.fedEstimatedG, total.beddingG]);
    },
  );
});

const cellsOf = (sheets: Map<string, Sheet>): Cell[] => [...sheets.values()].flatMap((each) => [...(each.cells?.values() ?? [])]);

test('D9: typed cells, true dates, a head that stays in sight, small', async () => {
  const { sheets, bytes } = await openWorkbook(spanOf(0));
  const tables = ['Season', 'Sites', 'Bins', 'Months', 'Materials', 'Castings', 'Problems', 'Given out', 'Store', 'Expected'];
  expect([...sheets.keys()]).toEqual(tables);
  expect(sheets.get('Season')!.rows[1]!.slice(1)).toEqual([new Date('2026-07-01T00:00:00Z'), new Date('2025-07-01T00:00:00Z')]);
  expect(sheets.get('Months')!.rows[1]![0]).toEqual(new Date('2026-07-01T00:00:00Z'));
  for (const each of sheets.values()) expect([each.name, each.freezePane?.rows]).toEqual([each.name, 1]);
  expect(bytes.length).toBeLessThan(40_000);
});

test('D8: no name becomes a formula, and each is there', async () => {
  for (const name of formulaPayloads) {
    await cast.call('owner', 'PATCH', `/api/bins/${BINS.tote}`, { name });
    const { sheets } = await openWorkbook(spanOf(0));
    // The reader keeps details of a cell only where there are any, such as a formula.
    expect(cellsOf(sheets).filter((cell) => cell.formula !== undefined)).toEqual([]);
    const named = sheets
      .get('Bins')!
      .rows.map((row) => String(row[0]))
      .find((label) => label.startsWith('T1 '))!;
    expect(named.length).toBeGreaterThanOrEqual('T1 '.length + name.trim().length);
  }
});
