import { PICTURES } from '@middenry/contract';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { BINS, type Cast, cookieIn, freshId, openCast, SITES } from '../cast.ts';

let cast: Cast;
let classId: string;
beforeEach(async () => {
  cast = await openCast();
  classId = freshId();
  await cast.call('siteLead', 'POST', '/api/classes', { id: classId, siteId: SITES.meadow, name: 'Year 5', ageBand: '9-12' });
});
afterEach(() => cast.close());

const addPupil = async (name: string, id = freshId()) =>
  (await cast.call('siteLead', 'POST', `/api/classes/${classId}/pupils`, { id, name })).body;
const enter = (classCode: string, pictures: readonly string[]) => cast.call(null, 'POST', '/api/session/pupil', { classCode, pictures });

describe('POST /api/session/pupil', () => {
  it('C29: signs a pupil in with class code and card, and no more than that', async () => {
    const card = await addPupil('Juno B.');
    expect(card.pictures).toHaveLength(4);
    const entered = await enter(card.classCode, card.pictures);
    expect(entered.status).toBe(201);
    expect(entered.body.person).toMatchObject({ id: card.id, name: 'Juno B.', role: 'pupil', owner: false });
    const cookie = cookieIn(entered);
    expect((await cast.call(null, 'GET', '/api/board', undefined, { cookie })).status).toBe(200);
    expect((await cast.call(null, 'GET', '/api/people', undefined, { cookie })).status).toBe(403);
  });

  it('C29: ends one hour after the shift that is on', async () => {
    const shift = {
      id: freshId(),
      siteId: SITES.meadow,
      title: 'Lunch club',
      localDate: '2026-11-25',
      localTime: '10:30',
      minutes: 45,
      places: 4,
    };
    expect((await cast.call('siteLead', 'POST', '/api/shifts', { ...shift, binIds: [BINS.tote] })).status).toBe(201);
    const card = await addPupil('Juno B.');
    const cookie = cookieIn(await enter(card.classCode, card.pictures));
    const isIn = async () => (await cast.call(null, 'GET', '/api/session', undefined, { cookie })).body.person !== null;
    cast.clock.at = new Date('2026-11-25T12:14:00Z');
    expect(await isIn()).toBe(true);
    cast.clock.at = new Date('2026-11-25T12:16:00Z');
    expect(await isIn()).toBe(false);
  });

  it('says the same of a wrong class and a wrong card, and makes whoever guesses wait', async () => {
    const card = await addPupil('Juno B.');
    const wrong = card.pictures.map((picture: string) => PICTURES[(PICTURES.indexOf(picture as 'acorn') + 1) % PICTURES.length]);
    const [byCard, byClass] = [await enter(card.classCode, wrong), await enter('ZZZZZ', card.pictures)];
    expect([byCard.status, byCard.body.detail]).toEqual([byClass.status, byClass.body.detail]);
    const statuses = [];
    for (let at = 0; at < 30; at += 1) statuses.push((await enter(card.classCode, wrong)).status);
    expect(statuses.slice(0, 20)).toEqual(Array(20).fill(401));
    expect(statuses.slice(23)).toEqual(Array(7).fill(429));
    expect((await enter(card.classCode, card.pictures)).status).toBe(429);
    cast.clock.at = new Date('2026-11-25T12:30:00Z');
    expect((await enter(card.classCode, card.pictures)).status).toBe(201);
  });

  it('C29: a lost card is made anew, and the old one and its sessions are dead', async () => {
    const old = await addPupil('Juno B.');
    const cookie = cookieIn(await enter(old.classCode, old.pictures));
    const renewed = await cast.call('siteLead', 'POST', `/api/pupils/${old.id}/card`, {});
    expect(renewed.status).toBe(201);
    expect(renewed.body.pictures).not.toEqual(old.pictures);
    expect((await enter(old.classCode, old.pictures)).status).toBe(401);
    expect((await cast.call(null, 'GET', '/api/session', undefined, { cookie })).body.person).toBeNull();
    expect((await enter(old.classCode, renewed.body.pictures)).status).toBe(201);
  });
});

describe('a pupil', () => {
  it('C21: is kept as first name and initial, class with age band, and the hash of a card: nothing else', async () => {
    const card = await addPupil('Juno B.');
    const columns = (table: string) => cast.store.sqlite.prepare('SELECT name FROM pragma_table_info(?)').pluck().all(table);
    expect(columns('class_pupil')).toEqual(['person_id', 'class_id']);
    expect(columns('person')).toEqual(['id', 'name', 'email', 'is_adult', 'owner', 'disabled', 'erased_at', 'created_at', 'cleared_at']);
    const row = cast.store.sqlite.prepare('SELECT name, email FROM person WHERE id = ?').get(card.id);
    expect(row).toEqual({ name: 'Juno B.', email: null });
    const secret = cast.store.sqlite.prepare('SELECT secret FROM credential WHERE person_id = ?').pluck().get(card.id);
    expect(secret).toMatch(/^[0-9a-f]{64}$/);
  });

  it.each(['Juno Barlow', 'Juno', 'juno b.', 'Juno B. 7C', ''])('is not taken as "%s"', async (name) => {
    const { status, body } = await cast.call('siteLead', 'POST', `/api/classes/${classId}/pupils`, { id: freshId(), name });
    expect([status, body.code]).toEqual([422, 'invalid']);
  });

  it('C28: is erased by an adult with name, card and session, and what is left is nobody', async () => {
    const card = await addPupil('Juno B.');
    const cookie = cookieIn(await enter(card.classCode, card.pictures));
    expect((await cast.call('siteLead', 'DELETE', `/api/pupils/${card.id}`)).status).toBe(204);
    expect((await cast.call(null, 'GET', '/api/session', undefined, { cookie })).body.person).toBeNull();
    expect((await enter(card.classCode, card.pictures)).status).toBe(401);
    const left = cast.store.sqlite.prepare('SELECT name, email FROM person WHERE id = ?').get(card.id);
    expect(left).toEqual({ name: null, email: null });
    expect((await cast.call('siteLead', 'GET', '/api/classes')).body.items[0].pupils).toEqual([]);
  });
});
