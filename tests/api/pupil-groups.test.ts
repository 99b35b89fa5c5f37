import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { type Cast, freshId, openCast, PEOPLE, type PersonKey, SITES } from '../cast.ts';

let cast: Cast;
let shiftId: string;
let classId: string;
let pupilIds: string[];
beforeAll(async () => {
  cast = await openCast();
  classId = freshId();
  await cast.call('siteLead', 'POST', '/api/classes', { id: classId, siteId: SITES.meadow, name: 'Year 5', ageBand: '9-12' });
  pupilIds = [freshId(), freshId()];
  for (const [at, id] of pupilIds.entries())
    await cast.call('siteLead', 'POST', `/api/classes/${classId}/pupils`, { id, name: ['Ada L.', 'Ivo K.'][at] });
  await clear('volunteer', 'otherVolunteer');
});
beforeEach(async () => {
  cast.clock.at = new Date('2026-11-25T10:00:00.000Z');
  shiftId = freshId();
  const shift = {
    siteId: SITES.meadow,
    title: 'Class',
    localDate: '2026-12-05',
    localTime: '10:00',
    minutes: 60,
    places: 4,
    pupilPlaces: 20,
  };
  await cast.call('siteLead', 'POST', '/api/shifts', { id: shiftId, ...shift });
});
afterAll(() => cast.close());

async function clear(...people: readonly PersonKey[]): Promise<void> {
  for (const who of people) await cast.call('coordinator', 'PATCH', `/api/people/${PEOPLE[who].id}`, { cleared: true });
}
async function take(who: PersonKey): Promise<string> {
  const id = freshId();
  await cast.call(who, 'POST', `/api/shifts/${shiftId}/sign-ups`, { id });
  return id;
}
async function bring(body: object) {
  const id = freshId();
  return { id, answer: await cast.call('siteLead', 'POST', `/api/shifts/${shiftId}/groups`, { id, classId, ...body }) };
}
const read = async (who: PersonKey = 'siteLead') => (await cast.call(who, 'GET', `/api/shifts/${shiftId}`)).body;
const checkIn = (groupId: string) => cast.call('siteLead', 'PATCH', `/api/shifts/${shiftId}/groups/${groupId}`, { checkedIn: true });

describe('C19: pupils on a shift', () => {
  test('are confirmed only by two adults who are 18 and cleared', async () => {
    const { answer } = await bring({ pupils: 8 });
    expect(answer.body.adults).toEqual({ state: 'needs-adult', pupils: 8, needed: 2, counted: 0 });
    await take('volunteer');
    await take('siteLead');
    expect((await read()).adults).toMatchObject({ state: 'needs-adult', counted: 1 });
    await take('otherVolunteer');
    expect((await read('volunteer')).adults).toMatchObject({ state: 'confirmed', counted: 2 });
  });

  test('need more adults when there are more of them than the age allows', async () => {
    await take('volunteer');
    await take('otherVolunteer');
    expect((await bring({ pupils: 17 })).answer.body.adults).toMatchObject({ state: 'needs-adult', needed: 3, counted: 2 });
  });

  test('come with one adult only where somebody wrote down why, and that is in the audit', async () => {
    await bring({ pupils: 4 });
    await take('volunteer');
    const lower = (body: object) => cast.call('siteLead', 'PATCH', `/api/shifts/${shiftId}`, body);
    expect((await lower({ leastAdults: 1 })).body.errors[0].pointer).toBe('/leastAdultsReason');
    expect((await lower({ leastAdultsReason: 'The teacher stays in the room.' })).status).toBe(422);
    const lowered = await lower({ leastAdults: 1, leastAdultsReason: 'The teacher stays in the room.' });
    expect(lowered.body).toMatchObject({ adults: { state: 'confirmed', needed: 1 }, leastAdultsReason: 'The teacher stays in the room.' });
    expect((await read('volunteer')).leastAdultsReason).toBe('');
    const row = cast.store.sql("SELECT detail FROM audit WHERE subject = ? AND action = 'shift.changed'").pluck().get(shiftId);
    expect(String(row)).toContain('The teacher stays in the room.');
    expect((await lower({ leastAdults: 2 })).body).toMatchObject({ adults: { state: 'needs-adult' }, leastAdultsReason: '' });
  });

  test('C1: are never more than there are places for them', async () => {
    expect((await bring({ pupils: 21 })).answer.body).toMatchObject({ code: 'shift-full', help: { pupilPlacesLeft: 20 } });
    await bring({ pupils: 20 });
    expect((await bring({ pupils: 1 })).answer.body.code).toBe('already-signed-up');
    expect((await cast.call('siteLead', 'PATCH', `/api/shifts/${shiftId}`, { pupilPlaces: 19 })).body.code).toBe('has-sign-ups');
  });
});

