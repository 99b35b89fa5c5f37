import { Temporal } from 'temporal-polyfill';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { openStore } from '../../apps/api/src/db/open.ts';
import { failInterruptedMail } from '../../apps/api/src/db/repositories/mail.ts';
import { messageSetting, putMessageSetting } from '../../apps/api/src/db/repositories/message-setting.ts';
import { write } from '../../apps/api/src/db/store.ts';
import { mailerOf } from '../../apps/api/src/services/mail/mailer.ts';
import type { Letter, Sender } from '../../apps/api/src/services/mail/sender.ts';
import { tellDue } from '../../apps/api/src/services/messages/keep-telling.ts';
import { watchAdults } from '../../apps/api/src/services/messages/needs-adult.ts';
import { remind } from '../../apps/api/src/services/messages/remind.ts';
import { BINS, type Cast, freshId, openCast, PEOPLE, type PersonKey, SITES } from '../cast.ts';

let cast: Cast;
const ADDRESSED = ['volunteer', 'otherVolunteer', 'coordinator'] as const;
beforeAll(async () => {
  cast = await openCast({ env: { PUBLIC_URL: 'https://bins.example' } });
  for (const who of ADDRESSED) {
    const row = messageSetting(cast.store, PEOPLE[who].id);
    const address = `${who.toLowerCase()}@post.example`;
    putMessageSetting(cast.store, { ...row, address, confirmedAt: '2026-11-25T09:00:00.000Z', mail: 1 });
  }
});
beforeEach(() => {
  cast.clock.at = new Date('2026-11-25T10:00:00.000Z');
});
afterAll(() => cast.close());

async function makeShift(change: Record<string, unknown> = {}): Promise<string> {
  const id = freshId();
  const shift = { siteId: SITES.meadow, title: 'Round', localDate: '2026-12-05', localTime: '10:00', minutes: 60, places: 3 };
  await cast.call('coordinator', 'POST', '/api/shifts', { id, ...shift, ...change });
  return id;
}
const take = async (who: PersonKey, shiftId: string): Promise<string> => {
  const id = freshId();
  await cast.call(who, 'POST', `/api/shifts/${shiftId}/sign-ups`, { id });
  return id;
};
const at = (instant: string) => {
  cast.clock.at = new Date(instant);
  return cast.clock.at;
};
const kindsOf = (who: PersonKey, shiftId: string): unknown[] =>
  cast.store.sqlite
    .prepare('SELECT kind FROM message WHERE person_id = ? AND shift_id = ? ORDER BY rowid')
    .pluck()
    .all(PEOPLE[who].id, shiftId);
/** Keeps what it is given; `crashesAt`: the process ends at that letter, before or after it left. */
function senderInto(letters: Letter[], crash: { at: number; leaves: boolean } | null): Sender {
  let count = 0;
  return {
    async send(letter) {
      count += 1;
      if (count === crash?.at && !crash.leaves) throw new Error('the process ends');
      letters.push(letter);
      if (count === crash?.at) throw new Error('the process ends');
      return { how: 'handed-over' };
    },
  };
}

