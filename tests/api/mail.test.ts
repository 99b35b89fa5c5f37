import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { mailerOf } from '../../apps/api/src/services/mail/mailer.ts';
import { smtpSender } from '../../apps/api/src/services/mail/sender.ts';
import { tellDue } from '../../apps/api/src/services/messages/keep-telling.ts';
import { remind } from '../../apps/api/src/services/messages/remind.ts';
import { type Cast, freshId, later, openCast, PEOPLE, type PersonKey, SITES } from '../cast.ts';
import { openSink, type Sink } from './mail-sink.ts';

let sink: Sink;
let cast: Cast;
const FROM = 'bins@gardens.example';
const START = '2026-11-25T10:00:00.000Z';
beforeAll(async () => {
  sink = await openSink();
});
beforeEach(async () => {
  sink.mails.length = 0;
  sink.manner = 'take';
  sink.badAddress = null;
  cast = await openCast({ at: START, env: { SMTP_URL: sink.url, MAIL_FROM: FROM, PUBLIC_URL: 'https://bins.example' } });
});
afterEach(() => cast.close());
afterAll(() => sink.close());

const mailer = (silenceMs?: number) => {
  const { mail, publicUrl } = cast.app.middenry.config;
  return mailerOf({ store: cast.store, clock: cast.clock, sender: smtpSender(mail!, silenceMs), from: FROM, publicUrl });
};
const call = (who: PersonKey | null, method: string, url: string, body?: unknown) => cast.call(who, method, url, body);

/** Gives somebody an address the way they do it themselves: by the code in the mail. */
async function giveAddress(who: PersonKey, address: string): Promise<void> {
  await call(who, 'PUT', '/api/message-setting/address', { address });
  await mailer().look();
  const code = /code is (\d{6})/.exec(sink.mails.at(-1)!.body)![1];
  const answer = await call(who, 'POST', '/api/message-setting/address/confirm', { code });
  expect(answer.body).toMatchObject({ address, confirmed: true, mail: true });
  sink.mails.length = 0;
}

async function makeShift(localDate: string, localTime = '10:00', places = 3): Promise<string> {
  const id = freshId();
  await call('coordinator', 'POST', '/api/shifts', { id, siteId: SITES.meadow, title: 'Round', localDate, localTime, minutes: 60, places });
  return id;
}
const take = (who: PersonKey, shiftId: string) => call(who, 'POST', `/api/shifts/${shiftId}/sign-ups`, { id: freshId() });
const frame = () => cast.app.middenry;
const states = () =>
  cast.store.sqlite.prepare("SELECT state, count(*) AS n FROM mail WHERE kind = 'message' GROUP BY state ORDER BY state").all();

describe('an address', () => {
  test('gets one code and nothing else before it is confirmed; five wrong codes end it', async () => {
    await call('volunteer', 'PUT', '/api/message-setting/address', { address: 'otis@post.example' });
    const shiftId = await makeShift('2026-12-05');
    await take('volunteer', shiftId);
    await call('coordinator', 'DELETE', `/api/shifts/${shiftId}`);
    await mailer().look();
    expect(sink.mails.map(({ to, body }) => [to, body.includes('code is')])).toEqual([['otis@post.example', true]]);
    const right = /code is (\d{6})/.exec(sink.mails[0]!.body)![1]!;
    const wrong = right === '000000' ? '000001' : '000000';
    const tries = [];
    for (const code of [wrong, wrong, wrong, wrong, wrong, right])
      tries.push((await call('volunteer', 'POST', '/api/message-setting/address/confirm', { code })).body.code);
    expect(tries).toEqual([...Array(5).fill('code-wrong'), 'code-spent']);
    const kept = cast.store.sqlite.prepare('SELECT count(*) FROM mail WHERE secret IS NOT NULL').pluck().get();
    expect(kept).toBe(0);
  });

  test('nobody has a letter box filled: five codes a day', async () => {
    const asked = [];
    for (let n = 0; n < 6; n += 1)
      asked.push((await call('volunteer', 'PUT', '/api/message-setting/address', { address: 'a@post.example' })).status);
    expect(asked).toEqual([200, 200, 200, 200, 200, 429]);
  });
});

