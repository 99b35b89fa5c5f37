import { MATERIAL_IDS } from '@middenry/domain';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { WORDS } from '../../apps/api/src/services/words/languages.ts';
import { type Cast, freshId, openCast, SITES } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
afterAll(() => cast.close());

describe('materials', () => {
  const own = (change: object = {}) => ({
    id: freshId(),
    name: 'Pressed apple cake',
    kind: 'food',
    moistureFracWb: 0.7,
    carbonFracDb: 0.48,
    nitrogenFracDb: 0.012,
    bulkDensityKgM3: 500,
    like: 'apple_pomace',
    ...change,
  });

  test('GET /materials shows what may go in, what never, and what lacks a figure', async () => {
    const { body } = await cast.call('volunteer', 'GET', '/api/materials');
    const byId = new Map(body.items.map((item: { id: string }) => [item.id, item]));
    expect(byId.get('meat_raw')).toMatchObject({ kind: 'never' });
    expect(byId.get('potato_tops')).toMatchObject({ hidden: true, moistureFracWb: null });
    expect(byId.get('cardboard_corrugated')).toMatchObject({ kind: 'bedding', hidden: false, own: false });
  });

  test('POST /materials makes an own one that can be fed', async () => {
    const body = own();
    const answer = await cast.call('coordinator', 'POST', '/api/materials', body);
    expect(answer.status).toBe(201);
    expect(answer.body).toMatchObject({ id: body.id, own: true, cnRatio: 40 });
    expect((await cast.call('volunteer', 'GET', '/api/materials')).body.items[0].name).toBe('Pressed apple cake');
  });

  test('are named in the language of whoever asks: as they chose on this device, else as their browser wishes; own ones keep their name', async () => {
    const asked = async (headers: Record<string, string>) => {
      const materials = (await cast.call('volunteer', 'GET', '/api/materials', undefined, headers)).body.items as {
        id: string;
        name: string;
      }[];
      const names = Object.fromEntries(materials.map(({ id, name }) => [id, name]));
      return { first: materials[0]!.name, peel: names.banana_peel, all: materials.length };
    };
    const spanish = { first: 'Pressed apple cake', peel: 'Piel de plátano', all: MATERIAL_IDS.length + 1 };
    expect(await asked({})).toEqual({ ...spanish, peel: 'Banana peel' });
    expect(await asked({ 'accept-language': 'es-MX,es;q=0.9,en;q=0.5' })).toEqual(spanish);
    const chose = (language: string) => ({ cookie: `${cast.cookie('volunteer')}; language=${language}` });
    expect(await asked({ ...chose('en'), 'accept-language': 'es' })).toEqual({ ...spanish, peel: 'Banana peel' });
    expect(await asked({ ...chose('es'), 'accept-language': 'en' })).toEqual(spanish);
    expect(await asked({ ...chose('xx'), 'accept-language': 'es' })).toEqual(spanish);
  });

  test('have a name of their own each in every language', () => {
    for (const words of Object.values(WORDS)) expect(new Set(MATERIAL_IDS.map((id) => words.material(id))).size).toBe(MATERIAL_IDS.length);
    expect(MATERIAL_IDS.filter((id) => WORDS.es.material(id) === WORDS.en.material(id))).toEqual([]);
  });

  test('POST /materials refuses a name twice, rates of nothing, and volunteers', async () => {
    await cast.call('coordinator', 'POST', '/api/materials', own({ name: 'Twice' }));
    expect((await cast.call('coordinator', 'POST', '/api/materials', own({ name: 'Twice' }))).body.code).toBe('name-taken');
    expect((await cast.call('coordinator', 'POST', '/api/materials', own({ name: 'X', like: 'moon_dust' }))).body.code).toBe('invalid');
    expect((await cast.call('volunteer', 'POST', '/api/materials', own({ name: 'Y' }))).status).toBe(403);
  });
});

describe('containers', () => {
  const caddy = (change: object = {}) => ({ id: freshId(), siteId: SITES.meadow, name: 'Blue caddy', litres: 5, tareKg: 0.4, ...change });

  test('POST /containers holds loose scraps until it has been weighed', async () => {
    const answer = await cast.call('siteLead', 'POST', '/api/containers', caddy());
    expect(answer.status).toBe(201);
    expect(answer.body).toMatchObject({ litres: 5, tareKg: 0.4, fullKg: 2.125, kgPerLitre: 0.425, weighings: 0 });
  });

  test("POST /containers at another's site looks like no site", async () => {
    expect((await cast.call('siteLead', 'POST', '/api/containers', caddy({ siteId: SITES.school }))).status).toBe(404);
  });

  test('PATCH /containers/:id changes what it holds; a name is taken once at a site', async () => {
    const { body } = await cast.call('coordinator', 'POST', '/api/containers', caddy({ name: 'Green caddy' }));
    const changed = await cast.call('siteLead', 'PATCH', `/api/containers/${body.id}`, { fullKg: 2.6, archived: true });
    expect(changed.body).toMatchObject({ fullKg: 2.6, archived: true, litres: 5 });
    expect((await cast.call('siteLead', 'PATCH', `/api/containers/${body.id}`, { name: 'Blue caddy' })).body.code).toBe('name-taken');
    const school = await cast.call('coordinator', 'POST', '/api/containers', caddy({ siteId: SITES.school }));
    expect((await cast.call('siteLead', 'PATCH', `/api/containers/${school.body.id}`, { fullKg: 2.6 })).status).toBe(404);
  });

  test('GET /containers lists those of a site', async () => {
    const { body } = await cast.call('pupil', 'GET', `/api/containers?siteId=${SITES.school}`);
    expect(body.items.map((item: { name: string }) => item.name)).toEqual(['Blue caddy']);
  });
});