describe('reminders', () => {
  test('C6: ten crashes and a clock that jumps both ways: at most one mail and one message for person, shift and kind', async () => {
    const shifts = [];
    for (let n = 0; n < 4; n += 1) shifts.push(await makeShift({ localTime: `1${n}:00` }));
    for (const shiftId of shifts) for (const who of ['volunteer', 'otherVolunteer'] as const) await take(who, shiftId);
    const letters: Letter[] = [];
    const times = [
      '12-04T09:00',
      '12-04T10:30',
      '12-04T12:30',
      '12-03T12:00',
      '12-05T07:30',
      '12-04T13:30',
      '12-05T08:30',
      '12-05T09:30',
      '12-05T06:00',
      '12-05T10:30',
      '12-05T12:30',
    ];
    for (const [n, time] of times.entries()) {
      const now = at(`2026-${time}:00.000Z`);
      // As after a crash: another connection to the same file, and mail that was on its way when it happened.
      const store = openStore({ file: `${cast.dir}/cast.db` });
      write(store, () => failInterruptedMail(store, now.toISOString()));
      remind(store, now);
      const crash = n < 10 ? { at: (n % 3) + 1, leaves: n % 2 === 0 } : null;
      const sender = senderInto(letters, crash);
      await mailerOf({ store, clock: cast.clock, sender, from: 'bins@post.example', publicUrl: undefined })
        .look()
        .catch(() => undefined);
      store.sqlite.close();
    }
    const keys = letters.map(({ to, subject }) => `${to} ${subject}`);
    expect(keys.length).toBeGreaterThan(6);
    expect(new Set(keys).size).toBe(keys.length);
    for (const shiftId of shifts)
      for (const who of ['volunteer', 'otherVolunteer'] as const) expect(kindsOf(who, shiftId)).toEqual(['reminder-day', 'reminder-hours']);
  });

  test('C6: off means off; whoever signs up late or gives back is not reminded; another day is another occasion', async () => {
    const shiftId = await makeShift();
    await cast.call('siteLead', 'PATCH', '/api/message-setting', { remindDay: false });
    await take('siteLead', shiftId);
    const signUpId = await take('volunteer', shiftId);
    await cast.call('volunteer', 'DELETE', `/api/shifts/${shiftId}/sign-ups/${signUpId}`);
    at('2026-12-04T11:00:00Z');
    await take('otherVolunteer', shiftId);
    remind(cast.store, cast.clock.at);
    expect([kindsOf('siteLead', shiftId), kindsOf('volunteer', shiftId), kindsOf('otherVolunteer', shiftId)]).toEqual([[], [], []]);
    await cast.call('coordinator', 'PATCH', `/api/shifts/${shiftId}`, { localDate: '2026-12-12' });
    remind(cast.store, at('2026-12-11T10:00:30Z'));
    remind(cast.store, at('2026-12-12T08:00:30Z'));
    expect(kindsOf('otherVolunteer', shiftId)).toEqual(['shift-changed', 'reminder-day', 'reminder-hours']);
    expect(kindsOf('siteLead', shiftId)).toEqual(['shift-changed', 'reminder-hours']);
  });

  test('F15: over the night in which the clocks change each reminder comes once, by the clocks of the site', async () => {
    const shiftId = await makeShift({ localDate: '2027-03-28', localTime: '09:00' });
    await take('volunteer', shiftId);
    const made: string[] = [];
    for (let now = Date.parse('2027-03-27T06:00:00Z'); now < Date.parse('2027-03-28T10:00:00Z'); now += 600_000)
      if (remind(cast.store, new Date(now)) > 0) made.push(new Date(now).toISOString());
    await cast.call('coordinator', 'DELETE', `/api/shifts/${shiftId}`);
    expect(made).toEqual(['2027-03-27T09:00:00.000Z', '2027-03-28T06:00:00.000Z']);
  });
});

describe('what coordinators are told', () => {
  test('C20: an adult who drops out is told once; mended and broken again is told again', async () => {
    const classId = freshId();
    await cast.call('owner', 'POST', '/api/classes', { id: classId, siteId: SITES.meadow, name: 'Year 5', ageBand: '9-12' });
    for (const who of ['volunteer', 'otherVolunteer'] as const)
      await cast.call('owner', 'PATCH', `/api/people/${PEOPLE[who].id}`, { cleared: true });
    const shiftId = await makeShift({ pupilPlaces: 10, localDate: '2026-12-19' });
    await take('volunteer', shiftId);
    const place = await take('otherVolunteer', shiftId);
    await cast.call('owner', 'POST', `/api/shifts/${shiftId}/groups`, { id: freshId(), classId, pupils: 8 });
    const look = () => watchAdults(cast.store, cast.clock.at);
    // Two coordinators and the lead of the site.
    expect(look()).toBe(0);
    await cast.call('otherVolunteer', 'DELETE', `/api/shifts/${shiftId}/sign-ups/${place}`);
    expect([look(), look()]).toEqual([3, 0]);
    const again = await take('otherVolunteer', shiftId);
    expect(look()).toBe(0);
    expect(
      (await cast.call('siteLead', 'GET', '/api/messages')).body.items.find((one: { kind: string }) => one.kind === 'needs-adult').over,
    ).toBe(true);
    await cast.call('otherVolunteer', 'DELETE', `/api/shifts/${shiftId}/sign-ups/${again}`);
    expect(look()).toBe(3);
  });

  test('C8: over a term of twelve weeks at most one routine message a day each, and none when there is nothing', async () => {
    // Bins at work would ask the model on every morning, which takes minutes and says nothing about the count.
    for (const id of Object.values(BINS)) await cast.call('owner', 'PATCH', `/api/bins/${id}`, { state: 'retired' });
    await makeShift({ localDate: '2027-01-09', weeks: 10 });
    const digests = () =>
      cast.store.sqlite
        .prepare("SELECT occasion, count(*) AS n FROM message WHERE kind = 'digest' AND person_id = ? GROUP BY occasion ORDER BY occasion")
        .all(PEOPLE.coordinator.id) as { occasion: string; n: number }[];
    let day = Temporal.PlainDate.from('2027-01-04');
    for (let n = 0; n < 84; n += 1, day = day.add({ days: 1 }))
      for (const time of ['06:40', '07:00', '07:01', '11:50', '15:00']) {
        at(`${day}T${time}:00.000Z`);
        await tellDue(cast.app.middenry);
      }
    const told = digests();
    expect(told.map(({ n }) => n)).toEqual(told.map(() => 1));
    // The row of shifts runs from the second Saturday to that of the eleventh week; nothing is open after it.
    expect([told.length, told[0]!.occasion, told.at(-1)!.occasion]).toEqual([69, '2027-01-04', '2027-03-13']);
  });
});
