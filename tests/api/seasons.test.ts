import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { BINS, type Cast, freshId, openCast, PEOPLE, SITES } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast({ at: '2026-11-25T10:00:00.000Z' });
});
afterAll(() => cast.close());

const season = (change: object = {}) => ({ id: freshId(), name: 'Autumn 2026', from: '2026-09-01', to: '2026-11-30', ...change });
const post = async (url: string, body: object, status = 201) => {
  const answer = await cast.call('coordinator', 'POST', url, { id: freshId(), ...body });
  expect([url, answer.status]).toEqual([url, status]);
  return answer.body;
};
const read = async (query = 'from=2026-09-01&to=2026-11-30') => (await cast.call('coordinator', 'GET', `/api/season?${query}`)).body;

describe('seasons by name', () => {
  test('one of a site and one of the whole programme may bear the same name, two of the same may not', async () => {
    const whole = season();
    expect((await cast.call('coordinator', 'POST', '/api/seasons', whole)).status).toBe(201);
    expect((await cast.call('coordinator', 'POST', '/api/seasons', whole)).status).toBe(200);
    await post('/api/seasons', season({ siteId: SITES.school }));
    const twice = await cast.call('coordinator', 'POST', '/api/seasons', season());
    expect([twice.status, twice.body.code]).toEqual([409, 'name-taken']);
  });

  test('a site lead sees those of their site and of the programme, keeps only those of their site, and writes over nobody', async () => {
    const mine = season({ siteId: SITES.meadow, name: 'Meadow year' });
    expect((await cast.call('siteLead', 'POST', '/api/seasons', mine)).status).toBe(201);
    const { items } = (await cast.call('siteLead', 'GET', '/api/seasons')).body;
    expect(items.map(({ name, siteName }: { name: string; siteName: string | null }) => [name, siteName])).toEqual([
      ['Autumn 2026', null],
      ['Meadow year', 'Long Meadow'],
    ]);
    const whole = items.find(({ siteId }: { siteId: string | null }) => siteId === null);
    expect((await cast.call('siteLead', 'DELETE', `/api/seasons/${whole.id}`)).status).toBe(404);
    const days = { name: 'Meadow year', from: '2026-01-01', to: '2026-12-31' };
    const change = (revision: number, body: object) =>
      cast.call('siteLead', 'PUT', `/api/seasons/${mine.id}`, body, { 'if-match': `"${revision}"` });
    expect((await change(1, days)).body).toMatchObject({ ...days, revision: 2 });
    const texts = { opening: ' Rain.\n\nThen sun. ', bins: '' };
    await change(2, { ...days, texts });
    // Somebody else read it before those words were written.
    const late = await change(2, { ...days, name: 'Mine' });
    expect([late.status, late.body.code, late.body.help.theirs.texts]).toEqual([
      412,
      'changed-meanwhile',
      { opening: 'Rain.\n\nThen sun.' },
    ]);
    expect((await cast.call('siteLead', 'PUT', `/api/seasons/${mine.id}`, days)).status).toBe(422);
    const named = await change(3, { ...days, name: 'Year' });
    expect(named.body).toMatchObject({ name: 'Year', texts: { opening: 'Rain.\n\nThen sun.' } });
    expect((await cast.call('siteLead', 'DELETE', `/api/seasons/${mine.id}`)).status).toBe(204);
    expect((await cast.call('siteLead', 'GET', '/api/seasons')).body.items).toHaveLength(1);
  });
});

