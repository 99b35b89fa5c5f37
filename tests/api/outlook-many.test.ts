/** More bins than can be worked out while somebody waits, or kept whole in memory (criteria F27). */
import { type Outlook, outlookOf } from '@middenry/domain';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { workAhead } from '../../apps/api/src/services/outlook-ahead.ts';
import { keepAtMost, useModel } from '../../apps/api/src/services/outlook-cache.ts';
import { BINS, type Cast, freshId, openCast } from '../cast.ts';

let cast: Cast;
let worked: number[];
let held: number | null;
let letGo: () => void;
let news: string[];
let stopAhead: () => void;

const seedOf = (binId: string): number => Number.parseInt(binId.replaceAll('-', '').slice(-8), 16);

beforeEach(async () => {
  cast = await openCast();
  [worked, held, letGo, news] = [[], null, () => undefined, []];
  useModel(cast.store, async (scenario, today, settings): Promise<Outlook> => {
    worked.push(scenario.seed);
    if (scenario.seed === held)
      await new Promise<void>((resolve) => {
        letGo = resolve;
      });
    return outlookOf({ ...scenario, members: 4 }, today, settings);
  });
  stopAhead = workAhead(cast.store, cast.clock, (binId) => news.push(binId));
});
afterEach(async () => {
  held = null;
  letGo();
  stopAhead();
  await cast.close();
});

const get = async (path: string) => {
  const { status, body } = await cast.call('volunteer', 'GET', path);
  expect(status).toBe(200);
  return body;
};
const codes = (bins: { code: string }[]) => bins.map(({ code }) => code).sort();

test('F27: a board that cannot be worked out in time is told without the bins that are missing, then that they are there', async () => {
  await get(`/api/bins/${BINS.flow}/outlook`);
  held = seedOf(BINS.school);
  const board = await get('/api/board');
  expect(board.waiting.map(({ id }: { id: string }) => id)).toContain(BINS.school);
  expect(board.bins.map(({ id }: { id: string }) => id)).not.toContain(BINS.school);
  expect(board.bins.map(({ id }: { id: string }) => id)).toContain(BINS.flow);
  const { act, watch, unknown, settled } = board.counts;
  expect(act + watch + unknown + settled).toBe(board.bins.length);
  expect(news).toEqual([]);
  held = null;
  letGo();
  await expect.poll(() => news.length).toBe(1);
  const whole = await get('/api/board');
  expect(whole.waiting).toEqual([]);
  expect(codes(whole.bins)).toEqual(codes([...board.bins, ...board.waiting]));
  expect(worked).toHaveLength(whole.bins.length);
});

test('F27: where one outlook alone has room, board and duties tell the same and no bin is worked out twice for them', async () => {
  const whole = { board: await get('/api/board'), duties: await get('/api/duties'), page: await get(`/api/bins/${BINS.tote}/outlook`) };
  const bins = worked.length;
  keepAtMost(cast.store, 1);
  worked = [];
  expect(await get('/api/board')).toEqual(whole.board);
  expect(await get('/api/board')).toEqual(whole.board);
  expect(await get('/api/duties')).toEqual(whole.duties);
  expect(worked).toHaveLength(bins);
  expect(await get(`/api/bins/${BINS.tote}/outlook`)).toEqual(whole.page);
  expect(await get(`/api/bins/${BINS.flow}/outlook`)).toMatchObject({ binId: BINS.flow });
  expect(await get(`/api/bins/${BINS.tote}/outlook`)).toEqual(whole.page);
  expect(worked.length).toBeGreaterThan(bins + 1);
  expect(await get('/api/board')).toEqual(whole.board);
});

test('F27: a bin that was let go of is told as it was until its new entry is worked out', async () => {
  keepAtMost(cast.store, 1);
  await get('/api/board');
  held = seedOf(BINS.tote);
  const items = [{ materialId: 'food_scraps_veg', massKg: 1, how: 'weighed' }];
  const body = { id: freshId(), binId: BINS.tote, zone: 1, items, happenedAt: '2026-11-25T09:30:00.000Z' };
  expect((await cast.call('otherVolunteer', 'POST', '/api/feedings', body)).status).toBe(201);
  const tote = (await get('/api/board')).bins.find(({ id }: { id: string }) => id === BINS.tote);
  expect(tote).toMatchObject({ lastFedOn: null, anewSince: '2026-11-25T10:00:00.000Z' });
});