describe('mail', () => {
  test('C6: both reminders, once each, plain text by RFC 5322, with a way to stop it', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    await take('volunteer', await makeShift('2026-12-05'));
    for (const at of ['2026-12-04T10:00:10Z', '2026-12-04T10:00:40Z', '2026-12-05T08:00:10Z', '2026-12-05T08:01:00Z']) {
      cast.clock.at = new Date(at);
      remind(cast.store, cast.clock.at);
      await mailer().look();
    }
    expect(sink.mails.map(({ headers }) => /^Subject: (.*)$/m.exec(headers)![1])).toEqual([
      'Tomorrow: Long Meadow, Saturday 5 December, 10:00',
      'Soon: Long Meadow, Saturday 5 December, 10:00',
    ]);
    const { headers, body, raw } = sink.mails[0]!;
    expect(headers).toMatch(/^Content-Type: text\/plain; charset=utf-8$/m);
    expect(headers).toMatch(/^Message-ID: <[0-9a-f-]{36}@gardens\.example>$/m);
    expect(headers).toMatch(/^Auto-Submitted: auto-generated$/m);
    expect(headers.replace(/\r\n\s+/g, ' ')).toMatch(/^List-Unsubscribe: .*<https:\/\/bins\.example\/reply\/[\w-]{43}>/m);
    expect(body).toContain('You have a place at Long Meadow: Saturday 5 December, 10:00 (1 hour).');
    expect(body).toContain('https://bins.example/shifts/');
    expect(raw.split('\r\n').filter((line) => Buffer.byteLength(line) > 998)).toEqual([]);
  });

  test('one tap: the link shows what it is about, looking changes nothing, a press gives the place back or stops mail', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    const shiftId = await makeShift('2026-12-05');
    await take('volunteer', shiftId);
    cast.clock.at = new Date('2026-12-04T10:00:10Z');
    remind(cast.store, cast.clock.at);
    await mailer().look();
    const token = /reply\/([\w-]{43})/.exec(sink.mails[0]!.body)![1]!;
    const taken = async () => (await call('coordinator', 'GET', `/api/shifts/${shiftId}`)).body.taken;
    const looked = await call(null, 'GET', `/api/replies/${token}`);
    expect([looked.body.canGiveBack, looked.body.mail, await taken()]).toEqual([true, true, 1]);
    const pressed = await call(null, 'POST', `/api/replies/${token}`, { does: 'give-back' });
    expect([pressed.body.canGiveBack, await taken()]).toEqual([false, 0]);
    expect((await call(null, 'POST', `/api/replies/${token}`, { does: 'stop-mail' })).body.mail).toBe(false);
    expect((await call('volunteer', 'GET', '/api/message-setting')).body.mail).toBe(false);
    cast.clock.at = new Date('2027-01-10T10:00:00Z');
    expect((await call(null, 'GET', `/api/replies/${token}`)).body.code).toBe('code-spent');
  });

  test('C7: a cancellation goes out at once, even at night; who was not reached is there to be telephoned', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    await giveAddress('otherVolunteer', 'maren@post.example');
    const shiftId = await makeShift('2026-11-26', '09:00');
    for (const who of ['volunteer', 'otherVolunteer', 'siteLead'] as const) await take(who, shiftId);
    cast.clock.at = new Date('2026-11-25T23:30:00Z');
    sink.badAddress = 'maren@post.example';
    await call('coordinator', 'DELETE', `/api/shifts/${shiftId}`);
    expect(await mailer().look()).toBe(1);
    const told = (await call('coordinator', 'GET', `/api/shifts/${shiftId}/told`)).body.items;
    const rows = told.map(({ name, mail, call: telephone }: { name: string; mail: string; call: boolean }) => [name, mail, telephone]);
    expect(rows.sort()).toEqual([
      ['Maren Quill', 'failed', true],
      ['Otis Barrow', 'handed-over', false],
      ['Priya Ashlund', 'none', true],
    ]);
    const message = (await call('siteLead', 'GET', '/api/messages')).body.items[0];
    await call('siteLead', 'POST', '/api/messages/read', { ids: [message.id] });
    const after = (await call('coordinator', 'GET', `/api/shifts/${shiftId}/told`)).body.items;
    expect(after.filter((one: { call: boolean }) => one.call).map((one: { name: string }) => one.name)).toEqual(['Maren Quill']);
  });

  test('C6: what can wait is held back in quiet hours', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    const shiftId = await makeShift('2026-12-12');
    await take('volunteer', shiftId);
    cast.clock.at = new Date('2026-11-25T22:00:00Z');
    await call('coordinator', 'PATCH', `/api/shifts/${shiftId}`, { localTime: '11:00' });
    expect(await mailer().look()).toBe(0);
    cast.clock.at = new Date('2026-11-26T07:00:00Z');
    expect(await mailer().look()).toBe(1);
    expect(sink.mails[0]!.body).toContain(
      'It was: Saturday 12 December, 10:00.\nIt is now: Saturday 12 December, 11:00 (1 hour).'.replaceAll('\n', '\r\n'),
    );
  });
});