describe('C20: when an adult drops out', () => {
  test('the shift needs an adult at once, and nobody is checked in until it is mended', async () => {
    await take('volunteer');
    const signUpId = await take('otherVolunteer');
    const { id } = await bring({ pupils: 8 });
    expect((await read()).adults.state).toBe('confirmed');
    await cast.call('otherVolunteer', 'DELETE', `/api/shifts/${shiftId}/sign-ups/${signUpId}`);
    expect((await read('pupil')).adults).toMatchObject({ state: 'needs-adult', counted: 1 });
    const refused = await checkIn(id);
    expect([refused.status, refused.body.code, refused.body.help.counted]).toEqual([409, 'pupils-need-adults', 1]);
    await take('otherVolunteer');
    expect((await checkIn(id)).body.groups[0].checkedInAt).toBe('2026-11-25T10:00:00.000Z');
  });

  test('who is no longer cleared, not 18, or known not to have come does not count', async () => {
    await take('volunteer');
    const signUpId = await take('otherVolunteer');
    const { id } = await bring({ pupils: 8 });
    await cast.call('coordinator', 'PATCH', `/api/people/${PEOPLE.volunteer.id}`, { isAdult: false });
    expect((await read()).adults).toMatchObject({ state: 'needs-adult', counted: 1 });
    await cast.call('coordinator', 'PATCH', `/api/people/${PEOPLE.volunteer.id}`, { isAdult: true });
    expect((await read()).adults.counted).toBe(1);
    await clear('volunteer');
    // Their place went back when they turned out not to be 18.
    expect((await read()).adults.counted).toBe(1);
    await take('volunteer');
    expect((await read()).adults.state).toBe('confirmed');
    cast.clock.at = new Date('2026-12-05T10:05:00.000Z');
    await cast.call('otherVolunteer', 'PATCH', `/api/shifts/${shiftId}/sign-ups/${signUpId}`, { attended: false });
    expect((await checkIn(id)).body.code).toBe('pupils-need-adults');
  });
});

describe('C20: a pupil with a card', () => {
  test('gets in to a shift that their class comes to only while enough adults are there', async () => {
    const card = (await cast.call('siteLead', 'POST', `/api/classes/${classId}/pupils`, { id: freshId(), name: 'Noor P.' })).body;
    const enter = () => cast.call(null, 'POST', '/api/session/pupil', { classCode: card.classCode, pictures: card.pictures });
    // A day of its own: the shifts of the other tests stand on the same one.
    await cast.call('siteLead', 'PATCH', `/api/shifts/${shiftId}`, { localDate: '2026-12-08' });
    await take('volunteer');
    await bring({ pupils: 8 });
    cast.clock.at = new Date('2026-12-08T09:50:00.000Z');
    const refused = await enter();
    expect([refused.status, refused.body.code]).toEqual([409, 'pupils-need-adults']);
    await take('otherVolunteer');
    expect((await enter()).status).toBe(201);
  });
});

describe('C22: pupils by name', () => {
  test('are seen by leads and coordinators as first name and initial, and by nobody else', async () => {
    const { answer } = await bring({ pupilIds });
    expect(answer.body.groups).toMatchObject([{ className: 'Year 5', pupils: 2, names: ['Ada L.', 'Ivo K.'] }]);
    expect((await read('volunteer')).groups).toMatchObject([{ pupils: 2, names: [] }]);
    expect((await bring({ pupilIds: [PEOPLE.volunteer.id] })).answer.body.errors[0].pointer).toBe('/pupilIds/0');
  });

  test('are off the shift when they are erased or the group is taken off', async () => {
    const { id } = await bring({ pupilIds });
    await cast.call('siteLead', 'DELETE', `/api/pupils/${pupilIds[0]}`);
    expect((await read()).groups[0].names).toEqual(['Ivo K.']);
    const off = await cast.call('siteLead', 'DELETE', `/api/shifts/${shiftId}/groups/${id}`);
    expect(off.body).toMatchObject({ groups: [], adults: { state: 'no-pupils' } });
  });
});
