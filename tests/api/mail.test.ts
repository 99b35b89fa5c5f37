import { describe, expect, test } from 'vitest';
import { remind } from '../../apps/api/src/services/messages/remind.ts';
import { later } from '../cast.ts';
import { mailStage } from './mail-stage.ts';

const stage = mailStage();
const { mailer, call, giveAddress, makeShift, take, states } = stage;

describe('an address', () => {
  test('gets one code and nothing else before it is confirmed; five wrong codes end it', async () => {
    await call('volunteer', 'PUT', '/api/message-setting/address', { address: 'otis@post.example' });
    const shiftId = await makeShift('2026-12-05');
    await take('volunteer', shiftId);
    await call('coordinator', 'DELETE', `/api/shifts/${shiftId}`);
    await mailer().look();
    expect(stage.sink.mails.map(({ to, body }) => [to, body.includes('code is')])).toEqual([['otis@post.example', true]]);
    const right = /code is (\d{6})/.exec(stage.sink.mails[0]!.body)![1]!;
    const wrong = right === '000000' ? '000001' : '000000';
    const tries = [];
    for (const code of [wrong, wrong, wrong, wrong, wrong, right])
      tries.push((await call('volunteer', 'POST', '/api/message-setting/address/confirm', { code })).body.code);
    expect(tries).toEqual([...Array(5).fill('code-wrong'), 'code-spent']);
    const kept = stage.cast.store.sqlite.prepare('SELECT count(*) FROM mail WHERE secret IS NOT NULL').pluck().get();
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
      stage.cast.clock.at = new Date(at);
      remind(stage.cast.store, stage.cast.clock.at);
      await mailer().look();
    }
    expect(stage.sink.mails.map(({ headers }) => /^Subject: (.*)$/m.exec(headers)![1])).toEqual([
      'Tomorrow: Long Meadow, Saturday 5 December, 10:00',
      'Soon: Long Meadow, Saturday 5 December, 10:00',
    ]);
    const { headers, body, raw } = stage.sink.mails[0]!;
    expect(headers).toMatch(/^Content-Type: text\/plain; charset=utf-8$/m);
    expect(headers).toMatch(/^Message-ID: <[0-9a-f-]{36}@gardens\.example>$/m);
    expect(headers).toMatch(/^Auto-Submitted: auto-generated$/m);
    expect(headers.replace(/\r\n\s+/g, ' ')).toMatch(/^List-Unsubscribe: .*<https:\/\/bins\.example\/reply#[\w-]{43}>/m);
    expect(body).toContain('You have a place at Long Meadow: Saturday 5 December, 10:00 (1 hour).');
    expect(body).toContain('https://bins.example/shifts/');
    expect(raw.split('\r\n').filter((line) => Buffer.byteLength(line) > 998)).toEqual([]);
  });

  test('one tap: the link shows what it is about, looking changes nothing, a press gives the place back or stops mail', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    const shiftId = await makeShift('2026-12-05');
    await take('volunteer', shiftId);
    stage.cast.clock.at = new Date('2026-12-04T10:00:10Z');
    remind(stage.cast.store, stage.cast.clock.at);
    await mailer().look();
    const token = /reply#([\w-]{43})/.exec(stage.sink.mails[0]!.body)![1]!;
    const taken = async () => (await call('coordinator', 'GET', `/api/shifts/${shiftId}`)).body.taken;
    const looked = await call(null, 'POST', '/api/reply-cards', { token });
    expect([looked.body.canGiveBack, looked.body.mail, await taken()]).toEqual([true, true, 1]);
    const pressed = await call(null, 'POST', '/api/replies', { token, does: 'give-back' });
    expect([pressed.body.canGiveBack, await taken()]).toEqual([false, 0]);
    expect((await call(null, 'POST', '/api/replies', { token, does: 'stop-mail' })).body.mail).toBe(false);
    expect((await call('volunteer', 'GET', '/api/message-setting')).body.mail).toBe(false);
    stage.cast.clock.at = new Date('2027-01-10T10:00:00Z');
    expect((await call(null, 'POST', '/api/reply-cards', { token })).body.code).toBe('code-spent');
  });

  test('C7: a cancellation goes out at once, even at night; who was not reached is there to be telephoned', async () => {
    await giveAddress('volunteer', 'otis@post.example');
    await giveAddress('otherVolunteer', 'maren@post.example');
    const shiftId = await makeShift('2026-11-26', '09:00');
    for (const who of ['volunteer', 'otherVolunteer', 'siteLead'] as const) await take(who, shiftId);
    stage.cast.clock.at = new Date('2026-11-25T23:30:00Z');
    stage.sink.badAddress = 'maren@post.example';
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
    stage.cast.clock.at = new Date('2026-11-25T22:00:00Z');
    await call('coordinator', 'PATCH', `/api/shifts/${shiftId}`, { localTime: '11:00' });
    expect(await mailer().look()).toBe(0);
    stage.cast.clock.at = new Date('2026-11-26T07:00:00Z');
    expect(await mailer().look()).toBe(1);
    expect(stage.sink.mails[0]!.body).toContain(
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
    const began = stage.cast.clock.at.getTime();
    for (let change = 0; change < 200; change += 1) {
      stage.cast.clock.at = new Date(began + change * 1500);
      const localTime = `${String(11 + (Math.floor(change / 10) % 8)).padStart(2, '0')}:00`;
      await call('coordinator', 'PATCH', `/api/shifts/${shiftIds[change % 10]}`, { localTime });
      if (change % 4 === 0) await one.look();
      if (change === 100) await call('coordinator', 'DELETE', `/api/shifts/${soon}`);
    }
    // Only the cancellation of this evening's shift has gone so far, within seconds (criteria C7).
    const subjects = () => stage.sink.mails.map(({ headers }) => /^Subject: (.*)$/m.exec(headers)![1]);
    expect(subjects()).toEqual(Array(2).fill('Cancelled: Long Meadow, Wednesday 25 November, 18:00'));
    stage.sink.mails.length = 0;
    for (let minute = 0; minute < 15; minute += 1) {
      later(stage.cast, 1);
      await one.look();
    }
    expect(stage.sink.mails.map(({ to }) => to).sort()).toEqual(['maren@post.example', 'otis@post.example']);
    expect(subjects()).toEqual(Array(2).fill('Two Gardens: 10 messages'));
    const { body } = stage.sink.mails[0]!;
    for (let day = 10; day < 20; day += 1) expect(body.replace(/=\r\n/g, '')).toContain(`${day} December, 14:00`);
    // Each shift has a link of its own to give its place back.
    const tokens = [...body.replace(/=\r\n/g, '').matchAll(/reply#([\w-]{43})/g)].map(([, token]) => token!);
    expect(new Set(tokens).size).toBe(10);
    const about = await Promise.all(tokens.map(async (token) => (await call(null, 'POST', '/api/reply-cards', { token })).body));
    expect(new Set(about.map(({ shift }) => shift.id)).size).toBe(10);
    expect(states()).toEqual([
      { state: 'dropped', n: 380 },
      { state: 'handed-over', n: 22 },
    ]);
  });
});