describe('a burst of changes', () => {
  test('C8, H11: two hundred changes in five minutes are one mail to each, which tells the end of it; what is urgent goes at once', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    await giveAddress('otherVolunteer', 'maren@post.example');
    const shiftIds: string[] = [];
    for (let day = 10; day < 20; day += 1) shiftIds.push(await makeShift(`2026-12-${day}`));
    const soon = await makeShift('2026-11-25', '18:00');
    for (const who of ['volunteer', 'otherVolunteer'] as const) for (const id of [...shiftIds, soon]) await take(who, id);
    const one = mailer();
    const began = cast.clock.at.getTime();
    for (let change = 0; change < 200; change += 1) {
      cast.clock.at = new Date(began + change * 1500);
      const localTime = `${String(11 + (Math.floor(change / 10) % 8)).padStart(2, '0')}:00`;
      await call('coordinator', 'PATCH', `/api/shifts/${shiftIds[change % 10]}`, { localTime });
      if (change % 4 === 0) await one.look();
      if (change === 100) await call('coordinator', 'DELETE', `/api/shifts/${soon}`);
    }
    // Only the cancellation of this evening's shift has gone so far, within seconds (criteria C7).
    const subjects = () => sink.mails.map(({ headers }) => /^Subject: (.*)$/m.exec(headers)![1]);
    expect(subjects()).toEqual(Array(2).fill('Cancelled: Long Meadow, Wednesday 25 November, 18:00'));
    sink.mails.length = 0;
    for (let minute = 0; minute < 15; minute += 1) {
      later(cast, 1);
      await one.look();
    }
    expect(sink.mails.map(({ to }) => to).sort()).toEqual(['maren@post.example', 'otis@post.example']);
    expect(subjects()).toEqual(Array(2).fill('Two Gardens: 10 messages'));
    const { body } = sink.mails[0]!;
    for (let day = 10; day < 20; day += 1) expect(body.replace(/=\r\n/g, '')).toContain(`${day} December, 14:00`);
    // Each shift has a link of its own to give its place back.
    const tokens = [...body.replace(/=\r\n/g, '').matchAll(/reply\/([\w-]{43})/g)].map(([, token]) => token!);
    expect(new Set(tokens).size).toBe(10);
    const about = await Promise.all(tokens.map(async (token) => (await call(null, 'GET', `/api/replies/${token}`)).body));
    expect(new Set(about.map(({ shift }) => shift.id)).size).toBe(10);
    expect(states()).toEqual([
      { state: 'dropped', n: 380 },
      { state: 'handed-over', n: 22 },
    ]);
  });
});

