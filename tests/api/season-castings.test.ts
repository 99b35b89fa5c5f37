/** Castings in the season report: who got them, what lies in store; and a published report, the same to the gram in every file. */
import { parse } from 'csv-parse/sync';
import { readXlsx, type Sheet } from 'hucre/xlsx';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { BINS, type Cast, freshId, openCast, SITES } from '../cast.ts';
import { readPdf, tablesOf } from './read-pdf.ts';

const SPAN = { from: '2026-09-01', to: '2026-11-30' };
let cast: Cast;
let published: string;
beforeAll(async () => {
  cast = await openCast({ at: '2026-11-25T10:00:00.000Z' });
  const reap = (day: string, massKg: number, destination: string, more: object = {}) =>
    post('/api/harvests', { binId: BINS.flow, happenedAt: `${day}T10:00:00Z`, massKg, destination, ...more });
  const move = (on: string, kind: string, massKg: number, destination: string | null) =>
    post('/api/castings-moves', { siteId: SITES.meadow, kind, massKg, destination, on });
  // Before the season 9 kg came in and 2.5 went out.
  await reap('2026-07-01', 9, 'stock');
  await move('2026-08-01', 'given-out', 2.5, 'sale');
  await reap('2026-09-10', 3, 'plots');
  await reap('2026-09-11', 2.003, 'class', { volumeL: 4 });
  await reap('2026-10-01', 6.75, 'stock');
  await reap('2026-11-20', 1.111, 'curing', { readyOn: '2026-12-12' });
  await move('2026-10-02', 'given-out', 1.5, 'plots');
  await move('2026-10-03', 'brought-in', 0.7, null);
  await move('2026-10-04', 'written-off', 0.3, null);
  const items = [{ materialId: 'apple', massKg: 12.345, how: 'weighed' }];
  await post('/api/feedings', { binId: BINS.flow, happenedAt: '2026-09-20T10:00:00Z', zone: 1, items, beddingKg: 0.5 });
  published = await post('/api/published-seasons', { name: 'Autumn', ...SPAN });
  // What comes after it was published is in none of its files.
  await reap('2026-10-05', 5, 'beds');
});
afterAll(() => cast.close());

async function post(url: string, body: object): Promise<string> {
  const id = freshId();
  const answer = await cast.call('coordinator', 'POST', url, { id, ...body });
  expect([url, answer.status, answer.body.code]).toEqual([url, 201, undefined]);
  return id;
}
const file = async (ending: string) => {
  const url = `/api/published-seasons/${published}/report.${ending}`;
  const answer = await cast.app.inject({ url, headers: { cookie: cast.cookie('coordinator') } });
  expect([url, answer.statusCode]).toEqual([url, 200]);
  return answer.rawPayload;
};
const told = async () => (await cast.call('coordinator', 'GET', `/api/published-seasons/${published}`)).body.season;

test('D2: by hand: who got castings by weight and litre, and a store that adds up from its beginning to its end', async () => {
  const { castings, destinations } = await told();
  // 4.5 kg at 0.6 kg a litre are 7.5 litres; 4500 and 2003 of 6503 are 69 and 31 %.
  expect(castings.givenOut).toEqual([
    { destination: 'plots', fromBinG: 3000, fromStoreG: 1500, grams: 4500, ml: 7500, percent: 69 },
    { destination: 'class', fromBinG: 2003, fromStoreG: 0, grams: 2003, ml: 4000, percent: 31 },
  ]);
  // 6.5 + 7.861 + 0.7 - 1.5 - 0.3 = 13.261 kg, of which 1.111 kg cure.
  expect(castings.store).toEqual({
    ...{ beginG: 6500, harvestedG: 7861, broughtInG: 700, givenOutG: 1500, writtenOffG: 300, endG: 13_261, curingG: 1111 },
  });
  const stored = destinations.filter(({ destination }: { destination: string }) => ['stock', 'curing'].includes(destination));
  expect(stored.reduce((sum: number, { grams }: { grams: number }) => sum + grams, 0)).toBe(castings.store.harvestedG);
});

