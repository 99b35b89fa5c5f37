/** The board while a bin is being worked out anew (criteria F27). The model stands still until a test lets it go, so nothing here hangs on how fast a machine is. */
import { setTimeout as sleep } from 'node:timers/promises';
import { type Outlook, outlookOf } from '@middenry/domain';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { PATIENCE_MS, workAhead } from '../../apps/api/src/services/outlook-ahead.ts';
import { useModel } from '../../apps/api/src/services/outlook-cache.ts';
import { BINS, type Cast, freshId, openCast, type PersonKey, SITES } from '../cast.ts';

let cast: Cast;
let worked: number[];
let isHeld: boolean;
let letGo: (() => void)[];
let news: string[];
let stopAhead: () => void;

const SEED_OF = Object.fromEntries(Object.values(BINS).map((id) => [Number.parseInt(id.replaceAll('-', '').slice(-8), 16), id]));

beforeEach(async () => {
  cast = await openCast();
  [worked, isHeld, letGo, news] = [[], false, [], []];
  useModel(cast.store, async (scenario, today, settings): Promise<Outlook> => {
    worked.push(scenario.seed);
    if (isHeld) await new Promise<void>((resolve) => letGo.push(resolve));
    return outlookOf({ ...scenario, members: 4 }, today, settings);
  });
  stopAhead = workAhead(cast.store, cast.clock, (binId) => {
    news.push(binId);
    cast.app.events.again(binId);
  });
  await board('otherVolunteer');
  worked = [];
});
afterEach(async () => {
  release();
  stopAhead();
  await cast.close();
});

function release(): void {
  isHeld = false;
  for (const go of letGo.splice(0)) go();
}
const feed = async (binId: string, who: PersonKey = 'volunteer') => {
  const items = [{ materialId: 'food_scraps_veg', massKg: 1, how: 'weighed' }];
  const { status } = await cast.call(who, 'POST', '/api/feedings', {
    ...{ id: freshId(), binId, zone: 1, items, happenedAt: '2026-11-25T09:30:00.000Z' },
  });
  expect(status).toBe(201);
};
const board = async (who: PersonKey) => (await cast.call(who, 'GET', '/api/board')).body;
type Told = { id: string; lastFedOn: string | null; anewSince: string | null };
const toteOn = async (who: PersonKey): Promise<Told> => (await board(who)).bins.find(({ id }: Told) => id === BINS.tote);

test('F27: the board tells the older outlook marked with since when, then that the new one is there', async () => {
  isHeld = true;
  await feed(BINS.tote);
  expect(await toteOn('otherVolunteer')).toMatchObject({ lastFedOn: null, anewSince: '2026-11-25T10:00:00.000Z' });
  expect(news).toEqual([]);
  release();
  await expect.poll(() => news).toEqual([BINS.tote]);
  expect(await toteOn('otherVolunteer')).toMatchObject({ lastFedOn: '2026-11-25', anewSince: null });
  expect(worked).toHaveLength(1);
});

test('F27: whoever noted it, the page of the bin, its duties and a reader five seconds later wait for the new one', async () => {
  isHeld = true;
  await feed(BINS.tote);
  const answered: string[] = [];
  const asked = (name: string, work: Promise<unknown>) => work.then(() => answered.push(name));
  const waiting = [
    asked('own board', toteOn('volunteer')),
    asked('page', cast.call('otherVolunteer', 'GET', `/api/bins/${BINS.tote}/outlook`)),
    asked('duties', cast.call('otherVolunteer', 'GET', '/api/duties')),
  ];
  expect((await toteOn('otherVolunteer')).anewSince).not.toBeNull();
  cast.clock.at = new Date(cast.clock.at.getTime() + 5000);
  const late = toteOn('otherVolunteer');
  waiting.push(asked('late board', late));
  await sleep(2 * PATIENCE_MS);
  expect(answered).toEqual([]);
  release();
  await Promise.all(waiting);
  expect(await late).toMatchObject({ lastFedOn: '2026-11-25', anewSince: null });
});

test('F27: no older outlook stands in for one that anything but its own bin changed, nor for one of yesterday', async () => {
  const ofSchool = async (): Promise<Told> =>
    (await cast.call('otherVolunteer', 'GET', `/api/board?siteId=${SITES.school}`)).body.bins.find(({ id }: Told) => id === BINS.school);
  const afterAWhile = async () => {
    const told = ofSchool();
    await sleep(2 * PATIENCE_MS);
    release();
    return await told;
  };
  isHeld = true;
  await feed(BINS.school);
  expect(await ofSchool()).toMatchObject({ lastFedOn: null });
  await cast.call('coordinator', 'PATCH', `/api/sites/${SITES.school}`, { name: 'Hilltop School' });
  expect(await afterAWhile()).toMatchObject({ lastFedOn: '2026-11-25', anewSince: null });
  await expect.poll(() => news).toEqual([BINS.school]);
  const midnightMs = Date.parse('2026-11-26T00:00:00.000Z');
  cast.clock.at = new Date(midnightMs - 2000);
  await ofSchool();
  isHeld = true;
  await feed(BINS.school);
  expect((await ofSchool()).anewSince).toBe('2026-11-25T23:59:58.000Z');
  cast.clock.at = new Date(midnightMs + 1000);
  expect((await afterAWhile()).anewSince).toBeNull();
});

test('F27: changes of one bin are worked out as one, the bin that changed last first', async () => {
  isHeld = true;
  await feed(BINS.tote);
  await expect.poll(() => worked.length).toBe(1);
  for (const id of [BINS.school, BINS.flow, BINS.school, BINS.flow]) await feed(id);
  release();
  await expect.poll(() => worked.map((seed) => SEED_OF[seed])).toEqual([BINS.tote, BINS.flow, BINS.school]);
});

test('F27: what is only written down has no bin worked out anew', async () => {
  const note = { id: freshId(), binId: BINS.tote, happenedAt: '2026-11-25T09:30:00.000Z', note: 'Seen' };
  expect((await cast.call('volunteer', 'POST', '/api/notes', note)).status).toBe(201);
  expect((await toteOn('otherVolunteer')).anewSince).toBeNull();
  expect(worked).toEqual([]);
});

test('F27: a board after a feeding goes through what one bin rests on, not through all of them', async () => {
  let looks = 0;
  const { sql } = cast.store;
  Object.assign(cast.store, {
    sql: (text: string) => {
      if (text.includes('FROM shift_duty d JOIN shift s')) looks += 1;
      return sql(text);
    },
  });
  stopAhead();
  await feed(BINS.tote);
  await board('otherVolunteer');
  expect(looks).toBe(1);
});