describe('a mail server that goes wrong', () => {
  test('F20: down for two days: the queue is kept, nobody waits, stale reminders are dropped and there is no flood', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    await take('volunteer', await makeShift('2026-11-26'));
    const cancelled = await makeShift('2026-12-20');
    await take('volunteer', cancelled);
    const dead = { ...cast.app.middenry.config.mail!, port: 1 };
    const broken = mailerOf({ store: cast.store, clock: cast.clock, sender: smtpSender(dead), from: FROM, publicUrl: undefined });
    for (let hour = 0; hour < 46; hour += 1) {
      later(cast, 60);
      remind(cast.store, cast.clock.at);
      if (hour === 40) await call('coordinator', 'DELETE', `/api/shifts/${cancelled}`);
      await broken.look();
    }
    const status = (await call('coordinator', 'GET', '/api/mail')).body;
    expect([status.lastError.startsWith('ECONNECTION') || status.lastError.startsWith('ESOCKET'), status.dropped]).toEqual([true, 1]);
    expect(states()).toEqual([
      { state: 'dropped', n: 1 },
      { state: 'waiting', n: 1 },
    ]);
    later(cast, 10);
    await mailer().look();
    expect(sink.mails.map(({ headers }) => /^Subject: (\w+)/m.exec(headers)![1])).toEqual(['Cancelled']);
    expect((await call('coordinator', 'GET', '/api/mail')).body).toMatchObject({ waiting: 0, lastError: null });
  });

  test('busy: tried again later, ever less often, and then it gets through', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    const shiftId = await makeShift('2026-12-12');
    await take('volunteer', shiftId);
    sink.manner = 'busy';
    await call('coordinator', 'DELETE', `/api/shifts/${shiftId}`);
    later(cast, 5);
    const one = mailer();
    for (let minute = 0; minute < 30; minute += 1) {
      await one.look();
      later(cast, 1);
    }
    const tries = Number(cast.store.sqlite.prepare("SELECT tries FROM mail WHERE kind = 'message'").pluck().get());
    expect(tries).toBe(5);
    sink.manner = 'take';
    later(cast, 60);
    expect(await one.look()).toBe(1);
  });

  test('F20: slow: pages do not wait for it; silent for too long the mail is put off, and then it goes out once', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    const shiftId = await makeShift('2026-12-12');
    await take('volunteer', shiftId);
    sink.manner = 'slow';
    await call('coordinator', 'DELETE', `/api/shifts/${shiftId}`);
    later(cast, 5);
    expect([await mailer(200).look(), sink.waiting(), states()]).toEqual([0, 1, [{ state: 'waiting', n: 1 }]]);
    expect((await call('coordinator', 'GET', '/api/mail')).body.lastError).toMatch(/^ETIMEDOUT/);
    later(cast, 5);
    const patient = mailer();
    let isOver = false;
    const looks = Promise.all([patient.look(), patient.look()]).finally(() => {
      isOver = true;
    });
    await expect.poll(sink.waiting).toBe(2);
    // It says nothing for as long as these take, so they cannot have waited for it.
    const took = await take('otherVolunteer', await makeShift('2026-12-13'));
    const status = await call('coordinator', 'GET', '/api/mail');
    expect([took.status, status.status, isOver, sink.mails.length]).toEqual([201, 200, false, 0]);
    sink.answerNow();
    expect([await looks, sink.mails.map(({ to }) => to)]).toEqual([[1, 1], ['otis@post.example']]);
    expect(states()).toEqual([{ state: 'handed-over', n: 1 }]);
  });

  test('C6: breaking off after the text was sent may have delivered it, so it is not sent twice', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    const shiftId = await makeShift('2026-12-12');
    await take('volunteer', shiftId);
    sink.manner = 'cut';
    await call('coordinator', 'DELETE', `/api/shifts/${shiftId}`);
    later(cast, 5);
    await mailer().look();
    sink.manner = 'take';
    later(cast, 120);
    await mailer().look();
    expect([sink.mails.length, states()]).toEqual([1, [{ state: 'failed', n: 1 }]]);
  });

  test('H9: a test goes the way of all mail, and says what the server said', async () => {
    await giveAddress('coordinator', 'teodor@post.example');
    sink.badAddress = 'teodor@post.example';
    await call('coordinator', 'POST', '/api/mail/tests', {});
    await mailer().look();
    const { test: failed, lastError } = (await call('coordinator', 'GET', '/api/mail')).body;
    expect([failed.state, failed.error, lastError]).toEqual(['failed', expect.stringContaining('550'), failed.error]);
    sink.badAddress = null;
    later(cast, 1);
    await call('coordinator', 'POST', '/api/mail/tests', {});
    await mailer().look();
    expect((await call('coordinator', 'GET', '/api/mail')).body.test.state).toBe('handed-over');
    expect(sink.mails[0]!.body).toContain('Mail from here gets through to you.');
  });

  test('E14: neither log nor error holds the password of the mail server', async () => {
    const server = { ...cast.app.middenry.config.mail!, user: 'canary-user', password: 'canary-password' };
    const outcome = await smtpSender(server).send({
      to: 'a@post.example',
      subject: 's',
      text: 't',
      messageId: '<a@b>',
      stopUrl: undefined,
    });
    expect(outcome).toMatchObject({ how: 'later', serverDown: true, error: expect.stringContaining('Wrong password ***') });
    expect(JSON.stringify(outcome)).not.toContain('canary-password');
  });
});

describe('a clock that is wrong', () => {
  test('F14: by a clock before the program was written nobody is reminded and nothing is mailed', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    await take('volunteer', await makeShift('2026-11-26', '09:00'));
    await call('coordinator', 'POST', '/api/mail/tests', {});
    cast.clock.at = new Date('1970-01-01T00:00:00Z');
    expect([await tellDue(frame()), await mailer().look(), sink.mails.length]).toEqual([0, 0, 0]);
    cast.clock.at = new Date('2026-11-25T10:00:30Z');
    expect((await call('volunteer', 'GET', '/api/session')).body.person.id).toBe(PEOPLE.volunteer.id);
  });
});