test.each([
  ['metric', 1000, 1000],
  ['us', 453.59237, 3785.411784],
] as const)(
  'D3: a published report is the same to the gram as JSON, CSV, workbook and print, units %s',
  async (units, gramsEach, mlEach) => {
    await cast.call('coordinator', 'PATCH', '/api/programme', { units });
    const { castings, total, bySite, byBin, byMonth, byMaterial } = await told();
    const { givenOut, store } = castings;
    const balance = [store.beginG, store.harvestedG, store.broughtInG, -store.givenOutG, -store.writtenOffG, store.endG, store.curingG];
    const gifts = givenOut.map((row: Record<string, number>) => [row.fromBinG, row.fromStoreG, row.grams]);

    const rows = parse(await file('csv'), { columns: true, bom: true }) as Record<
      'section' | 'name' | 'figure' | 'value' | 'unit',
      string
    >[];
    const csv = (section: string) => rows.filter((row) => row.section === section && ['g', 'ml', 'min', 'count'].includes(row.unit));
    const values = (section: string) => csv(section).map(({ value }) => Number(value));
    expect(values('season').slice(0, 17)).toEqual(Object.values(total));
    for (const [section, groups] of [
      ['site', bySite],
      ['bin', byBin],
      ['month', byMonth],
    ])
      expect([section, values(section)]).toEqual([section, groups.flatMap(({ figures }: { figures: object }) => Object.values(figures))]);
    expect(values('store')).toEqual(balance);
    expect(csv('given-out').map(({ value }) => Number(value))).toEqual(
      givenOut.flatMap((row: Record<string, number>) => [row.fromBinG, row.fromStoreG, row.grams, row.ml]),
    );
    expect(values('material')).toEqual(
      byMaterial.flatMap((row: Record<string, number>) => [row.fedWeighedG, row.fedEstimatedG, row.beddingG]),
    );

    const sheets = new Map((await readXlsx(await file('xlsx'))).sheets.map((each): [string, Sheet] => [each.name, each]));
    const grams = (value: unknown) => Math.round(Number(value) * gramsEach);
    const cells = (name: string) => sheets.get(name)!.rows.slice(1);
    expect(cells('Store').map((row) => grams(row[1]))).toEqual(balance);
    expect(cells('Given out').map((row) => row.slice(1, 4).map(grams))).toEqual(gifts);
    expect(cells('Given out').map((row) => Math.round(Number(row[4]) * mlEach))).toEqual(givenOut.map(({ ml }: { ml: number }) => ml));
    expect(grams(cells('Sites').at(-1)![1])).toBe(total.harvestedG);

    const tables = tablesOf((await readPdf(await file('pdf'))).tags);
    const shown = (text: string) => Math.round(Number(text.replaceAll(',', '')) * gramsEach);
    expect(
      tables
        .get('Castings in store')!
        .slice(1)
        .map((row) => shown(row[1]!)),
    ).toEqual(balance);
    expect(
      tables
        .get('Castings given out')!
        .slice(1)
        .map((row) => row.slice(1, 4).map(shown)),
    ).toEqual(gifts);
    expect(tables.get('By site')!.at(-1)!.slice(1, 4).map(shown)).toEqual([total.fedWeighedG, total.fedEstimatedG, total.harvestedG]);
  },
);

test('D9: a workbook names foods in the reader’s language, and a published one too', async () => {
  const namesIn = async (url: string, language: string) => {
    const headers = { cookie: cast.cookie('coordinator'), 'accept-language': language };
    const { rawPayload } = await cast.app.inject({ url, headers });
    const { sheets } = await readXlsx(rawPayload);
    return sheets
      .find(({ name }) => name === 'Materials')!
      .rows.slice(1)
      .map((row) => row[0])
      .sort();
  };
  for (const url of [`/api/season.xlsx?from=${SPAN.from}&to=${SPAN.to}`, `/api/published-seasons/${published}/report.xlsx`]) {
    expect(await namesIn(url, 'en')).toEqual(['Apple, whole with skin', 'Corrugated cardboard, torn/shredded']);
    expect(await namesIn(url, 'es')).toEqual(['Cartón ondulado, roto o triturado', 'Manzana entera con piel']);
  }
});
