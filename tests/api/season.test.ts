import Papa from 'papaparse';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { BINS, type Cast, freshId, openCast, PEOPLE, SITES } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast({ at: '2026-11-25T10:00:00.000Z' });
  await fillSeason();
});
afterAll(() => cast.close());

async function post(url: string, body: object) {
  const answer = await cast.call('coordinator', 'POST', url, { id: freshId(), ...body });
  expect(answer.status).toBe(201);
  return answer.body;
}

/** Harvests 1.234 + 0.001 + 10 kg, fed 2 kg weighed and 1.7 kg estimated, 90 + 60 minutes. */
async function fillSeason() {
  await post('/api/harvests', { binId: BINS.tote, happenedAt: '2026-09-10T10:00:00.000Z', massKg: 1.234, destination: 'beds' });
  await post('/api/harvests', {
    binId: BINS.tote,
    happenedAt: '2026-10-10T10:00:00.000Z',
    massKg: 0.001,
    destination: 'class',
    how: 'guessed',
  });
  await post('/api/harvests', { binId: BINS.school, happenedAt: '2026-10-11T10:00:00.000Z', massKg: 10, destination: 'sale' });
  const items = [
    { materialId: 'apple', massKg: 2, how: 'weighed' },
    { materialId: 'apple', massKg: 1.5, how: 'container' },
    { materialId: 'apple', massKg: 0.2, how: 'guessed' },
  ];
  await post('/api/feedings', { binId: BINS.tote, happenedAt: '2026-10-01T10:00:00.000Z', zone: 1, items });
  const undone = await post('/api/feedings', { binId: BINS.tote, happenedAt: '2026-10-01T11:00:00.000Z', zone: 1, items });
  await cast.call('coordinator', 'DELETE', `/api/entries/${undone.id}`);
  await post('/api/checks', { binId: BINS.flow, happenedAt: '2026-10-02T10:00:00.000Z' });
  // The last of September by UTC, the first of October at the site.
  await post('/api/checks', { binId: BINS.flow, happenedAt: '2026-09-30T23:30:00.000Z' });
  const shift = { siteId: SITES.meadow, title: 'Round', localDate: '2026-10-03', localTime: '09:00', minutes: 90, places: 3 };
  const { items: shifts } = await post('/api/shifts', shift);
  for (const [person, said] of [
    [PEOPLE.volunteer.id, { attended: true }],
    [PEOPLE.otherVolunteer.id, { attended: true, minutes: 60 }],
    [PEOPLE.coordinator.id, { attended: false }],
  ] as const) {
    const url = `/api/shifts/${shifts[0].id}/sign-ups`;
    const { signUps } = await post(url, { personId: person });
    const mine = signUps.find((signUp: { personId: string }) => signUp.personId === person);
    await cast.call('coordinator', 'PATCH', `${url}/${mine.id}`, said);
  }
}

const SPAN = 'from=2026-09-01&to=2026-11-30';
const read = async (query = SPAN) => (await cast.call('coordinator', 'GET', `/api/season?${query}`)).body;

