import { SEASON_COLUMN_IDS } from '@middenry/domain';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Answer, BINS, type Cast, freshId, openCast } from '../cast.ts';
import { formulaPayloads } from './payloads.ts';
import { csvFault, looksLikeFormula } from './rfc4180.ts';

const harvestedKg = [2.5, 0.125, 12.34, 0.001];
const url = (profile: string): string => `/api/season.csv?from=2026-01-01&to=2026-12-31&profile=${profile}`;

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
  const make = async (path: string, body: unknown): Promise<void> => {
    const answer = await cast.call('owner', 'POST', path, body);
    if (answer.status >= 300) throw new Error(`${path}: ${answer.text}`);
  };
  const harvest = (binId: string, massKg: number) => ({
    id: freshId(),
    binId,
    happenedAt: '2026-11-20T10:00:00Z',
    massKg,
    destination: 'beds',
  });
  for (const massKg of harvestedKg) await make('/api/harvests', harvest(BINS.tote, massKg));
  for (const [index, name] of formulaPayloads.entries()) {
    const siteId = freshId();
    const binId = freshId();
    await make('/api/sites', { id: siteId, name, timeZone: 'Europe/London' });
    const bin = {
      id: binId,
      siteId,
      code: `P${index}`,
      name,
      kind: 'tote',
      areaM2: 0.2,
      depthM: 0.35,
      zones: 1,
      startedOn: '2026-06-01',
      wormsKg: 0.5,
      bedWaterKg: 4,
      bed: [],
    };
    await make('/api/bins', { ...bin, bed: [{ materialId: 'cardboard_corrugated', massKg: 2 }] });
    await make('/api/harvests', harvest(binId, 1));
  }
  await make('/api/feedings', {
    id: freshId(),
    binId: BINS.school,
    happenedAt: '2026-11-20T10:00:00Z',
    zone: 1,
    items: [
      { materialId: 'apple', massKg: 0.75, how: 'weighed' },
      { materialId: 'banana_peel', massKg: 0.5, how: 'guessed' },
    ],
  });
});
afterAll(() => cast.close());

const read = (profile: string): Promise<Answer> => cast.call('owner', 'GET', url(profile));
const recordsOf = (text: string): Record<string, string>[] => parse(text, { columns: true, bom: true });

describe.each(['spreadsheet', 'data'])('the season as CSV, profile %s', (profile) => {
  test('keeps to RFC 4180 to the byte', async () => {
    const { text, headers, status } = await read(profile);
    expect(status).toBe(200);
    expect(headers['content-type']).toBe('text/csv; charset=utf-8');
    expect(headers['content-disposition']).toMatch(/^attachment; filename="[\w-]+\.csv"$/);
    expect(text.startsWith('\uFEFF')).toBe(profile === 'spreadsheet');
    const body = text.replace(/^\uFEFF/, '');
    expect(csvFault(body)).toBeUndefined();
    expect(body.endsWith('\r\n')).toBe(true);
  });

  test('adds up to the gram for a general reader', async () => {
    const records = recordsOf((await read(profile)).text);
    const total = records.at(-1);
    const sumOf = (column: string): number => records.slice(0, -1).reduce((sum, record) => sum + Number(record[column]), 0);
    expect(total?.row).toBe('total');
    const typedG = Math.round(harvestedKg.reduce((sum, kg) => sum + kg * 1_000, 0)) + formulaPayloads.length * 1_000;
    expect(Number(total?.harvested_g)).toBe(typedG);
    expect(Number(total?.fed_weighed_g)).toBe(750);
    expect(Number(total?.fed_estimated_g)).toBe(500);
    for (const column of ['harvested_g', 'fed_weighed_g', 'fed_estimated_g', 'feedings', 'harvests'])
      expect(sumOf(column)).toBe(Number(total?.[column]));
  });

  test('is the same as the season read as JSON', async () => {
    const season = (await cast.call('owner', 'GET', '/api/season?from=2026-01-01&to=2026-12-31')).body;
    const total = recordsOf((await read(profile)).text).at(-1);
    expect(Number(total?.harvested_g)).toBe(season.total.harvestedG);
    expect(Number(total?.fed_weighed_g)).toBe(season.total.fedWeighedG);
    expect(Number(total?.fed_estimated_g)).toBe(season.total.fedEstimatedG);
  });
});

test('D7: the data profile gives back every name as it was typed', async () => {
  const records = recordsOf((await read('data')).text);
  for (const name of formulaPayloads) {
    expect(records.filter((record) => record.site === name && record.bin_name === name)).toHaveLength(1);
  }
});

test('D8: the spreadsheet profile holds no formula, wherever a spreadsheet may end a cell', async () => {
  const records = recordsOf((await read('spreadsheet')).text);
  const cells = records.flatMap((record) => Object.values(record));
  const pieces = cells.flatMap((cell) => [cell, ...cell.split(/[;,|\t\r\n]+/)]);
  expect(pieces.filter(looksLikeFormula)).toEqual([]);
  expect(records.filter(({ row }) => row === 'bin')).toHaveLength(formulaPayloads.length + 2);
});

test('D8: numbers stay numbers', async () => {
  const { text } = await read('spreadsheet');
  const rows: string[][] = parse(text, { bom: true, columns: false, quote: false, relax_column_count: true });
  const total = rows.find(([first]) => first === '"total"');
  expect(total?.slice(5)).toHaveLength(SEASON_COLUMN_IDS.length);
  for (const cell of total?.slice(5) ?? []) expect(cell).toMatch(/^\d+$/);
});

test('a season of a site without a log is a head and a total of nothing', async () => {
  const siteId = freshId();
  await cast.call('owner', 'POST', '/api/sites', { id: siteId, name: 'Empty Plot', timeZone: 'Europe/London' });
  const { text } = await cast.call('owner', 'GET', `${url('data')}&siteId=${siteId}`);
  expect(recordsOf(text).map(({ row, harvested_g }) => [row, harvested_g])).toEqual([['total', '0']]);
});
