import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { BINS, type Cast, freshId, openCast, PEOPLE, SITES } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
beforeEach(() => {
  cast.clock.at = new Date('2026-11-25T10:00:00.000Z');
});
afterAll(() => cast.close());

const shift = (change: object = {}) => ({
  id: freshId(),
  siteId: SITES.meadow,
  title: 'Morning round',
  localDate: '2026-11-28',
  localTime: '09:00',
  minutes: 60,
  places: 2,
  ...change,
});
const made = async (change: object = {}) => (await cast.call('coordinator', 'POST', '/api/shifts', shift(change))).body.items[0];
const take = (who: Parameters<Cast['call']>[0], shiftId: string, body: object = { id: freshId() }) =>
  cast.call(who, 'POST', `/api/shifts/${shiftId}/sign-ups`, body);

describe('POST /shifts', () => {
  test('makes the same weekday and local time for twelve weeks, over the change of the clocks', async () => {
    const body = shift({ localDate: '2027-03-07', weeks: 12, binIds: [BINS.tote], duties: [{ binId: BINS.tote, kind: 'feed' }] });
    const answer = await cast.call('siteLead', 'POST', '/api/shifts', body);
    expect(answer.status).toBe(201);
    const { items } = answer.body;
    expect(items).toHaveLength(12);
    expect(items.map((item: { localTime: string }) => item.localTime)).toEqual(Array(12).fill('09:00'));
    expect(items[2]).toMatchObject({ localDate: '2027-03-21', startsAt: '2027-03-21T09:00:00.000Z', binIds: [BINS.tote] });
    expect(items[3]).toMatchObject({
      localDate: '2027-03-28',
      startsAt: '2027-03-28T08:00:00.000Z',
      duties: [{ binId: BINS.tote, kind: 'feed' }],
    });
    expect(new Set(items.map((item: { seriesId: string }) => item.seriesId)).size).toBe(1);
  });

  test('sent twice is one row of shifts', async () => {
    const body = shift({ weeks: 3 });
    const first = await cast.call('coordinator', 'POST', '/api/shifts', body);
    const second = await cast.call('coordinator', 'POST', '/api/shifts', body);
    expect([first.status, second.status]).toEqual([201, 200]);
    expect(second.body.items).toEqual(first.body.items);
  });

  test('says when the clocks skip the time', async () => {
    const item = await made({ localDate: '2027-03-28', localTime: '01:30' });
    expect(item).toMatchObject({ timeMoved: true, startsAt: '2027-03-28T01:30:00.000Z', localTime: '01:30' });
  });

  test("refuses another site's bins, a lead's foreign site, volunteers, and dates nobody means", async () => {
    expect((await cast.call('coordinator', 'POST', '/api/shifts', shift({ binIds: [BINS.school] }))).body.code).toBe('invalid');
    expect((await cast.call('siteLead', 'POST', '/api/shifts', shift({ siteId: SITES.school }))).status).toBe(404);
    expect((await cast.call('volunteer', 'POST', '/api/shifts', shift())).status).toBe(403);
    expect((await cast.call('coordinator', 'POST', '/api/shifts', shift({ localDate: '9999-12-31', weeks: 53 }))).body.code).toBe(
      'invalid',
    );
  });
});