describe('GET /season', () => {
  test('adds up to the gram, weighed and estimated apart, undone left out', async () => {
    const { total, people } = await read();
    expect(total).toMatchObject({
      harvestedG: 11_235,
      fedWeighedG: 2000,
      fedEstimatedG: 1700,
      minutes: 150,
      feedings: 1,
      checks: 2,
      harvests: 3,
    });
    expect(people).toEqual({ adults: 3, young: 0 });
  });

  test.each(['bySite', 'byBin', 'byMonth'])('%s adds up to the total in every column', async (group) => {
    const body = await read();
    for (const [column, value] of Object.entries(body.total)) {
      const rows: { figures: Record<string, number> }[] = body[group];
      expect(rows.reduce((sum, row) => sum + row.figures[column]!, 0)).toBe(value);
    }
  });

  test('D3: by hand: a mixed feeding counts under each of its materials, and materials add up to the total', async () => {
    const on = (day: number) => ({ binId: BINS.school, happenedAt: `2026-07-0${day}T10:00:00.000Z` });
    const food = (materialId: string, massKg: number, how: string) => ({ materialId, massKg, how });
    const first = [food('apple', 0.7, 'weighed'), food('banana_peel', 0.333, 'container'), food('coffee_grounds', 1.2, 'weighed')];
    await post('/api/feedings', { ...on(1), zone: 1, items: [...first, food('apple', 0.05, 'guessed')], beddingKg: 0.4 });
    const second = [food('banana_peel', 0.667, 'weighed'), food('apple', 0.001, 'weighed')];
    await post('/api/feedings', { ...on(2), zone: 1, items: second, beddingKg: 0.1, beddingMaterialId: 'newsprint_shredded' });
    await post('/api/cares', { ...on(3), action: 'bedding', massKg: 0.25, materialId: 'newsprint_shredded' });
    const { byMaterial, total } = await read('from=2026-07-01&to=2026-07-31');
    const grams = (row: Record<string, number>) => [row.fedWeighedG, row.fedEstimatedG, row.beddingG];
    expect(Object.fromEntries(byMaterial.map((row: { key: string }) => [row.key, grams(row as never)]))).toEqual({
      apple: [701, 50, 0], // 700 + 1; 50
      banana_peel: [667, 333, 0],
      coffee_grounds: [1200, 0, 0],
      cardboard_corrugated: [0, 0, 400],
      newsprint_shredded: [0, 0, 350], // 100 + 250
    });
    // 701 + 667 + 1200 = 2568; 50 + 333 = 383; 400 + 350 = 750. Two feedings, however many materials.
    expect([...grams(total), total.feedings]).toEqual([2568, 383, 750, 2]);
  });

  test('months are those of the site, bins carry their code, hours stand apart', async () => {
    const body = await read();
    expect(body.byMonth.map((row: { key: string }) => row.key)).toEqual(['2026-09', '2026-10']);
    expect(body.byMonth[1].figures.checks).toBe(2);
    expect(body.byBin.map((row: { label: string }) => row.label)).toEqual([
      'F1 Flow-through',
      'S1 Corridor tray',
      'T1 Tote by the gate',
      'Shifts, not one bin',
    ]);
    expect(body.bySite.map((row: { label: string }) => row.label)).toEqual(['Hilltop School', 'Long Meadow']);
  });

  test('weeks begin on Monday, in America on Sunday, quiet ones are there too, and they add up to the season', async () => {
    const { body } = await cast.call('coordinator', 'GET', `/api/season-weeks?${SPAN}`);
    const weeks: Record<string, number | string>[] = body.weeks;
    const { total } = await read();
    expect([weeks[0]!.from, weeks.at(-1)!.from, weeks.length]).toEqual(['2026-08-31', '2026-11-30', 14]);
    const of = (monday: string) => weeks.find(({ from }) => from === monday);
    expect(of('2026-09-28')).toEqual({ from: '2026-09-28', fedG: 3700, beddingG: 0, harvestedG: 0, minutes: 150, shifts: 1 });
    expect(of('2026-10-05')).toMatchObject({ harvestedG: 10_001, fedG: 0 });
    expect(of('2026-09-14')).toMatchObject({ harvestedG: 0, fedG: 0, minutes: 0 });
    for (const column of ['beddingG', 'harvestedG', 'minutes', 'shifts'])
      expect(weeks.reduce((sum, week) => sum + Number(week[column]), 0)).toBe(total[column]);
    await cast.call('coordinator', 'PATCH', '/api/programme', { locale: 'en-US' });
    const { weeks: american } = (await cast.call('coordinator', 'GET', `/api/season-weeks?${SPAN}`)).body;
    await cast.call('coordinator', 'PATCH', '/api/programme', { locale: 'en-GB' });
    expect([american[0].from, american.at(-1).from]).toEqual(['2026-08-30', '2026-11-29']);
    const ofSchool = await cast.call('siteLead', 'GET', `/api/season-weeks?${SPAN}&siteId=${SITES.school}`);
    expect(ofSchool.status).toBe(404);
  });

  test('D1: what was fed on a Sunday and on the Monday after it stands in two weeks', async () => {
    const fed = (day: string, massKg: number) =>
      post('/api/feedings', {
        ...{ binId: BINS.flow, happenedAt: `${day}T10:00:00.000Z`, zone: 1 },
        items: [{ materialId: 'apple', massKg, how: 'weighed' }],
      });
    await fed('2026-08-16', 1);
    await fed('2026-08-17', 2);
    const { body } = await cast.call('coordinator', 'GET', '/api/season-weeks?from=2026-08-12&to=2026-08-20');
    expect(body.weeks.map((week: { from: string; fedG: number }) => [week.from, week.fedG])).toEqual([
      ['2026-08-10', 1000],
      ['2026-08-17', 2000],
    ]);
  });

  test('both ends of the span count, one site alone counts alone', async () => {
    expect((await read('from=2026-09-10&to=2026-09-10')).total.harvestedG).toBe(1234);
    expect((await read('from=2026-09-11&to=2026-10-09')).total.harvestedG).toBe(0);
    expect((await read(`${SPAN}&siteId=${SITES.school}`)).total).toMatchObject({ harvestedG: 10_000, minutes: 0, fedWeighedG: 0 });
  });

  test('a site lead adds up their own site, another one looks like no site', async () => {
    const own = await cast.call('siteLead', 'GET', `/api/season?${SPAN}`);
    expect(own.body.total.harvestedG).toBe(1235);
    expect(own.body.bySite.map((row: { key: string }) => row.key)).toEqual([SITES.meadow]);
    expect((await cast.call('siteLead', 'GET', `/api/season?${SPAN}&siteId=${SITES.school}`)).status).toBe(404);
    expect((await cast.call('volunteer', 'GET', `/api/season?${SPAN}`)).status).toBe(403);
  });

  test('refuses a span that runs backwards', async () => {
    const answer = await cast.call('coordinator', 'GET', '/api/season?from=2026-10-02&to=2026-10-01');
    expect([answer.status, answer.body.code]).toEqual([422, 'invalid']);
  });
});