describe('what a season says beside its totals', () => {
  beforeAll(async () => {
    const at = (happenedAt: string, part: object) => ({ binId: BINS.tote, happenedAt, ...part });
    await post('/api/checks', at('2026-09-03T10:00:00Z', { smell: 'sour', leftover: [{ zone: 1, left: 'most' }] }));
    await post('/api/checks', at('2026-09-13T10:00:00Z', { smell: 'earthy' }));
    const items = [{ materialId: 'apple', massKg: 1.5, how: 'weighed' }];
    await post('/api/feedings', at('2026-09-20T10:00:00Z', { zone: 1, items, beddingKg: 0.5, beddingMaterialId: 'coir' }));
    await post('/api/cares', at('2026-09-20T11:00:00Z', { action: 'bedding', massKg: 0.25, materialId: 'coir' }));
    for (const [massKg, destination] of [
      [1, 'beds'],
      [1, 'sale'],
      [1, 'class'],
    ] as const)
      await post('/api/harvests', at('2026-10-01T10:00:00Z', { massKg, destination }));
    const shift = { siteId: SITES.meadow, title: 'Round', localDate: '2026-10-03', localTime: '09:00', minutes: 90, places: 3 };
    const { items: shifts } = await post('/api/shifts', shift);
    const url = `/api/shifts/${shifts[0].id}/sign-ups`;
    const { signUps } = await post(url, { personId: PEOPLE.volunteer.id });
    await cast.call('coordinator', 'PATCH', `${url}/${signUps[0].id}`, { attended: true, minutes: 60 });
  });

  test('D2: problems found and solved with days, shifts planned, filled and attended, hours planned and given, people', async () => {
    const { total, problems, people, rates } = await read();
    expect(problems).toMatchObject({ found: 2, solved: 1, daysToSolveMedian: 10, daysToSolveLongest: 10 });
    expect(problems.byKind).toContainEqual({ problem: 'leftover', found: 1, solved: 0, daysToSolveMedian: null, daysToSolveLongest: null });
    expect(total).toMatchObject({ shifts: 1, places: 3, placesTaken: 1, placesCame: 1, minutesPlanned: 270, minutes: 60 });
    expect(people).toEqual({ adults: 2, young: 0 });
    // 3 kg of castings out of 1.5 kg of scraps and 0.75 kg of bedding.
    expect(rates.yieldFrac).toBeCloseTo(3000 / 2250, 9);
  });

  test('D3: where castings went, in parts that add up to 100 as shown', async () => {
    const { destinations } = await read();
    expect(destinations.map(({ grams, percent }: { grams: number; percent: number }) => [grams, percent])).toEqual([
      [1000, 34],
      [1000, 33],
      [1000, 33],
    ]);
  });

  test('what was given by material adds up to the total', async () => {
    const { byMaterial, total } = await read();
    const sum = (id: 'fedWeighedG' | 'fedEstimatedG' | 'beddingG') =>
      byMaterial.reduce((all: number, row: Record<string, number>) => all + row[id]!, 0);
    expect([sum('fedWeighedG'), sum('fedEstimatedG'), sum('beddingG')]).toEqual([
      ...[total.fedWeighedG, total.fedEstimatedG, total.beddingG],
    ]);
    expect(byMaterial.map(({ key, beddingG }: { key: string; beddingG: number }) => [key, beddingG])).toEqual([
      ['apple', 0],
      ['coir', 750],
    ]);
  });

  test('D4: weeks of bins until today, and those with an entry', async () => {
    // 1 September to 25 November are 86 days: thirteen weeks of three bins. Entries lie in weeks 1, 2, 3 and 5 of one of them.
    const { log, days } = await read();
    expect([log, days]).toEqual([{ binsKept: 3, binWeeks: 39, binWeeksNoted: 4 }, 86]);
  });

  test('D6: no names, and fewer than five young people are not told as a number', async () => {
    cast.store.sql('UPDATE person SET is_adult = 0 WHERE id = ?').run(PEOPLE.volunteer.id);
    const season = await read();
    expect(season.people).toEqual({ adults: 1, young: null });
    for (const { name } of Object.values(PEOPLE)) expect(JSON.stringify(season)).not.toContain(name);
  });

  test('the same days a year before stand beside it', async () => {
    const { before } = await read('from=2027-09-01&to=2027-11-30');
    expect(before).toMatchObject({ from: '2026-09-01', to: '2026-11-30', total: { harvestedG: 3000, beddingG: 750 } });
    expect((await read()).before.total.harvestedG).toBe(0);
  });

  test('D10: the JSON keeps to its published schema', async () => {
    const schema = await cast.call(null, 'GET', '/api/season.schema.json');
    expect(schema.headers['content-type']).toBe('application/schema+json; charset=utf-8');
    const valid = new Ajv2020({ strict: false, validateFormats: false }).compile(JSON.parse(schema.text));
    const season = await read();
    expect([valid(season), valid.errors]).toEqual([true, null]);
    expect(valid({ ...season, total: { ...season.total, harvestedG: 0.5 } })).toBe(false);
  });
});

describe('published reports', () => {
  const span = { from: '2026-09-01', to: '2026-11-30' };
  const publish = async (change: object = {}) =>
    (await post('/api/published-seasons', { ...span, name: 'Autumn report', ...change })).id as string;
  const open = async (id: string) => (await cast.call('coordinator', 'GET', `/api/published-seasons/${id}`)).body;
  const harvest = (massKg: number) =>
    post('/api/harvests', { binId: BINS.flow, happenedAt: '2026-10-05T10:00:00Z', massKg, destination: 'beds' });

  test('D14: it keeps its numbers; what is noted, corrected or undone later is told as changed since', async () => {
    const kept = await harvest(2);
    const texts = { problems: 'The cold did it.' };
    const id = await publish({ texts });
    const first = await open(id);
    expect([first.season, first.changed, first.texts]).toEqual([await read(), [], texts]);
    await harvest(0.75);
    const later = await open(id);
    expect(later.season).toEqual(first.season);
    const { total } = first.season;
    expect(later.changed.slice(0, 2)).toEqual([
      { column: 'harvestedG', before: total.harvestedG, now: total.harvestedG + 750, difference: 750 },
      { column: 'harvests', before: total.harvests, now: total.harvests + 1, difference: 1 },
    ]);
    await cast.call('coordinator', 'DELETE', `/api/entries/${kept.id}`);
    const undone = await open(id);
    expect(undone.season).toEqual(first.season);
    expect(undone.changed[0]).toMatchObject({ column: 'harvestedG', difference: 750 - 2000 });
  });

  test('D14: nothing can change it in the store', async () => {
    const id = await publish();
    const change = () => cast.store.sql("UPDATE published_season SET body = '{}' WHERE id = ?").run(id);
    expect(change).toThrow('a published season keeps its numbers');
  });

  test('D6: nobody is named in it, and a site lead sees those of their site', async () => {
    const id = await publish({ siteId: SITES.school });
    for (const { name } of Object.values(PEOPLE)) expect(JSON.stringify(await open(id))).not.toContain(name);
    const mine = await publish({ siteId: SITES.meadow });
    const seen = (await cast.call('siteLead', 'GET', '/api/published-seasons')).body.items.map((each: { id: string }) => each.id);
    expect(seen).toEqual([mine]);
    expect((await cast.call('siteLead', 'GET', `/api/published-seasons/${id}`)).status).toBe(404);
  });
});
