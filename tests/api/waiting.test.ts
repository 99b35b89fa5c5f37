import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { settleAll } from '../../apps/api/src/services/waiting.ts';
import { type Cast, freshId, openCast, type PersonKey, SITES } from '../cast.ts';

let cast: Cast;
let shiftId: string;
beforeAll(async () => {
  cast = await openCast();
});
beforeEach(async () => {
  cast.clock.at = new Date('2026-11-25T10:00:00.000Z');
  const shift = {
    id: freshId(),
    siteId: SITES.meadow,
    title: 'Round',
    localDate: '2026-12-05',
    localTime: '10:00',
    minutes: 60,
    places: 1,
  };
  await cast.call('coordinator', 'POST', '/api/shifts', shift);
  shiftId = shift.id;
});
afterAll(() => cast.close());

const take = (who: PersonKey) => cast.call(who, 'POST', `/api/shifts/${shiftId}/sign-ups`, { id: freshId() });
const join = (who: PersonKey) => cast.call(who, 'POST', `/api/shifts/${shiftId}/waiting`, { id: freshId() });
const read = async (who: PersonKey) => (await cast.call(who, 'GET', `/api/shifts/${shiftId}`)).body;
const giveBack = async (who: PersonKey) => {
  const mine = (await read(who)).signUps.find((signUp: { mine: boolean }) => signUp.mine);
  return cast.call(who, 'DELETE', `/api/shifts/${shiftId}/sign-ups/${mine.id}`);
};

describe('waiting for a place', () => {
  test('C3: who waits first is offered the place that comes free, and it is kept for them', async () => {
    await take('volunteer');
    expect((await join('otherVolunteer')).body.myWait).toMatchObject({ position: 1, offeredUntil: null });
    expect((await join('siteLead')).body.myWait.position).toBe(2);
    await giveBack('volunteer');
    expect((await read('otherVolunteer')).myWait.offeredUntil).toBe('2026-11-26T10:00:00.000Z');
    expect((await read('siteLead')).myWait.offeredUntil).toBeNull();
    const jumped = await take('volunteer');
    expect([jumped.status, jumped.body.code, jumped.body.help.waitingCount]).toEqual([409, 'shift-full', 2]);
    expect((await take('otherVolunteer')).status).toBe(201);
    const after = await read('coordinator');
    expect(after).toMatchObject({ taken: 1, waitingCount: 1 });
  });

  test('an offer that runs out goes to the next, by the clock alone', async () => {
    await take('volunteer');
    await join('otherVolunteer');
    await join('siteLead');
    await giveBack('volunteer');
    cast.clock.at = new Date('2026-11-26T10:00:30.000Z');
    settleAll(cast.store, cast.clock.at);
    expect((await read('otherVolunteer')).myWait).toBeNull();
    expect((await read('siteLead')).myWait).toMatchObject({ position: 1, offeredUntil: '2026-11-27T10:00:30.000Z' });
  });

  test('in the last three hours the first to accept has it', async () => {
    await take('volunteer');
    await join('otherVolunteer');
    await join('siteLead');
    cast.clock.at = new Date('2026-12-05T08:00:00.000Z');
    await giveBack('volunteer');
    expect((await read('otherVolunteer')).myWait.offeredUntil).not.toBeNull();
    expect((await take('siteLead')).status).toBe(201);
    expect((await take('otherVolunteer')).body.code).toBe('shift-full');
  });

  test('more places are offered too; who leaves is passed over; only coordinators see who waits', async () => {
    await take('volunteer');
    const waitingId = (await join('otherVolunteer')).body.myWait.id;
    await join('siteLead');
    expect((await read('volunteer')).waiting).toEqual([]);
    expect((await read('coordinator')).waiting.map((row: { name: string }) => row.name)).toEqual(['Maren Quill', 'Priya Ashlund']);
    expect((await cast.call('volunteer', 'DELETE', `/api/shifts/${shiftId}/waiting/${waitingId}`)).status).toBe(404);
    await cast.call('otherVolunteer', 'DELETE', `/api/shifts/${shiftId}/waiting/${waitingId}`);
    await cast.call('coordinator', 'PATCH', `/api/shifts/${shiftId}`, { places: 2 });
    expect((await read('siteLead')).myWait.offeredUntil).not.toBeNull();
  });

  test('sent twice is one wait; whoever has a place does not wait; nobody waits for what is off', async () => {
    await take('volunteer');
    expect((await join('volunteer')).body.code).toBe('already-signed-up');
    const body = { id: freshId() };
    const send = () => cast.call('otherVolunteer', 'POST', `/api/shifts/${shiftId}/waiting`, body);
    expect([(await send()).status, (await send()).status]).toEqual([201, 200]);
    expect((await read('coordinator')).waitingCount).toBe(1);
    await cast.call('coordinator', 'DELETE', `/api/shifts/${shiftId}`);
    expect((await read('coordinator')).waitingCount).toBe(0);
    expect((await join('siteLead')).body.code).toBe('shift-cancelled');
  });
});