describe('taking a place', () => {
  test('twice with the same id is one place; with another id it is already taken', async () => {
    const { id } = await made();
    const body = { id: freshId() };
    const first = await take('volunteer', id, body);
    const again = await take('volunteer', id, body);
    expect([first.status, again.status, again.body.taken]).toEqual([201, 200, 1]);
    expect(first.body.signUps[0]).toMatchObject({ personId: PEOPLE.volunteer.id, mine: true });
    expect((await take('volunteer', id)).body.code).toBe('already-signed-up');
  });

  test('C2: of a full shift says how many wait and names the three nearest open ones that one is not on', async () => {
    const { id } = await made({ places: 1, localDate: '2026-11-29' });
    await take('volunteer', id);
    const mine = await made({ localDate: '2026-11-26' });
    await take('otherVolunteer', mine.id);
    await cast.call('siteLead', 'POST', `/api/shifts/${id}/waiting`, { id: freshId() });
    const full = await take('otherVolunteer', id);
    expect([full.status, full.body.code]).toEqual([409, 'shift-full']);
    expect(full.body.help.nearest).toHaveLength(3);
    expect(full.body.help.waitingCount).toBe(1);
    for (const near of full.body.help.nearest) {
      expect(near.taken).toBeLessThan(near.places);
      expect([id, mine.id]).not.toContain(near.id);
    }
  });

  test('is not for pupils, by themselves or by the coordinator', async () => {
    const { id } = await made();
    expect((await take('pupil', id)).status).toBe(403);
    const put = await take('coordinator', id, { id: freshId(), personId: PEOPLE.pupil.id });
    expect([put.status, put.body.code]).toEqual([409, 'pupils-need-adults']);
  });

  test('for somebody else is for the coordinator, who is in the audit', async () => {
    const { id } = await made();
    const body = { id: freshId(), personId: PEOPLE.otherVolunteer.id };
    expect((await take('volunteer', id, { ...body, id: freshId() })).status).toBe(404);
    expect((await take('coordinator', id, body)).status).toBe(201);
    expect((await take('coordinator', id, { id: freshId(), personId: PEOPLE.disabled.id })).status).toBe(404);
    const row = cast.store.sql('SELECT action FROM audit WHERE subject = ?').pluck().get(id);
    expect(row).toBe('shift.signed-somebody-up');
  });

  test('of a cancelled or past shift is refused', async () => {
    const cancelled = await made();
    await cast.call('siteLead', 'DELETE', `/api/shifts/${cancelled.id}`);
    expect((await take('volunteer', cancelled.id)).body.code).toBe('shift-cancelled');
    const past = await made({ localDate: '2026-11-24' });
    expect((await take('volunteer', past.id)).body.code).toBe('shift-over');
  });

  test('a place given back is free again, and taken again by the same person', async () => {
    const { id } = await made({ places: 1 });
    const taken = await take('volunteer', id);
    const signUpId = taken.body.signUps[0].id;
    expect((await cast.call('otherVolunteer', 'DELETE', `/api/shifts/${id}/sign-ups/${signUpId}`)).status).toBe(404);
    const back = await cast.call('volunteer', 'DELETE', `/api/shifts/${id}/sign-ups/${signUpId}`);
    expect(back.body).toMatchObject({ taken: 0, signUps: [] });
    expect((await take('volunteer', id)).status).toBe(201);
  });
});

describe('changing a shift', () => {
  test('keeps whoever is on it: fewer places than people is refused', async () => {
    const { id } = await made();
    await take('volunteer', id);
    await take('otherVolunteer', id);
    expect((await cast.call('coordinator', 'PATCH', `/api/shifts/${id}`, { places: 1 })).body.code).toBe('has-sign-ups');
    const moved = await cast.call('coordinator', 'PATCH', `/api/shifts/${id}`, { localTime: '10:30', places: 3 });
    expect(moved.body).toMatchObject({ localTime: '10:30', places: 3, taken: 2, revision: 2 });
  });

  test('is for the lead of its own site only', async () => {
    const here = await made();
    const there = await made({ siteId: SITES.school });
    expect((await cast.call('siteLead', 'PATCH', `/api/shifts/${here.id}`, { note: 'gloves' })).status).toBe(200);
    expect((await cast.call('siteLead', 'PATCH', `/api/shifts/${there.id}`, { note: 'gloves' })).status).toBe(404);
    expect((await cast.call('siteLead', 'DELETE', `/api/shifts/${there.id}`)).status).toBe(404);
  });

  test('who came is said once it has begun', async () => {
    const { id } = await made();
    const signUpId = (await take('volunteer', id)).body.signUps[0].id;
    const url = `/api/shifts/${id}/sign-ups/${signUpId}`;
    expect((await cast.call('volunteer', 'PATCH', url, { attended: true })).body.code).toBe('date-in-future');
    cast.clock.at = new Date('2026-11-28T10:30:00.000Z');
    expect((await cast.call('otherVolunteer', 'PATCH', url, { attended: true })).status).toBe(404);
    const said = await cast.call('coordinator', 'PATCH', url, { attended: true, minutes: 75 });
    expect(said.body.signUps[0]).toMatchObject({ attended: true, minutes: 75 });
    expect(said.body.over).toBe(true);
    expect((await cast.call('volunteer', 'DELETE', url)).body.code).toBe('shift-over');
  });
});

describe('GET /shifts', () => {
  test('finds mine, the open ones, and those of a site', async () => {
    const mine = await made({ siteId: SITES.school, places: 1, localDate: '2026-12-24' });
    await take('otherVolunteer', mine.id);
    const day = 'from=2026-12-24&to=2026-12-24';
    const ids = async (who: 'volunteer' | 'otherVolunteer', query: string) =>
      (await cast.call(who, 'GET', `/api/shifts?${day}${query}`)).body.items.map((item: { id: string }) => item.id);
    expect(await ids('otherVolunteer', '&mine=true')).toEqual([mine.id]);
    expect(await ids('volunteer', '&mine=true')).toEqual([]);
    expect(await ids('volunteer', '&open=true')).toEqual([]);
    expect(await ids('volunteer', `&siteId=${SITES.school}`)).toEqual([mine.id]);
  });
});
