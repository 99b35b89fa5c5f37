import type { ObstacleRule } from '@middenry/domain';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { shiftById } from '../../apps/api/src/db/repositories/shift.ts';
import { obstaclesTo, placeGroups, wishedIn } from '../../apps/api/src/services/rota-facts.ts';
import { type Cast, freshId, openCast, PEOPLE, type PersonKey, SITES } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
afterAll(() => cast.close());

const urlOf = (who: PersonKey) => `/api/people/${PEOPLE[who].id}/availability`;
const say = (who: PersonKey, body: object, by: PersonKey = who) => cast.call(by, 'PUT', urlOf(who), body);
async function shift(change: object = {}): Promise<string> {
  const id = freshId();
  // A Saturday.
  const usual = { siteId: SITES.meadow, title: 'Round', localDate: '2026-12-05', localTime: '10:00', minutes: 60, places: 2 };
  const answer = await cast.call('coordinator', 'POST', '/api/shifts', { id, ...usual, ...change });
  expect(answer.status).toBe(201);
  return id;
}
const rulesOf = (who: PersonKey, id: string): ObstacleRule[] => {
  const row = shiftById(cast.store, id)!;
  return obstaclesTo(cast, PEOPLE[who].id, [row])
    .get(id)!
    .map(({ rule }) => rule);
};

describe('availability', () => {
  test('is empty until somebody says it, and what is left out of a change stays', async () => {
    const empty = (await cast.call('volunteer', 'GET', urlOf('volunteer'))).body;
    expect(empty).toMatchObject({ weekly: [], away: [], skills: [], siteIds: [], wish: null, capPerWeek: null, saidAt: null });
    await say('volunteer', { weekly: [{ weekday: 6, from: '09:00', to: '12:00', liking: 'glad' }], wish: { count: 1, per: 'week' } });
    const after = (await say('volunteer', { skills: ['keys', 'lifting'], away: [{ from: '2026-12-20', to: '2026-12-27' }] })).body;
    expect(after).toMatchObject({
      weekly: [{ weekday: 6, from: '09:00', to: '12:00', liking: 'glad' }],
      away: [{ from: '2026-12-20', to: '2026-12-27' }],
      skills: ['keys', 'lifting'],
      wish: { count: 1, per: 'week' },
      saidAt: '2026-11-25T10:00:00.000Z',
    });
    expect((await say('volunteer', { weekly: [], wish: null })).body).toMatchObject({
      weekly: [],
      wish: null,
      skills: ['keys', 'lifting'],
    });
  });

  test("is one's own: others look in vain, a coordinator may note it down, and that is on record", async () => {
    expect((await cast.call('otherVolunteer', 'GET', urlOf('volunteer'))).status).toBe(404);
    expect((await say('volunteer', { capPerWeek: 1 }, 'otherVolunteer')).status).toBe(404);
    expect((await say('pupil', { capPerWeek: 1 }, 'pupil')).status).toBe(403);
    expect((await cast.call('coordinator', 'GET', urlOf('pupil'))).status).toBe(404);
    expect((await say('otherVolunteer', { capPerWeek: 3 }, 'coordinator')).body.capPerWeek).toBe(3);
    const { items } = (await cast.call('coordinator', 'GET', '/api/audit')).body;
    expect(items.filter(({ action }: { action: string }) => action === 'availability-noted')).toMatchObject([
      { subject: PEOPLE.otherVolunteer.id },
    ]);
  });

  test.each([
    [{ weekly: [{ weekday: 6, from: '12:00', to: '09:00' }] }, '/weekly/0/to'],
    [{ weekly: [6, 6].map((weekday, at) => ({ weekday, from: `0${8 + at}:00`, to: '12:00' })) }, '/weekly/1/from'],
    [{ away: [{ from: '2026-12-27', to: '2026-12-20' }] }, '/away/0/to'],
    [{ siteIds: [PEOPLE.pupil.id] }, '/siteIds/0'],
  ])('that makes no sense is refused at its field: %j', async (body, pointer) => {
    expect((await say('siteLead', body)).body).toMatchObject({ code: 'invalid', errors: [{ pointer }] });
  });

  test('C27: goes with whoever is erased', async () => {
    await say('otherVolunteer', { away: [{ from: '2026-12-01', to: '2026-12-01' }] });
    await say('otherVolunteer', { weekly: [{ weekday: 1, from: '09:00', to: '10:00' }], skills: ['keys'], siteIds: [SITES.school] });
    const { id } = PEOPLE.otherVolunteer;
    const count = cast.store.sqlite.prepare(
      `SELECT (SELECT count(*) FROM person_time WHERE person_id = @id) AS times, (SELECT count(*) FROM person_skill WHERE person_id = @id) AS skills,
         (SELECT count(*) FROM person_site_wish WHERE person_id = @id) AS sites, (SELECT count(*) FROM person_away WHERE person_id = @id) AS away,
         (SELECT count(*) FROM person_wish WHERE person_id = @id) AS wishes`,
    );
    const left = () => Object.values(count.get({ id }) as object);
    expect(left()).toEqual([1, 1, 1, 1, 1]);
    cast.store.sqlite.prepare("UPDATE person SET name = NULL, email = NULL, erased_at = '2026-11-25' WHERE id = ?").run(id);
    expect(left()).toEqual([0, 0, 0, 0, 0]);
  });
});

