/** F14: a clock that is wrong. A small computer without a battery begins in 1970, and hands slip. */
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { photoDirOf } from '../../apps/api/src/photos/shelf.ts';
import { keeperOf } from '../../apps/api/src/services/keeper.ts';
import { settleAll } from '../../apps/api/src/services/waiting.ts';
import { BINS, type Cast, freshId, later, MIGRATIONS_DIR, openCast, PEOPLE, SITES } from '../cast.ts';

const DAY_MINUTES = 1440;
const HOUR_MS = 3_600_000;
const TRUE_NOW = '2026-11-25T10:00:00.000Z';

let cast: Cast;
beforeEach(async () => {
  cast = await openCast();
});
afterEach(() => cast.close());

const auditLines = () => Number(cast.store.sqlite.prepare('SELECT count(*) FROM audit').pluck().get());
const harvest = (times: { readonly happenedAt: string; readonly deviceAt?: string }) =>
  cast.call('volunteer', 'POST', '/api/harvests', { id: freshId(), binId: BINS.tote, massKg: 1, destination: 'beds', ...times });

test.each([
  ['in 1970', '1970-01-01T00:00:00.000Z'],
  ['an hour behind', '2026-11-25T09:00:00.000Z'],
  ['a day ahead', '2026-11-26T10:00:00.000Z'],
])('F14: by a clock %s pages are served, entries taken, and nobody is signed out for good', async (_, wrong) => {
  for (const who of ['volunteer', 'coordinator', 'pupil'] as const) cast.cookie(who);
  cast.clock.at = new Date(wrong);
  expect((await cast.call('volunteer', 'GET', '/api/board')).status).toBe(200);
  expect((await cast.call('volunteer', 'GET', `/api/bins/${BINS.tote}`)).status).toBe(200);
  // A phone knows what time it is; the note was made half an hour ago.
  const taken = await harvest({ happenedAt: '2026-11-25T09:30:00.000Z', deviceAt: TRUE_NOW });
  expect(taken.status).toBe(201);
  cast.clock.at = new Date(TRUE_NOW);
  for (const who of ['volunteer', 'coordinator', 'pupil'] as const)
    expect((await cast.call(who, 'GET', '/api/session')).body.person.id).toBe(PEOPLE[who].id);
});

test('F14: by a clock in 1970 an entry has the day that the phone says', async () => {
  cast.clock.at = new Date('1970-01-01T00:00:00.000Z');
  const { body } = await harvest({ happenedAt: '2026-11-25T09:30:00.000Z', deviceAt: TRUE_NOW });
  expect(body.happenedAt).toBe('2026-11-25T09:30:00.000Z');
});

test('F14: by a clock in 1970 no place is offered and no offer lapses; once it is set, the next in the list is asked, once', async () => {
  const shift = freshId();
  const made = await cast.call('coordinator', 'POST', '/api/shifts', {
    ...{ id: shift, siteId: SITES.meadow, title: 'Round', localDate: '2026-12-12', localTime: '10:00', minutes: 60, places: 1 },
  });
  expect(made.status).toBe(201);
  const signUp = freshId();
  expect((await cast.call('volunteer', 'POST', `/api/shifts/${shift}/sign-ups`, { id: signUp })).status).toBe(201);
  expect((await cast.call('otherVolunteer', 'POST', `/api/shifts/${shift}/waiting`, { id: freshId() })).status).toBe(201);
  const offers = () => cast.store.sqlite.prepare('SELECT count(offered_at) AS offered, count(ended_at) AS ended FROM waiting').get();
  cast.clock.at = new Date('1970-01-01T00:00:00.000Z');
  expect((await cast.call('volunteer', 'DELETE', `/api/shifts/${shift}/sign-ups/${signUp}`)).status).toBe(200);
  settleAll(cast.store, cast.clock.at);
  expect(offers()).toEqual({ offered: 0, ended: 0 });
  cast.clock.at = new Date(TRUE_NOW);
  settleAll(cast.store, cast.clock.at);
  settleAll(cast.store, cast.clock.at);
  expect(offers()).toEqual({ offered: 1, ended: 0 });
});

test('F14: backups go on behind a clock that was a day ahead, once an hour, and none is dropped by a clock in 1970', async () => {
  const { keeper } = cast.app.middenry;
  const made = () => keeper!.status().backups.length;
  const changed = async () => {
    expect((await harvest({ happenedAt: TRUE_NOW })).status).toBe(201);
    await keeper!.look();
    return made();
  };
  later(cast, DAY_MINUTES);
  expect(await changed()).toBe(1);
  later(cast, -DAY_MINUTES);
  expect([await changed(), await changed()]).toEqual([2, 2]);
  later(cast, 61);
  expect(await changed()).toBe(3);
  cast.clock.at = new Date('1970-01-01T00:00:00.000Z');
  expect(await changed()).toBe(4);
});

test('F14: what is kept for so many days is not cleared away by a clock that somebody set forward', async () => {
  let uptimeMs = 0;
  const { clock, store, dir } = cast;
  const file = join(dir, 'cast.db');
  const keeper = keeperOf({
    ...{ store, clock, file, dir: join(dir, 'backups'), name: 'own', hourly: false, uptimeMs: () => uptimeMs },
    ...{ photoDir: photoDirOf(cast.app.middenry.config), migrationsDir: MIGRATIONS_DIR },
  });
  const goOn = (hours: number) => {
    uptimeMs += hours * HOUR_MS;
    later(cast, hours * 60);
  };
  await keeper.look();
  const before = auditLines();
  expect(before).toBeGreaterThan(0);
  clock.at = new Date('2031-11-25T10:00:00.000Z');
  await keeper.look();
  goOn(23);
  await keeper.look();
  expect(auditLines()).toBe(before);
  // Whoever leaves it so for a day means it.
  goOn(2);
  await keeper.look();
  expect(auditLines()).toBeLessThan(before);
});
