import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { BINS, type Cast, freshId, openCast, SITES } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast({ at: '2026-11-25T10:00:00.000Z' });
});
beforeEach(() => {
  cast.clock.at = new Date('2026-11-25T10:00:00.000Z');
});
afterAll(() => cast.close());

describe('POST /containers/:id/weighings', () => {
  test('the usual weight is the middle of what it weighed here, so one slip moves nothing', async () => {
    const caddy = { id: freshId(), siteId: SITES.meadow, name: 'Blue caddy', litres: 5, tareKg: 0.4 };
    await cast.call('siteLead', 'POST', '/api/containers', caddy);
    const weigh = (body: object) => cast.call('volunteer', 'POST', `/api/containers/${caddy.id}/weighings`, { id: freshId(), ...body });
    expect((await weigh({ massKg: 3.4 })).body).toMatchObject({ fullKg: 3, kgPerLitre: 0.6, weighings: 1 });
    await weigh({ massKg: 1.9, filled: 0.5 });
    expect((await weigh({ massKg: 22 })).body).toMatchObject({ fullKg: 3, weighings: 3 });
    expect((await weigh({ massKg: 0.4 })).body.errors[0].pointer).toBe('/massKg');
    expect((await cast.call('volunteer', 'POST', `/api/containers/${freshId()}/weighings`, { id: freshId(), massKg: 3 })).status).toBe(404);
  });
});

describe('PUT /materials/:id/figures', () => {
  const put = (id: string, body: object) =>
    cast.call('coordinator', 'PUT', `/api/materials/${id}/figures`, { source: 'our own oven', ...body });
  const feedIt = () =>
    cast.call('volunteer', 'POST', '/api/feedings', {
      id: freshId(),
      binId: BINS.tote,
      happenedAt: '2026-11-25T09:00:00.000Z',
      zone: 1,
      items: [{ materialId: 'potato_tops', massKg: 1, how: 'weighed' }],
    });

  test('a material with a figure missing can be fed once it is filled in, and the model takes it', async () => {
    expect((await feedIt()).body.code).toBe('material-hidden');
    expect((await put('potato_tops', { moistureFracWb: 0.8 })).body.code).toBe('material-hidden');
    const filled = await put('potato_tops', { moistureFracWb: 0.8, bulkDensityKgM3: 300, nitrogenFracDb: 0.9 });
    expect(filled.body).toMatchObject({ hidden: false, moistureFracWb: 0.8, nitrogenFracDb: 0.015, own: false, source: 'our own oven' });
    expect((await feedIt()).status).toBe(201);
    expect((await cast.call('volunteer', 'GET', `/api/bins/${BINS.tote}/outlook`)).status).toBe(200);
  });

  test('refuses what lacks nothing, what never goes in and what is not there', async () => {
    expect((await put('apple', {})).body.code).toBe('invalid');
    expect((await put('meat_raw', {})).body.code).toBe('material-never');
    expect((await put('moon_dust', {})).status).toBe(404);
    const answer = await cast.call('volunteer', 'PUT', '/api/materials/potato_tops/figures', { source: 'x' });
    expect(answer.status).toBe(403);
  });
});

