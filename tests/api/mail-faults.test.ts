import { describe, expect, test } from 'vitest';
import { mailerOf } from '../../apps/api/src/services/mail/mailer.ts';
import { smtpSender } from '../../apps/api/src/services/mail/sender.ts';
import { tellDue } from '../../apps/api/src/services/messages/keep-telling.ts';
import { remind } from '../../apps/api/src/services/messages/remind.ts';
import { later, PEOPLE } from '../cast.ts';
import { FROM, mailStage } from './mail-stage.ts';

const stage = mailStage();
const { mailer, call, giveAddress, makeShift, take, frame, states } = stage;

describe('a mail server that goes wrong', () => {
  test('F20: down for two days: the queue is kept, nobody waits, stale reminders are dropped and there is no flood', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    await take('volunteer', await makeShift('2026-11-26'));
    const cancelled = await makeShift('2026-12-20');
    await take('volunteer', cancelled);
    const dead = { ...stage.cast.app.middenry.config.mail!, port: 1 };
    const broken = mailerOf({
      store: stage.cast.store,
      clock: stage.cast.clock,
      sender: smtpSender(dead),
      from: FROM,
      publicUrl: undefined,
    });
    for (let hour = 0; hour < 46; hour += 1) {
      later(stage.cast, 60);
      remind(stage.cast.store, stage.cast.clock.at);
      if (hour === 40) await call('coordinator', 'DELETE', `/api/shifts/${cancelled}`);
      await broken.look();
    }
    const status = (await call('coordinator', 'GET', '/api/mail')).body;
    expect([status.lastError.startsWith('ECONNECTION') || status.lastError.startsWith('ESOCKET'), status.dropped]).toEqual([true, 1]);
    expect(states()).toEqual([
      { state: 'dropped', n: 1 },
      { state: 'waiting', n: 1 },
    ]);
    later(stage.cast, 10);
    await mailer().look();
    expect(stage.sink.mails.map(({ headers }) => /^Subject: (\w+)/m.exec(headers)![1])).toEqual(['Cancelled']);
    expect((await call('coordinator', 'GET', '/api/mail')).body).toMatchObject({ waiting: 0, lastError: null });
  });

  test('busy: tried again later, ever less often, and then it gets through', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    const shiftId = await makeShift('2026-12-12');
    await take('volunteer', shiftId);
    stage.sink.manner = 'busy';
    await call('coordinator', 'DELETE', `/api/shifts/${shiftId}`);
    later(stage.cast, 5);
    const one = mailer();
    for (let minute = 0; minute < 30; minute += 1) {
      await one.look();
      later(stage.cast, 1);
    }
    const tries = Number(stage.cast.store.sqlite.prepare("SELECT tries FROM mail WHERE kind = 'message'").pluck().get());
    expect(tries).toBe(5);
    stage.sink.manner = 'take';
    later(stage.cast, 60);
    expect(await one.look()).toBe(1);
  });

  test('F20: slow: pages do not wait for it; silent for too long the mail is put off, and then it goes out once', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    const shiftId = await makeShift('2026-12-12');
    await take('volunteer', shiftId);
    stage.sink.manner = 'slow';
    await call('coordinator', 'DELETE', `/api/shifts/${shiftId}`);
    later(stage.cast, 5);
    expect([await mailer(200).look(), stage.sink.waiting(), states()]).toEqual([0, 1, [{ state: 'waiting', n: 1 }]]);
    expect((await call('coordinator', 'GET', '/api/mail')).body.lastError).toMatch(/^ETIMEDOUT/);
    later(stage.cast, 5);
    const patient = mailer();
    let isOver = false;
    const looks = Promise.all([patient.look(), patient.look()]).finally(() => {
      isOver = true;
    });
    await expect.poll(stage.sink.waiting).toBe(2);
    // It says nothing for as long as these take, so they cannot have waited for it.
    const took = await take('otherVolunteer', await makeShift('2026-12-13'));
    const status = await call('coordinator', 'GET', '/api/mail');
    expect([took.status, status.status, isOver, stage.sink.mails.length]).toEqual([201, 200, false, 0]);
    stage.sink.answerNow();
    expect([await looks, stage.sink.mails.map(({ to }) => to)]).toEqual([[1, 1], ['otis@post.example']]);
    expect(states()).toEqual([{ state: 'handed-over', n: 1 }]);
  });

  test('C6: breaking off after the text was sent may have delivered it, so it is not sent twice', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    const shiftId = await makeShift('2026-12-12');
    await take('volunteer', shiftId);
    stage.sink.manner = 'cut';
    await call('coordinator', 'DELETE', `/api/shifts/${shiftId}`);
    later(stage.cast, 5);
    await mailer().look();
    stage.sink.manner = 'take';
    later(stage.cast, 120);
    await mailer().look();
    expect([stage.sink.mails.length, states()]).toEqual([1, [{ state: 'failed', n: 1 }]]);
  });

  test('H9: a test goes the way of all mail, and says what the server said', async () => {
    await giveAddress('coordinator', 'teodor@post.example');
    stage.sink.badAddress = 'teodor@post.example';
    await call('coordinator', 'POST', '/api/mail/tests', {});
    await mailer().look();
    const { test: failed, lastError } = (await call('coordinator', 'GET', '/api/mail')).body;
    expect([failed.state, failed.error, lastError]).toEqual(['failed', expect.stringContaining('550'), failed.error]);
    stage.sink.badAddress = null;
    later(stage.cast, 1);
    await call('coordinator', 'POST', '/api/mail/tests', {});
    await mailer().look();
    expect((await call('coordinator', 'GET', '/api/mail')).body.test.state).toBe('handed-over');
    expect(stage.sink.mails[0]!.body).toContain('Mail from here gets through to you.');
  });

  test('E14: neither log nor error holds the password of the mail server', async () => {
    const server = { ...stage.cast.app.middenry.config.mail!, user: 'canary-user', password: 'canary-password' };
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
    stage.cast.clock.at = new Date('1970-01-01T00:00:00Z');
    expect([await tellDue(frame()), await mailer().look(), stage.sink.mails.length]).toEqual([0, 0, 0]);
    stage.cast.clock.at = new Date('2026-11-25T10:00:30Z');
    expect((await call('volunteer', 'GET', '/api/session')).body.person.id).toBe(PEOPLE.volunteer.id);
  });
});