describe('this and later ones of a weekly row', () => {
  const row = async () => {
    const shift = {
      id: freshId(),
      siteId: SITES.meadow,
      title: 'Row',
      localDate: '2027-03-13',
      localTime: '09:00',
      minutes: 60,
      places: 2,
      weeks: 4,
    };
    return (await cast.call('coordinator', 'POST', '/api/shifts', shift)).body.items.map((item: { id: string }) => item.id) as string[];
  };
  const list = async (ids: readonly string[]) =>
    Promise.all(ids.map(async (id) => (await cast.call('volunteer', 'GET', `/api/shifts/${id}`)).body));

  test('move together by days and keep their local time; earlier ones stay', async () => {
    const ids = await row();
    await cast.call('volunteer', 'POST', `/api/shifts/${ids[2]}/sign-ups`, { id: freshId() });
    const change = { localDate: '2027-03-21', localTime: '11:00', scope: 'this-and-later' };
    expect((await cast.call('siteLead', 'PATCH', `/api/shifts/${ids[1]}`, change)).status).toBe(200);
    const after = await list(ids);
    expect(after.map((each) => each.localDate)).toEqual(['2027-03-13', '2027-03-21', '2027-03-28', '2027-04-04']);
    expect(after.map((each) => each.localTime)).toEqual(['09:00', '11:00', '11:00', '11:00']);
    expect(after[2].startsAt).toBe('2027-03-28T10:00:00.000Z');
    expect(after[2].taken).toBe(1);
  });

  test('fewer places than people on a later one changes nothing and names it', async () => {
    const ids = await row();
    for (const who of ['volunteer', 'otherVolunteer'] as const)
      await cast.call(who, 'POST', `/api/shifts/${ids[3]}/sign-ups`, { id: freshId() });
    const answer = await cast.call('coordinator', 'PATCH', `/api/shifts/${ids[0]}`, { places: 1, scope: 'this-and-later' });
    expect([answer.status, answer.body.code]).toEqual([409, 'has-sign-ups']);
    expect(answer.body.help.affected.map((shift: { id: string }) => shift.id)).toEqual([ids[3]]);
    expect((await list(ids)).map((each) => each.places)).toEqual([2, 2, 2, 2]);
  });

  test('cancelling a row that people are on is asked back first', async () => {
    const ids = await row();
    await cast.call('volunteer', 'POST', `/api/shifts/${ids[2]}/sign-ups`, { id: freshId() });
    const url = `/api/shifts/${ids[1]}?scope=this-and-later`;
    const asked = await cast.call('coordinator', 'DELETE', url);
    expect([asked.body.code, asked.body.help.affected[0].id]).toEqual(['has-sign-ups', ids[2]]);
    expect((await cast.call('coordinator', 'DELETE', `${url}&anyway=true`)).status).toBe(200);
    expect((await list(ids)).map((each) => each.cancelled)).toEqual([false, true, true, true]);
  });
});
