/** F15: the clocks change while the server runs. What local times are which instants is told by Temporal, which we did not write. */
import { outlookOf } from '@middenry/domain';
import { Temporal } from 'temporal-polyfill';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { tellDue } from '../../apps/api/src/services/messages/keep-telling.ts';
import { useModel } from '../../apps/api/src/services/outlook-cache.ts';
import { type Cast, freshId, openCast, PEOPLE, type PersonKey, SITES } from '../cast.ts';

const ZONE = 'Europe/London';
let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
  // Nothing here is about bins.
  useModel(cast.store, (scenario, today, settings) => outlookOf({ ...scenario, members: 1 }, today, settings));
});
afterAll(() => cast.close());

const instantOf = (local: string): number => Temporal.PlainDateTime.from(local).toZonedDateTime(ZONE).epochMilliseconds;
const isoOf = (ms: number): string => new Date(ms).toISOString();

async function placeOn(localDate: string, localTime: string): Promise<string> {
  const id = freshId();
  const shift = { id, siteId: SITES.meadow, title: `At ${localTime}`, localDate, localTime, minutes: 60, places: 3 };
  // Months go by, so everybody comes in anew.
  const send = (who: PersonKey, url: string, body: object) =>
    cast.call(null, 'POST', url, body, { cookie: cast.app.middenry.cookieOf(PEOPLE[who].id) });
  expect((await send('coordinator', '/api/shifts', shift)).status).toBe(201);
  expect((await send('volunteer', `/api/shifts/${id}/sign-ups`, { id: freshId() })).status).toBe(201);
  return id;
}

const LOOK_MINUTES = 10;
const MINUTE_MS = 60_000;
const HOUR_MS = 3_600_000;

test.each([
  ['forward', '2027-03-28', 23],
  ['back', '2027-10-31', 25],
])('F15: the clocks go %s while the server runs: each reminder comes once, at its own time', async (_, day, hours) => {
  const date = Temporal.PlainDate.from(day);
  const dayBefore = date.subtract({ days: 1 }).toString();
  expect((instantOf(`${date.add({ days: 1 })}T00:00`) - instantOf(`${day}T00:00`)) / HOUR_MS).toBe(hours);
  cast.clock.at = new Date(instantOf(`${dayBefore}T08:00`));
  const times = ['09:30', '11:00', '15:00'];
  const shifts = new Map<string, string>();
  for (const time of times) shifts.set(await placeOn(day, time), time);
  const end = instantOf(`${day}T16:00`);
  for (let at = cast.clock.at.getTime(); at <= end; at += LOOK_MINUTES * MINUTE_MS) {
    cast.clock.at = new Date(at);
    await tellDue(cast.app.middenry);
  }
  const told = cast.store.sqlite
    .prepare(
      "SELECT shift_id AS shift, kind, made_at AS at FROM message WHERE person_id = ? AND kind LIKE 'reminder-%' AND made_at >= ? ORDER BY made_at, kind",
    )
    .all(PEOPLE.volunteer.id, isoOf(instantOf(`${dayBefore}T00:00`))) as { shift: string; kind: string; at: string }[];
  const isOurs = told.filter(({ shift }) => shifts.has(shift)).map(({ shift, kind, at }) => [shifts.get(shift), kind, at]);
  const due = times.flatMap((time) => [
    [time, 'reminder-day', isoOf(instantOf(`${dayBefore}T${time}`))],
    [time, 'reminder-hours', isoOf(instantOf(`${day}T${time}`) - 2 * HOUR_MS)],
  ]);
  expect(isOurs.sort()).toEqual(due.sort());
});
