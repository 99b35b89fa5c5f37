/** Our files as a general spreadsheet program opens them (criteria D7 to D9). It must be on the machine: nothing is skipped. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { SEASON_COLUMN_IDS } from '@middenry/domain';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { csvText } from '../../apps/api/src/services/csv.ts';
import { BINS, type Cast, freshId, openCast, SITES } from '../cast.ts';
import { formulaPayloads } from './payloads.ts';
import { cellsOf, csvFilter, soffice } from './soffice.ts';

const QUERY = 'from=2026-01-01&to=2026-12-31';
const FACTOR_TEXTS = ['name', 'edition', 'region', 'basis', 'source'] as const;
const SEPARATORS = [',', ';', '\t'] as const;
let cast: Cast;
let dir: string;
const csvFiles: string[] = [];
const workbooks: string[] = [];

async function make(method: 'POST' | 'PUT', path: string, body: object): Promise<void> {
  const answer = await cast.call('owner', method, path, method === 'POST' ? { id: freshId(), ...body } : body);
  if (answer.status >= 300) throw new Error(`${path}: ${answer.text}`);
}

async function keep(url: string, name: string, list: string[]): Promise<void> {
  const answer = await cast.app.inject({ url, headers: { cookie: cast.cookie('owner') } });
  expect([url, answer.statusCode]).toEqual([url, 200]);
  const file = join(dir, name);
  writeFileSync(file, answer.rawPayload);
  list.push(file);
}

/** A site, a bin and a material of that name, each with something in the report. */
async function named(name: string, index: number): Promise<void> {
  const [siteId, binId, materialId] = [freshId(), freshId(), freshId()];
  const figures = { moistureFracWb: 0.8, carbonFracDb: 0.45, nitrogenFracDb: 0.03, bulkDensityKgM3: 400, like: 'brewers_grain' };
  await make('POST', '/api/sites', { id: siteId, name, timeZone: 'Europe/London' });
  const shape = { kind: 'tote', areaM2: 0.2, depthM: 0.35, zones: 1, startedOn: '2026-06-01', wormsKg: 0.5, bedWaterKg: 4 };
  const bed = [{ materialId: 'cardboard_corrugated', massKg: 2 }];
  await make('POST', '/api/bins', { id: binId, siteId, code: `P${index}`, name, ...shape, bed });
  await make('POST', '/api/materials', { id: materialId, name, kind: 'food', ...figures });
  const at = { binId, happenedAt: '2026-11-20T10:00:00Z' };
  const { body } = await cast.call('owner', 'GET', '/api/materials');
  const own = body.items.find((row: { name: string; own: boolean }) => row.own && row.name === name.trim());
  await make('POST', '/api/feedings', { ...at, zone: 1, items: [{ materialId: own.id, massKg: 1, how: 'weighed' }] });
}

beforeAll(async () => {
  cast = await openCast();
  dir = mkdtempSync(join(tmpdir(), 'season-soffice-'));
  for (const [index, name] of formulaPayloads.entries()) await named(name, index);
  const at = { binId: BINS.tote, happenedAt: '2026-11-20T10:00:00Z' };
  await make('POST', '/api/harvests', { ...at, massKg: 2.5, destination: 'stock' });
  await make('POST', '/api/castings-moves', { siteId: SITES.meadow, kind: 'given-out', massKg: 1.5, destination: 'plots' });
  await keep(`/api/season.csv?${QUERY}`, 'season.csv', csvFiles);
  // Four sets of factors bear the twenty in their five texts.
  for (let set = 0; set < formulaPayloads.length / FACTOR_TEXTS.length; set += 1) {
    const texts = Object.fromEntries(FACTOR_TEXTS.map((field, at) => [field, formulaPayloads[set * FACTOR_TEXTS.length + at]]));
    const rising = { low: 10, mid: 20, high: 30 };
    await make('PUT', '/api/climate-factors', { ...texts, landfillPercent: 60, landfill: rising, process: rising, confirmed: true });
    await keep(`/api/season-report.csv?${QUERY}`, `report-${set}.csv`, csvFiles);
    await keep(`/api/season.xlsx?${QUERY}`, `season-${set}.xlsx`, workbooks);
  }
}, 300_000);
afterAll(async () => {
  await cast?.close();
  rmSync(dir, { recursive: true, force: true });
});

test('D8: what is not disarmed does become a formula, so that finding none means something', () => {
  const file = join(dir, 'armed.csv');
  writeFileSync(file, csvText([['name', 'grams'], ...formulaPayloads.map((name) => [name, -1500])], 'data'));
  const cells = cellsOf(soffice([file], 'fods', csvFilter(',')).get('armed.csv')!);
  const formulas = cells.filter(({ formula }) => formula !== null).length;
  process.stdout.write(`formula cells of the same names, not disarmed: ${formulas}\n`);
  expect(formulas).toBeGreaterThan(0);
});

test.each(SEPARATORS)('D8: CSV for spreadsheets holds no formula cell when it is opened with %j between cells', (separator) => {
  const opened = soffice(csvFiles, 'fods', csvFilter(separator));
  expect(opened.size).toBe(csvFiles.length);
  let cells = 0;
  for (const [file, flat] of opened) {
    const found = cellsOf(flat);
    cells += found.length;
    expect([file, found.filter(({ formula }) => formula !== null)]).toEqual([file, []]);
  }
  process.stdout.write(`${cells} cells of ${opened.size} CSV files, no formula\n`);
  expect(cells).toBeGreaterThan(1000);
});

test('D7, D8: numbers of the CSV are numbers, negative ones too, and every name is there', () => {
  const opened = soffice(csvFiles, 'fods', csvFilter(','));
  const total = cellsOf(opened.get('season.csv')!).slice(-SEASON_COLUMN_IDS.length);
  expect(new Set(total.map(({ type }) => type))).toEqual(new Set(['float']));
  const report = cellsOf(opened.get('report-0.csv')!);
  const at = report.findIndex(({ text }) => text === 'given_out_g');
  expect(report[at + 1]).toMatchObject({ type: 'float', value: '-1500', formula: null });
  const texts = report.map(({ text }) => text).join('\n');
  for (const name of ['HYPERLINK("https://elsewhere.example"', 'cmd|calc', '＝1+1', '＠SUM(1)']) expect(texts).toContain(name);
});

test('D8, D9: the workbook opens, holds no formula cell, and its negative numbers and dates are values', () => {
  const opened = soffice(workbooks, 'fods');
  expect(opened.size).toBe(workbooks.length);
  let texts = 0;
  for (const [file, flat] of opened) {
    const cells = cellsOf(flat);
    expect([file, cells.filter(({ formula }) => formula !== null)]).toEqual([file, []]);
    const at = cells.findIndex(({ text }) => text === 'Given out');
    expect([file, cells.slice(at, at + 2)]).toMatchObject([file, [{ type: 'string' }, { type: 'float', value: '-1.5' }]]);
    expect(cells.filter(({ type }) => type === 'date').length).toBeGreaterThan(4);
    texts += cells.filter(({ type }) => type === 'string').length;
  }
  process.stdout.write(`${texts} text cells of ${opened.size} workbooks, no formula\n`);
});
