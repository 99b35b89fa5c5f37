import { createHash } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { type Cast, freshId, later, openCast, type PersonKey, SITES } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
beforeEach(() => {
  cast.clock.at = new Date('2026-11-25T10:00:00.000Z');
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
const take = (who: PersonKey, id: string, body: object = {}) =>
  cast.call(who, 'POST', `/api/shifts/${id}/sign-ups`, { id: freshId(), ...body });
const page = async (who: PersonKey, query = '') => (await cast.call(who, 'GET', `/api/places${query}`)).body;
const idsOf = (cards: readonly { id: string }[]) => cards.map(({ id }) => id);

describe('GET /places', () => {
  test('has my next shift first, then the three that fit me, then all that is open at my sites', async () => {
    const mine = await made();
    await take('volunteer', mine);
    const sameTime = await made({ localTime: '10:30' });
    const free = [await made({ localDate: '2026-12-06' }), await made({ localDate: '2026-12-07', siteId: SITES.school })];
    const more = [await made({ localDate: '2026-12-08' }), await made({ localDate: '2026-12-09' })];
    const full = await made({ localDate: '2026-12-10' });
    await take('otherVolunteer', full);
    const seen = await page('volunteer');
    expect(idsOf(seen.mine)).toEqual([mine]);
    expect(idsOf(seen.open)).toEqual([sameTime, ...free, ...more]);
    expect(seen.open[0].inTheWay).toBe('two-at-once');
    expect(seen.fits).toEqual([...free, more[0]]);
    // The lead of one site sees that site only, and the full shift is in nobody's list of open ones.
    expect(idsOf((await page('siteLead')).open)).toEqual([sameTime, free[0], ...more]);
    expect(idsOf((await page('volunteer', `?siteId=${SITES.school}`)).open)).toEqual([free[1]]);
    await cast.call('volunteer', 'POST', `/api/shifts/${full}/waiting`, { id: freshId() });
    expect(idsOf((await page('volunteer')).waits)).toEqual([full]);
  });

  test('shows a place on offer to those who may take it', async () => {
    const id = await made({ localDate: '2026-12-12' });
    const signUpId = freshId();
    await take('otherVolunteer', id, { id: signUpId });
    await cast.call('otherVolunteer', 'POST', `/api/shifts/${id}/swaps`, { id: freshId(), signUpId });
    const offered = async (who: PersonKey) => (await page(who)).handOvers.map((one: { place: { id: string } }) => one.place.id);
    expect([await offered('volunteer'), await offered('otherVolunteer'), await offered('pupil')]).toEqual([[id], [], []]);
  });
});

const term = (change: object) => ({
  id: freshId(),
  siteId: SITES.school,
  name: 'Spring term',
  from: '2027-02-01',
  to: '2027-03-31',
  way: 'first-come',
  opensAt: '2026-12-10T09:00:00Z',
  ...change,
});

describe('C4: first come, with a cap at first', () => {
  test('nobody holds more than two open shifts in the first 48 hours, and anybody may after that', async () => {
    await cast.call('coordinator', 'POST', '/api/sign-up-seasons', term({}));
    const weeks = { siteId: SITES.school, localDate: '2027-02-06', weeks: 4, places: 2 };
    const first = await made(weeks);
    const { items } = (await cast.call('volunteer', 'GET', `/api/shifts?from=2027-02-01&to=2027-03-31&siteId=${SITES.school}`)).body;
    const ids = idsOf(items);
    expect(ids[0]).toBe(first);
    cast.clock.at = new Date('2026-12-10T08:59:00.000Z');
    expect((await take('volunteer', ids[0]!)).body).toMatchObject({ code: 'not-open-yet', help: { opensAt: '2026-12-10T09:00:00.000Z' } });
    later(cast, 1);
    expect([await take('volunteer', ids[0]!), await take('volunteer', ids[1]!)].map(({ status }) => status)).toEqual([201, 201]);
    const third = await take('volunteer', ids[2]!);
    expect([third.status, third.body.code, third.body.help.cap]).toEqual([409, 'cap-reached', 2]);
    expect((await page('volunteer', '?days=90')).open.find(({ id }: { id: string }) => id === ids[2])?.inTheWay).toBe('cap-reached');
    // One given back makes room for another; a coordinator may put somebody on all the same.
    const held = (await cast.call('volunteer', 'GET', `/api/shifts/${ids[0]}`)).body.signUps[0].id;
    await cast.call('volunteer', 'DELETE', `/api/shifts/${ids[0]}/sign-ups/${held}`);
    expect((await take('volunteer', ids[2]!)).status).toBe(201);
    const { id: personId } = (await cast.call('volunteer', 'GET', '/api/session')).body.person;
    expect((await take('coordinator', ids[3]!, { personId })).status).toBe(201);
    cast.clock.at = new Date('2026-12-12T09:00:00.000Z');
    expect((await take('volunteer', ids[0]!)).status).toBe(201);
  });
});

describe('C4: wishes and a draw', () => {
  test('is drawn once, from a seed whose hash was shown before, and gives the same places when drawn again', async () => {
    const season = term({ siteId: SITES.meadow, way: 'draw' });
    const added = (await cast.call('siteLead', 'POST', '/api/sign-up-seasons', season)).body;
    const ids = [await made({ localDate: '2027-02-06' }), await made({ localDate: '2027-02-13', places: 2 })];
    expect((await take('volunteer', ids[0]!)).body.code).toBe('wishes-first');
    const url = `/api/sign-up-seasons/${season.id}`;
    const wish = (who: PersonKey, shiftIds: readonly string[]) => cast.call(who, 'PUT', `${url}/wishes`, { most: 2, shiftIds });
    for (const who of ['volunteer', 'otherVolunteer', 'siteLead'] as const) expect((await wish(who, ids)).status).toBe(200);
    expect((await wish('volunteer', [freshId()])).body.errors[0].pointer).toBe('/shiftIds/0');
    expect((await cast.call('siteLead', 'POST', `${url}/draw`, {})).body.code).toBe('date-in-future');
    cast.clock.at = new Date('2026-12-10T09:00:00.000Z');
    const drawn = (await cast.call('siteLead', 'POST', `${url}/draw`, {})).body;
    expect(drawn.draw).toMatchObject({ places: 3, same: true });
    expect(createHash('sha256').update(drawn.draw.seed).digest('hex')).toBe(added.seedHash);
    const taken = await Promise.all(ids.map(async (id) => (await cast.call('volunteer', 'GET', `/api/shifts/${id}`)).body.taken));
    expect(taken).toEqual([1, 2]);
    const mine = await Promise.all(
      (['volunteer', 'otherVolunteer', 'siteLead'] as const).map(async (who) => {
        const { items } = (await cast.call(who, 'GET', `/api/sign-up-seasons?siteId=${SITES.meadow}`)).body;
        return items[0].draw.mine.length;
      }),
    );
    // Three places for three people: everybody one before anybody gets a second.
    expect(mine).toEqual([1, 1, 1]);
    const { items } = (await cast.call('volunteer', 'GET', '/api/messages')).body;
    const got = items.filter(
      (one: { kind: string; shift: { id: string } | null }) => one.kind === 'place-got' && ids.includes(one.shift!.id),
    );
    expect(got).toHaveLength(1);
    expect((await cast.call('siteLead', 'POST', `${url}/draw`, {})).body.code).toBe('drawn-already');
    expect((await wish('volunteer', ids)).body.code).toBe('drawn-already');
  });

  test('that was tampered with says so', async () => {
    const text = "UPDATE sign_up_season SET draw = json_set(draw, '$.result.won[0].personId', 'somebody else') WHERE drawn_at IS NOT NULL";
    cast.store.sqlite.prepare(text).run();
    const { items } = (await cast.call('volunteer', 'GET', `/api/sign-up-seasons?siteId=${SITES.meadow}`)).body;
    expect(items[0].draw.same).toBe(false);
  });
});