describe('GET /season.csv', () => {
  const csv = (profile = '') => cast.call('coordinator', 'GET', `/api/season.csv?${SPAN}${profile}`);
  const rowsOf = (text: string) => Papa.parse<string[]>(text.replace(/^\uFEFF/, ''), { skipEmptyLines: true }).data;

  test('last row is the sum of the rows above, equal to the season to the gram', async () => {
    const [head, ...rows] = rowsOf((await csv()).text);
    const total = rows.pop()!;
    const parts = rows;
    const { total: season } = await read();
    for (const [name, key] of [
      ['harvested_g', 'harvestedG'],
      ['fed_weighed_g', 'fedWeighedG'],
      ['minutes_given', 'minutes'],
      ['checks', 'checks'],
    ] as const) {
      const column = head!.indexOf(name);
      expect(parts.reduce((sum, row) => sum + Number(row[column]), 0)).toBe(Number(total[column]));
      expect(Number(total[column])).toBe(season[key]);
    }
  });

  test('spreadsheet profile has the mark, data profile has not, each name says which', async () => {
    const spreadsheet = await csv();
    const data = await csv('&profile=data');
    expect(spreadsheet.text.startsWith('\uFEFF')).toBe(true);
    expect(data.text.startsWith('"row"')).toBe(true);
    expect(spreadsheet.headers['content-disposition']).toContain('season-2026-09-01-to-2026-11-30-spreadsheet.csv');
    expect(data.headers['content-disposition']).toContain('-data.csv');
    expect(spreadsheet.headers['content-type']).toBe('text/csv; charset=utf-8');
  });

  test('a name that looks like a formula is disarmed for spreadsheets and kept as it is for data', async () => {
    await cast.call('coordinator', 'PATCH', `/api/bins/${BINS.tote}`, { name: '=HYPERLINK("x");+1, "quoted"' });
    const nameIn = (text: string) => rowsOf(text).find((row) => row[2] === 'T1')![3];
    expect(nameIn((await csv()).text)).toBe(`'=HYPERLINK("x");'+1, "quoted"`);
    expect(nameIn((await csv('&profile=data')).text)).toBe('=HYPERLINK("x");+1, "quoted"');
  });

  test('is written down in the audit', async () => {
    await csv();
    const row = cast.store.sql("SELECT person_id FROM audit WHERE action = 'season.exported' ORDER BY id DESC LIMIT 1").get();
    expect(row).toEqual({ person_id: PEOPLE.coordinator.id });
  });
});
