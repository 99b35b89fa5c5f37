import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { type Cast, freshId, openCast, PEOPLE, type PersonKey, SITES } from '../cast.ts';

let cast: Cast;
let shiftId: string;
beforeAll(async () => {
  cast = await openCast();
});
beforeEach(async () => {
  cast.clock.at = new Date('2026-11-25T10:00:00.000Z');
  shiftId = await made();
});
afterAll(() => cast.close());

async function made(change: object = {}): Promise<string> {
  const shift = {
    id: freshId(),
    siteId: SITES.meadow,
    title: 'Round',
    localDate: '2026-12-05',
    localTime: '10:00',
    minutes: 60,
    places: 1,
  };
  await cast.call('coordinator', 'POST', '/api/shifts', { ...shift, ...change });
  return shift.id;
}
async function take(who: PersonKey, id = shiftId): Promise<string> {
  const signUpId = freshId();
  await cast.call(who, 'POST', `/api/shifts/${id}/sign-ups`, { id: signUpId });
  return signUpId;
}
async function offer(who: PersonKey, body: object, id = shiftId) {
  const swapId = freshId();
  const answer = await cast.call(who, 'POST', `/api/shifts/${id}/swaps`, { id: swapId, ...body });
  return { swapId, answer };
}
const accept = (who: PersonKey, swapId: string, body: object = {}) =>
  cast.call(who, 'POST', `/api/swaps/${swapId}/accept`, { id: freshId(), ...body });
const read = async (who: PersonKey, id = shiftId) => (await cast.call(who, 'GET', `/api/shifts/${id}`)).body;
const holders = async (id = shiftId) => (await read('coordinator', id)).signUps.map((row: { personId: string }) => row.personId);

describe('C5: a place on offer', () => {
  test('stays with whoever offers it until somebody accepts, and is then theirs', async () => {
    const signUpId = await take('volunteer');
    const { swapId, answer } = await offer('volunteer', { signUpId });
    expect([answer.status, answer.body.taken, answer.body.swaps[0].mine]).toEqual([201, 1, true]);
    expect(await holders()).toEqual([PEOPLE.volunteer.id]);
    expect((await read('otherVolunteer')).swaps).toMatchObject([{ id: swapId, mine: false, from: { name: 'Otis B.' }, to: null }]);
    expect((await read('pupil')).swaps).toEqual([]);
    expect((await accept('otherVolunteer', swapId)).status).toBe(201);
    expect(await holders()).toEqual([PEOPLE.otherVolunteer.id]);
    expect((await accept('siteLead', swapId)).body.code).toBe('swap-gone');
  });

  test('goes to whom it was made, and looks to others as if it were not there', async () => {
    const signUpId = await take('volunteer');
    const { swapId } = await offer('volunteer', { signUpId, toPersonId: PEOPLE.siteLead.id });
    expect((await read('otherVolunteer')).swaps).toEqual([]);
    expect((await accept('otherVolunteer', swapId)).status).toBe(404);
    expect((await cast.call('siteLead', 'DELETE', `/api/swaps/${swapId}`)).body.swaps).toEqual([]);
    expect(await holders()).toEqual([PEOPLE.volunteer.id]);
    expect((await accept('siteLead', swapId)).body.code).toBe('swap-gone');
  });

  test('is not free in between: whoever waits is not passed over and not offered it either', async () => {
    const signUpId = await take('volunteer');
    await cast.call('siteLead', 'POST', `/api/shifts/${shiftId}/waiting`, { id: freshId() });
    const { swapId } = await offer('volunteer', { signUpId });
    expect((await read('siteLead')).myWait).toMatchObject({ position: 1, offeredUntil: null });
    await accept('otherVolunteer', swapId);
    expect((await read('siteLead')).myWait).toMatchObject({ position: 1, offeredUntil: null });
    expect(await holders()).toEqual([PEOPLE.otherVolunteer.id]);
  });

  test('that was given back or called off is gone', async () => {
    const signUpId = await take('volunteer');
    const { swapId } = await offer('volunteer', { signUpId });
    expect((await offer('volunteer', { signUpId })).answer.body.code).toBe('swap-open');
    await cast.call('volunteer', 'DELETE', `/api/shifts/${shiftId}/sign-ups/${signUpId}`);
    expect((await accept('otherVolunteer', swapId)).body.code).toBe('swap-gone');
    expect((await offer('volunteer', { signUpId })).answer.body.code).toBe('swap-gone');
    const other = await take('volunteer');
    const second = await offer('volunteer', { signUpId: other });
    await cast.call('coordinator', 'DELETE', `/api/shifts/${shiftId}`);
    expect((await accept('otherVolunteer', second.swapId)).body.code).toBe('shift-cancelled');
  });

  test('sent twice is accepted once', async () => {
    const { swapId } = await offer('volunteer', { signUpId: await take('volunteer') });
    const body = { id: freshId() };
    const statuses = [await accept('otherVolunteer', swapId, body), await accept('otherVolunteer', swapId, body)].map(
      ({ status }) => status,
    );
    expect([statuses, await holders()]).toEqual([[201, 200], [PEOPLE.otherVolunteer.id]]);
  });
});

describe('C5: a place for a place', () => {
  test('both move at once', async () => {
    const otherShift = await made({ localDate: '2026-12-12' });
    const signUpId = await take('volunteer');
    const giveSignUpId = await take('otherVolunteer', otherShift);
    const { swapId } = await offer('volunteer', { signUpId, inReturn: [otherShift] });
    expect((await read('otherVolunteer')).swaps[0].returnable).toEqual([giveSignUpId]);
    expect((await accept('otherVolunteer', swapId)).body.errors[0].pointer).toBe('/giveSignUpId');
    expect([await holders(), await holders(otherShift)]).toEqual([[PEOPLE.volunteer.id], [PEOPLE.otherVolunteer.id]]);
    expect((await accept('otherVolunteer', swapId, { giveSignUpId })).status).toBe(201);
    expect([await holders(), await holders(otherShift)]).toEqual([[PEOPLE.otherVolunteer.id], [PEOPLE.volunteer.id]]);
  });

  test('does not happen by half: when they are on that shift already, nothing moves', async () => {
    const otherShift = await made({ localDate: '2026-12-12', places: 2 });
    const signUpId = await take('volunteer');
    await take('volunteer', otherShift);
    const giveSignUpId = await take('otherVolunteer', otherShift);
    const { swapId } = await offer('volunteer', { signUpId, inReturn: [otherShift] });
    expect((await accept('otherVolunteer', swapId, { giveSignUpId })).body.code).toBe('swap-gone');
    expect(await holders()).toEqual([PEOPLE.volunteer.id]);
    expect(await holders(otherShift)).toEqual([PEOPLE.volunteer.id, PEOPLE.otherVolunteer.id]);
    expect((await read('otherVolunteer')).swaps).toHaveLength(1);
  });
});