describe('obstaclesTo() says what stands between somebody and a shift', () => {
  test('nothing where nothing was said', async () => {
    expect(rulesOf('coordinator', await shift())).toEqual([]);
  });

  test('their week, days away, sites, caps, a place at the same time and the skills that all places ask for', async () => {
    await say('siteLead', { weekly: [{ weekday: 6, from: '09:00', to: '12:00' }], away: [{ from: '2026-12-12', to: '2026-12-12' }] });
    expect(rulesOf('siteLead', await shift())).toEqual([]);
    expect(rulesOf('siteLead', await shift({ localTime: '11:30' }))).toEqual(['not-available']);
    expect(rulesOf('siteLead', await shift({ localDate: '2026-12-12' }))).toEqual(['away']);
    expect(rulesOf('siteLead', await shift({ siteId: SITES.school }))).toEqual(['other-site']);
    const held = await shift({ localTime: '09:00' });
    await cast.call('siteLead', 'POST', `/api/shifts/${held}/sign-ups`, { id: freshId() });
    await say('siteLead', { capPerWeek: 1 });
    expect(rulesOf('siteLead', await shift({ localTime: '09:30' }))).toEqual(['two-at-once', 'cap-week']);
    expect(rulesOf('siteLead', held)).toEqual(['already-there']);
    const needy = await shift({ localDate: '2026-12-19' });
    const needs = (places: number) => cast.call('siteLead', 'PUT', `/api/shifts/${needy}/needs`, { needs: [{ skill: 'keys', places }] });
    expect((await needs(1)).body.needs).toEqual([{ skill: 'keys', places: 1 }]);
    expect(rulesOf('siteLead', needy)).toEqual([]);
    await needs(2);
    expect(rulesOf('siteLead', needy)).toEqual(['no-skill']);
    expect((await needs(3)).body.errors).toMatchObject([{ pointer: '/needs' }]);
  });
});

test('wishes are counted over the period, places split by skill', () => {
  expect([
    wishedIn(7, { count: 2, per: 'week' }),
    wishedIn(56, { count: 2, per: 'month' }),
    wishedIn(7, { count: 1, per: 'month' }),
  ]).toEqual([2, 4, 0]);
  expect(placeGroups(3, [{ skill: 'keys', places: 1 }])).toEqual([
    { count: 1, skills: ['keys'] },
    { count: 2, skills: [] },
  ]);
  expect(placeGroups(1, [{ skill: 'keys', places: 2 }])).toEqual([{ count: 1, skills: ['keys'] }]);
});
