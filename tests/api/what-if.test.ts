/** A bin's members handed out, and the same question answered here and by whoever took them. */
import { gzipSync } from 'node:zlib';
import { type Ensemble, openEnsemble, whatIf } from '@middenry/domain';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { BINS, type Cast, freshId, openCast } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
  for (const [zone, day] of [
    [1, '17'],
    [2, '20'],
    [1, '23'],
  ])
    await cast.call('volunteer', 'POST', '/api/feedings', {
      id: freshId(),
      binId: BINS.tote,
      happenedAt: `2026-11-${day}T09:30:00.000Z`,
      zone,
      items: [{ materialId: 'food_scraps_veg', massKg: 1.4, how: 'container' }],
      note: 'Brought by somebody whose name is nobody else\u2019s business.',
    });
});
afterAll(() => cast.close());

const read = (path: string) => cast.call('pupil', 'GET', `/api/bins/${BINS.tote}/${path}`);
const opened = async () => {
  const { ensemble } = (await read('ensemble')).body;
  const bytes = Buffer.from(ensemble.state, 'base64');
  const state = new Float64Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
  return openEnsemble({ ...ensemble, state } as Ensemble);
};

test('whoever takes the members finds what the server says, to the last digit, of catalogue food and of our own', async () => {
  const own = {
    name: 'Brewery grain',
    kind: 'food',
    like: 'coffee_grounds',
    moistureFracWb: 0.7,
    carbonFracDb: 0.45,
    nitrogenFracDb: 0.03,
    bulkDensityKgM3: 500,
  };
  const made = await cast.call('coordinator', 'POST', '/api/materials', { id: freshId(), ...own });
  const open = await opened();
  const choice = {
    foodKg: 3,
    zones: 2,
    beddingKg: 0.3,
    repeat: 'weekly',
    loosen: true,
    takenOutFrac: 0,
    waterKg: 0.5,
    warmerC: -4,
  } as const;
  const { foods } = (await read('ensemble')).body;
  for (const id of ['lettuce', made.body.id as string]) {
    const query = new URLSearchParams(Object.entries({ ...choice, food: id }).map(([name, value]) => [name, String(value)]));
    const told = (await read(`what-if?${query}`)).body;
    const { composition } = foods.find((food: { id: string }) => food.id === id);
    expect((composition === null) === (id === 'lettuce')).toBe(true);
    const here = {
      answer: whatIf(open, { ...choice, food: composition === null ? { material: id } : { composition } }),
      without: whatIf(open),
    };
    expect({ answer: told.answer, without: told.without }).toEqual(JSON.parse(JSON.stringify(here)));
    expect(told.answer).not.toEqual(told.without);
  }
});

test('it is small, holds nothing that anybody wrote, and refuses what no bin is given', async () => {
  const { text } = await read('ensemble');
  expect(gzipSync(text).length).toBeLessThan(60_000);
  expect(text).not.toMatch(/business|Otis|Barrow/);
  for (const query of ['foodKg=-1', 'zones=0', 'repeat=hourly', 'food=nothing_of_ours', 'warmerC=99', 'takenOutFrac=2', 'foodKg=much'])
    expect((await read(`what-if?${query}`)).status, query).toBe(422);
});
