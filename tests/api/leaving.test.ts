/** Somebody who may come no longer holds nothing that others wait for. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type Cast, freshId, openCast, PEOPLE, type PersonKey, SITES } from '../cast.ts';

let cast: Cast;
beforeEach(async () => {
  cast = await openCast();
});
afterEach(() => cast.close());

async function made(change: object = {}): Promise<string> {
  const id = freshId();
  const shift = { id, siteId: SITES.meadow, title: 'Round', localDate: '2026-12-05', localTime: '10:00', minutes: 60, places: 1 };
  expect((await cast.call('coordinator', 'POST', '/api/shifts', { ...shift, ...change })).status).toBe(201);
  return id;
}
async function take(who: PersonKey, shiftId: string): Promise<string> {
  const id = freshId();
  expect((await cast.call(who, 'POST', `/api/shifts/${shiftId}/sign-ups`, { id })).status).toBe(201);
  return id;
}
const read = async (shiftId: string) => (await cast.call('coordinator', 'GET', `/api/shifts/${shiftId}`)).body;
const holders = async (shiftId: string) => (await read(shiftId)).signUps.map((row: { personId: string }) => row.personId);
const change = (person: PersonKey, body: object) => cast.call('owner', 'PATCH', `/api/people/${PEOPLE[person].id}`, body);

test('a disabled person gives back what is to come, keeps what is over, and whoever waits is offered the place', async () => {
  const [next, past] = [await made(), await made({ localDate: '2026-11-25', localTime: '07:00' })];
  cast.clock.at = new Date('2026-11-25T06:00:00.000Z');
  await take('volunteer', past);
  const signUpId = await take('volunteer', next);
  cast.clock.at = new Date('2026-11-25T10:00:00.000Z');
  expect((await cast.call('otherVolunteer', 'POST', `/api/shifts/${next}/waiting`, { id: freshId() })).status).toBe(201);
  const swapId = freshId();
  const offer = { id: swapId, signUpId, toPersonId: PEOPLE.siteLead.id };
  expect((await cast.call('volunteer', 'POST', `/api/shifts/${next}/swaps`, offer)).status).toBe(201);

  expect((await change('volunteer', { disabled: true })).status).toBe(200);

  expect([await holders(next), await holders(past)]).toEqual([[], [PEOPLE.volunteer.id]]);
  expect((await cast.call('siteLead', 'POST', `/api/swaps/${swapId}/accept`, { id: freshId() })).body.code).toBe('swap-gone');
  const { items } = (await cast.call('otherVolunteer', 'GET', '/api/messages')).body;
  expect(items.map(({ kind }: { kind: string }) => kind)).toEqual(['place-offered']);
  const detail = cast.store
    .sql("SELECT detail FROM audit WHERE action = 'person-changed' AND subject = ?")
    .pluck()
    .get(PEOPLE.volunteer.id);
  expect(JSON.parse(String(detail))).toMatchObject({ disabled: true, placesGivenBack: 1 });
  expect((await change('volunteer', { disabled: false })).status).toBe(200);
  expect(await holders(next)).toEqual([]);
});

test('C20: the shift with pupils that they held together needs an adult in the same moment', async () => {
  const [classId, shiftId] = [freshId(), await made({ places: 3, pupilPlaces: 10 })];
  await cast.call('owner', 'POST', '/api/classes', { id: classId, siteId: SITES.meadow, name: 'Year 5', ageBand: '9-12' });
  for (const who of ['volunteer', 'otherVolunteer'] as const) {
    expect((await change(who, { cleared: true })).status).toBe(200);
    await take(who, shiftId);
  }
  expect((await cast.call('siteLead', 'POST', `/api/shifts/${shiftId}/groups`, { id: freshId(), classId, pupils: 8 })).status).toBe(201);
  expect((await read(shiftId)).adults).toMatchObject({ state: 'confirmed', counted: 2 });
  expect((await change('volunteer', { isAdult: false })).status).toBe(200);
  expect((await read(shiftId)).adults).toMatchObject({ state: 'needs-adult', counted: 1 });
  expect(await holders(shiftId)).toEqual([PEOPLE.otherVolunteer.id]);
});

test('another role leaves the places as they are', async () => {
  const shiftId = await made();
  await take('volunteer', shiftId);
  expect((await change('volunteer', { role: 'site-lead', siteIds: [SITES.meadow] })).status).toBe(200);
  expect(await holders(shiftId)).toEqual([PEOPLE.volunteer.id]);
});