describe('bedding in store', () => {
  const move = (body: object) =>
    cast.call('volunteer', 'POST', '/api/bedding-moves', { id: freshId(), siteId: SITES.meadow, materialId: 'leaves_dry', ...body });
  const use = async (happenedAt: string, beddingKg: number) => {
    const items = [{ materialId: 'apple', massKg: 1, how: 'weighed' }];
    const body = { id: freshId(), binId: BINS.flow, happenedAt, zone: 1, items, beddingKg, beddingMaterialId: 'leaves_dry' };
    const answer = await cast.call('volunteer', 'POST', '/api/feedings', body);
    expect(answer.status).toBe(201);
    return answer.body.id;
  };
  const stock = async () =>
    (await cast.call('pupil', 'GET', `/api/bedding-stock?siteId=${SITES.meadow}`)).body.items.find(
      (item: { materialId: string }) => item.materialId === 'leaves_dry',
    );

  test('is what was brought less what bins used; counting settles what was before; use beyond it is missing', async () => {
    cast.clock.at = new Date('2026-11-01T10:00:00.000Z');
    await move({ kind: 'brought', massKg: 5 });
    cast.clock.at = new Date('2026-11-25T10:00:00.000Z');
    await use('2026-11-10T10:00:00.000Z', 2);
    expect(await stock()).toMatchObject({ massKg: 3, missingKg: 0, usedPerWeekKg: 0.5, countedAt: null });
    cast.clock.at = new Date('2026-11-25T11:00:00.000Z');
    await move({ kind: 'counted', massKg: 2.5 });
    expect(await stock()).toMatchObject({ massKg: 2.5, countedAt: '2026-11-25T11:00:00.000Z' });
    cast.clock.at = new Date('2026-11-25T13:00:00.000Z');
    await move({ kind: 'thrown-away', massKg: 0.5 });
    const entry = await use('2026-11-25T12:00:00.000Z', 3);
    expect(await stock()).toMatchObject({ massKg: 0, missingKg: 1 });
    await cast.call('volunteer', 'DELETE', `/api/entries/${entry}`);
    expect(await stock()).toMatchObject({ massKg: 2, missingKg: 0 });
  });

  test('sent twice is one move; food is no bedding', async () => {
    const body = { id: freshId(), siteId: SITES.school, materialId: 'coir', kind: 'brought', massKg: 1 };
    const send = () => cast.call('volunteer', 'POST', '/api/bedding-moves', body);
    expect([(await send()).status, (await send()).status]).toEqual([201, 200]);
    expect((await cast.call('pupil', 'GET', `/api/bedding-moves?siteId=${SITES.school}`)).body.items).toHaveLength(1);
    expect((await move({ materialId: 'apple', kind: 'brought', massKg: 1 })).body.errors[0].pointer).toBe('/materialId');
  });
});

describe('PUT /sites/:id/air-readings', () => {
  const put = (body: object, who: 'siteLead' | 'coordinator' = 'siteLead', site: string = SITES.meadow) =>
    cast.call(who, 'PUT', `/api/sites/${site}/air-readings`, body);

  test('typed readings are kept, a day given again is replaced', async () => {
    await put({
      items: [
        { on: '2026-11-20', meanC: 9 },
        { on: '2026-11-21', meanC: 8.5 },
      ],
    });
    await put({ items: [{ on: '2026-11-21', meanC: 7 }] });
    const { body } = await cast.call('pupil', 'GET', `/api/sites/${SITES.meadow}/air-readings?from=2026-11-01`);
    expect(body.items).toEqual([
      { on: '2026-11-20', meanC: 9 },
      { on: '2026-11-21', meanC: 7 },
    ]);
  });

  test('a file is read with or without heading, with a comma or a point', async () => {
    const answer = await put({ csv: '\uFEFFdate;mean\r\n2026-11-22;6,5\r\n2026-11-23;-0.5\r\n' });
    expect(answer.body.items).toEqual([
      { on: '2026-11-22', meanC: 6.5 },
      { on: '2026-11-23', meanC: -0.5 },
    ]);
    expect((await put({ csv: '2026-11-24,4' })).body.items).toEqual([{ on: '2026-11-24', meanC: 4 }]);
  });

  test('a faulty line is named by its number and nothing of the file is kept', async () => {
    const answer = await put({ csv: 'date,mean\n2026-11-01,5\n2026-02-31,5\n2026-11-03,warm\n' });
    expect(answer.body.errors.map((error: { pointer: string }) => error.pointer)).toEqual(['/csv/3', '/csv/4']);
    const { body } = await cast.call('pupil', 'GET', `/api/sites/${SITES.meadow}/air-readings?from=2026-11-01&to=2026-11-01`);
    expect(body.items).toEqual([]);
  });

  test("refuses days to come, both ways at once, and another's site", async () => {
    expect((await put({ items: [{ on: '2026-12-25', meanC: 1 }] })).body.code).toBe('date-in-future');
    expect((await put({ items: [], csv: '' })).status).toBe(422);
    expect((await put({ items: [] }, 'siteLead', SITES.school)).status).toBe(404);
  });

  test('a warm week that was read warms the bed of a bin outdoors', async () => {
    const warmth = async () => (await cast.call('volunteer', 'GET', `/api/bins/${BINS.flow}/outlook`)).body.now.bedTempC.p50;
    const before = await warmth();
    const items = Array.from({ length: 10 }, (_, day) => ({ on: `2026-11-${16 + day}`, meanC: 24 }));
    expect((await put({ items })).status).toBe(200);
    expect(await warmth()).toBeGreaterThan(before + 3);
  });
});
