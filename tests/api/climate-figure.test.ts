/** The climate figure: off at first, by confirmed factors only, and the same in every form of the report. */
import { readXlsx } from 'hucre/xlsx';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { BINS, type Cast, freshId, openCast } from '../cast.ts';
import { readPdf, tablesOf } from './read-pdf.ts';

const SPAN = { from: '2026-09-01', to: '2026-11-30' };
const QUERY = `from=${SPAN.from}&to=${SPAN.to}`;
let cast: Cast;
beforeAll(async () => {
  cast = await openCast({ at: '2026-11-25T10:00:00.000Z' });
  const items = [
    { materialId: 'apple', massKg: 250, how: 'weighed' },
    { materialId: 'cardboard_corrugated', massKg: 40, how: 'weighed' },
  ];
  await call(
    'POST',
    '/api/feedings',
    { id: freshId(), binId: BINS.flow, happenedAt: '2026-09-20T10:00:00Z', zone: 1, items, beddingKg: 9 },
    201,
  );
});
afterAll(() => cast.close());

async function call(method: 'GET' | 'POST' | 'PUT' | 'DELETE', url: string, body?: object, status = 200) {
  const answer = await cast.call('coordinator', method, url, body);
  expect([url, answer.status]).toEqual([url, status]);
  return answer.body;
}
const climate = async () => (await call('GET', `/api/season?${QUERY}`)).climate;
async function confirmed(id: string, landfillPercent: number) {
  const { sets } = await call('GET', '/api/climate-factors');
  const { id: _, ...set } = sets.find((one: { id: string }) => one.id === id);
  return { ...set, landfillPercent, confirmed: true };
}

test('D5: none by default; switched on it says factors and source, counts no bedding, and is off again when it is taken away', async () => {
  expect([await climate(), (await call('GET', '/api/climate-factors')).factors]).toEqual([null, null]);
  const body = await confirmed('us-epa-2026', 100);
  await call('PUT', '/api/climate-factors', body);
  // 250 kg weighed to 3 %: checks by hand stand beside the factors. 40 kg of card were logged as food and do not count.
  const figure = await climate();
  expect(figure).toMatchObject({
    scrapsG: { low: 242_500, mid: 250_000, high: 257_500 },
    notScrapsG: 40_000,
    landfillAvoidedG: { mid: 187_393 },
    processG: { mid: 30_314 },
    differenceG: { mid: 157_079 },
  });
  const { confirmed: _, ...told } = body;
  expect(figure.factors).toEqual({ ...told, confirmedAt: '2026-11-25T10:00:00.000Z' });
  await call('DELETE', '/api/climate-factors', undefined, 204);
  expect(await climate()).toBeNull();
});

test('D5: without a source, or when nobody looked it up, it stays off', async () => {
  const body = await confirmed('uk-2026', 50);
  for (const change of [{ source: ' ' }, { confirmed: false }, { landfillPercent: undefined }])
    await call('PUT', '/api/climate-factors', { ...body, ...change }, 422);
  expect(await climate()).toBeNull();
});

test('D5: print and workbook tell the two lines with their range, and by which factors', async () => {
  const file = async (ending: string) => {
    const answer = await cast.app.inject({ url: `/api/season.${ending}?${QUERY}`, headers: { cookie: cast.cookie('coordinator') } });
    return answer.rawPayload;
  };
  const saidIn = async () => JSON.stringify((await readPdf(await file('pdf'))).tags);
  expect(await saidIn()).toContain('Climate gases are left out: nobody has confirmed a figure and its source.');
  const body = await confirmed('us-epa-2026', 60);
  await call('PUT', '/api/climate-factors', body);
  const { tags } = await readPdf(await file('pdf'));
  // 60 % of 187.4 kg, and 30.3 kg, in two digits; at the least 242.5 kg at 308.6 kg a tonne, at most 257.5 kg at 749.6.
  expect(tablesOf(tags).get('Climate gases, kg CO2e')!.slice(1)).toEqual([
    ['Landfill gases avoided', '45', '110', '120'],
    ['Given off by the bins', '4.1', '30', '99'],
    ['The first less the second', '-51', '82', '110'],
  ]);
  const said = await saidIn();
  for (const part of [body.source, 'Edition 2026', 'United States', '60 %', '749.57 (308.65 to 749.57)', 'confirmed 25 November 2026'])
    expect(said).toContain(part);
  expect(said).not.toContain('left out');
  const { sheets } = await readXlsx(await file('xlsx'));
  const rows = sheets.find(({ name }) => name === 'Climate gases')!.rows;
  const { landfillAvoidedG } = await climate();
  expect(rows[1]).toEqual(['Landfill gases avoided, kg CO2e', ...Object.values(landfillAvoidedG as object).map((g) => g / 1000)]);
  expect(rows.find(([name]) => name === 'Source')![1]).toBe(body.source);
  await call('DELETE', '/api/climate-factors', undefined, 204);
});

test('D14: a published report keeps factors and figure when another edition is confirmed, and one of before has none', async () => {
  const publish = async () => {
    const { id } = await call('POST', '/api/published-seasons', { id: freshId(), name: 'Autumn', ...SPAN }, 201);
    return async () => (await call('GET', `/api/published-seasons/${id}`)).season.climate;
  };
  const off = await publish();
  await call('PUT', '/api/climate-factors', await confirmed('us-epa-2020', 40));
  const then = await climate();
  const on = await publish();
  await call('PUT', '/api/climate-factors', await confirmed('uk-2026', 100));
  expect([await off(), await on()]).toEqual([null, then]);
  expect((await climate()).factors.region).toBe('United Kingdom');
  // As a release published it that knew of no climate figure.
  cast.store.sql('DROP TRIGGER published_season_no_change').run();
  cast.store.sql("UPDATE published_season SET body = json_remove(body, '$.climate')").run();
  expect([await off(), await on()]).toEqual([null, null]);
});
