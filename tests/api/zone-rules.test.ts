/**
 * Criteria C12: the program starts again with other zone rules, as after an update of the zone database. No second database can be had
 * here, so the rules are changed where the whole API asks for them.
 */
import { Temporal } from 'temporal-polyfill';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import type { LocalStart, ZoneRules } from '../../apps/api/src/services/local-time.ts';
import { type Cast, freshId, openCast, SITES } from '../cast.ts';

const LOCAL_TIME = '../../apps/api/src/services/local-time.ts';
/** From this day on the place does without summer time. */
const ENDS_ON = '2027-01-01';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
afterAll(async () => {
  vi.doUnmock(LOCAL_TIME);
  // Files share what they import: the changed rules would stay for those that come after.
  vi.resetModules();
  await cast.close();
});

/** The same program on the same store, started with these rules. */
async function startAgain() {
  vi.resetModules();
  vi.doMock(LOCAL_TIME, async (original) => {
    const real = (await original()) as typeof import('../../apps/api/src/services/local-time.ts');
    const rules: ZoneRules = (local) => {
      if (local.localDate < ENDS_ON) return real.currentZoneRules(local);
      const shown = Temporal.PlainDateTime.from(`${local.localDate}T${local.localTime}`);
      return { instant: shown.toZonedDateTime('UTC').toInstant(), shown };
    };
    return { ...real, startOf: (local: LocalStart) => real.startOf(local, rules) };
  });
  const { buildApp } = await import('../../apps/api/src/app.ts');
  return buildApp({ store: cast.store, clock: cast.clock, config: cast.app.middenry.config });
}

test('C12: with new zone rules every start to come is worked out anew, at the same local time; past ones stay', async () => {
  const ids: string[] = [];
  for (const localDate of ['2026-10-10', '2026-11-28', '2027-02-06', '2027-07-10']) {
    const shift = { id: freshId(), siteId: SITES.meadow, title: 'Round', localDate, localTime: '10:00', minutes: 60, places: 2 };
    ids.push((await cast.call('coordinator', 'POST', '/api/shifts', shift)).body.items[0].id);
  }
  const signUpId = freshId();
  await cast.call('volunteer', 'POST', `/api/shifts/${ids[3]}/sign-ups`, { id: signUpId });
  const { path } = (await cast.call('volunteer', 'POST', '/api/calendar-links', { id: freshId(), label: 'Phone' })).body;
  const before = await Promise.all(ids.map(async (id) => (await cast.call('volunteer', 'GET', `/api/shifts/${id}`)).body));
  expect(before.map(({ startsAt }) => startsAt)).toEqual([
    '2026-10-10T09:00:00.000Z',
    '2026-11-28T10:00:00.000Z',
    '2027-02-06T10:00:00.000Z',
    '2027-07-10T09:00:00.000Z',
  ]);
  const feed = (await cast.call(null, 'GET', path)).text;
  expect([/DTSTART:(\S+)/.exec(feed)![1], /SEQUENCE:(\d+)/.exec(feed)![1]]).toEqual(['20270710T090000Z', '0']);
  const stored = cast.store.sqlite.prepare('SELECT * FROM shift ORDER BY id').all();

  cast.clock.at = new Date('2026-11-25T11:00:00.000Z');
  const app = await startAgain();
  const read = async (url: string) => app.inject({ method: 'GET', url, headers: { cookie: cast.cookie('volunteer') } });
  const after = await Promise.all(ids.map(async (id) => (await read(`/api/shifts/${id}`)).json()));
  expect(after.map(({ startsAt }) => startsAt)).toEqual([
    ...before.slice(0, 3).map(({ startsAt }) => startsAt),
    '2027-07-10T10:00:00.000Z',
  ]);
  expect(after.map(({ localTime }) => localTime)).toEqual(Array(4).fill('10:00'));
  // Calendars are told by a higher number, and nothing was written into the shifts.
  const later = (await read(path)).body;
  expect([/DTSTART:(\S+)/.exec(later)![1], /SEQUENCE:(\d+)/.exec(later)![1]]).toEqual(['20270710T100000Z', '1']);
  expect(cast.store.sqlite.prepare('SELECT * FROM shift ORDER BY id').all()).toEqual(stored);
  await app.close();
});
