import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { settleAll } from '../../apps/api/src/services/waiting.ts';
import { type Cast, freshId, openCast, PEOPLE, type PersonKey, SITES } from '../cast.ts';

let cast: Cast;
let shiftId: string;
beforeAll(async () => {
  cast = await openCast();
});
beforeEach(async () => {
  cast.clock.at = new Date('2026-11-25T10:00:00.000Z');
  shiftId = freshId();
  const shift = { siteId: SITES.meadow, title: 'Round', localDate: '2026-12-05', localTime: '10:00', minutes: 60, places: 1 };
  await cast.call('coordinator', 'POST', '/api/shifts', { id: shiftId, ...shift });
});
afterAll(() => cast.close());

const take = async (who: PersonKey, personId?: string) => {
  const id = freshId();
  await cast.call(who, 'POST', `/api/shifts/${shiftId}/sign-ups`, { id, ...(personId === undefined ? {} : { personId }) });
  return id;
};
/** Messages about the shift of this test. */
const told = async (who: PersonKey): Promise<{ kind: string; facts: Record<string, unknown>; urgent: boolean; over: boolean }[]> =>
  (await cast.call(who, 'GET', '/api/messages')).body.items.filter((one: { shift: { id: string } | null }) => one.shift?.id === shiftId);
const kinds = async (who: PersonKey) => (await told(who)).map(({ kind }) => kind);

describe('what people are told', () => {
  test('C7: whoever has a place is told of a moved and of a cancelled shift, and nobody else', async () => {
    await take('volunteer');
    await cast.call('coordinator', 'PATCH', `/api/shifts/${shiftId}`, { note: 'Bring gloves' });
    expect(await told('volunteer')).toEqual([]);
    await cast.call('coordinator', 'PATCH', `/api/shifts/${shiftId}`, { localTime: '11:30' });
    await cast.call('coordinator', 'DELETE', `/api/shifts/${shiftId}`);
    await cast.call('coordinator', 'DELETE', `/api/shifts/${shiftId}`);
    expect(await kinds('volunteer')).toEqual(['shift-cancelled', 'shift-changed']);
    expect((await told('volunteer'))[1]).toMatchObject({ facts: { wasDate: '2026-12-05', wasTime: '10:00' }, urgent: false });
    expect([await told('coordinator'), await told('otherVolunteer')]).toEqual([[], []]);
  });

  test('C7: in the last day before the start it is urgent, also where the shift moves nearer', async () => {
    await take('volunteer');
    await cast.call('coordinator', 'PATCH', `/api/shifts/${shiftId}`, { localDate: '2026-11-26', localTime: '09:00' });
    expect((await told('volunteer')).map(({ urgent }) => urgent)).toEqual([true]);
  });

  test('a place that is kept from the waiting list, and one that somebody else gave or took', async () => {
    const signUpId = await take('coordinator', PEOPLE.volunteer.id);
    expect(await kinds('volunteer')).toEqual(['place-got']);
    await cast.call('otherVolunteer', 'POST', `/api/shifts/${shiftId}/waiting`, { id: freshId() });
    await cast.call('coordinator', 'DELETE', `/api/shifts/${shiftId}/sign-ups/${signUpId}`);
    settleAll(cast.store, cast.clock.at);
    expect(await kinds('volunteer')).toEqual(expect.arrayContaining(['place-got', 'place-lost']));
    const [offer, ...more] = await told('otherVolunteer');
    expect([offer!.kind, offer!.facts.until, offer!.over, more]).toEqual(['place-offered', '2026-11-26T10:00:00.000Z', false, []]);
    cast.clock.at = new Date('2026-11-26T10:01:00.000Z');
    expect((await told('otherVolunteer'))[0]!.over).toBe(true);
  });

  test('C22: a swap is told to whom it is offered and back to whoever offered it, with short names', async () => {
    const signUpId = await take('volunteer');
    const swap = { id: freshId(), signUpId, toPersonId: PEOPLE.otherVolunteer.id };
    await cast.call('volunteer', 'POST', `/api/shifts/${shiftId}/swaps`, swap);
    expect(await told('otherVolunteer')).toMatchObject([{ kind: 'swap-offered', facts: { by: 'Otis B.' }, over: false }]);
    await cast.call('otherVolunteer', 'POST', `/api/swaps/${swap.id}/accept`, { id: freshId() });
    expect(await told('volunteer')).toMatchObject([{ kind: 'swap-accepted', facts: { by: 'Maren Q.' } }]);
    expect((await told('otherVolunteer'))[0]!.over).toBe(true);
  });

  test('C23: nobody tells a pupil anything', async () => {
    expect((await cast.call('pupil', 'GET', '/api/messages')).status).toBe(403);
    const rows = cast.store.sqlite.prepare('SELECT count(*) FROM message WHERE person_id = ?').pluck().get(PEOPLE.pupil.id);
    expect(rows).toBe(0);
  });
});

describe('unread', () => {
  test('is counted in the session, goes down by reading, and cannot be read for somebody else', async () => {
    await take('coordinator', PEOPLE.siteLead.id);
    const unread = async () => (await cast.call('siteLead', 'GET', '/api/session')).body.person.unreadMessages;
    const before = await unread();
    const ids = (await cast.call('siteLead', 'GET', '/api/messages')).body.items.map((one: { id: string }) => one.id);
    expect((await cast.call('volunteer', 'POST', '/api/messages/read', { ids })).body.code).toBe('not-found');
    expect(await unread()).toBe(before);
    expect((await cast.call('siteLead', 'POST', '/api/messages/read', { ids: [ids[0]] })).body.unread).toBe(before - 1);
    expect(await unread()).toBe(before - 1);
  });

  test('is told live to whom it concerns, and to nobody else', async () => {
    const here = await cast.call('siteLead', 'GET', '/api/events?once=true');
    const last = { 'last-event-id': [...here.text.matchAll(/^id: (\d+)$/gm)].at(-1)![1]! };
    await take('coordinator', PEOPLE.siteLead.id);
    const mine = await cast.call('siteLead', 'GET', '/api/events?once=true', undefined, last);
    const theirs = await cast.call('volunteer', 'GET', '/api/events?once=true', undefined, last);
    expect(mine.text).toContain(`{"topic":"message","subject":"${PEOPLE.siteLead.id}"}`);
    expect(theirs.text).toContain('"shift"');
    expect(theirs.text).not.toContain('"message"');
  });

  test('a page of messages goes on where the last one ended', async () => {
    const first = (await cast.call('siteLead', 'GET', '/api/messages?limit=1')).body;
    const second = (await cast.call('siteLead', 'GET', `/api/messages?limit=1&before=${first.items[0].id}`)).body;
    expect([first.more, second.items.length, first.items[0].id === second.items[0].id]).toEqual([true, 1, false]);
  });
});
