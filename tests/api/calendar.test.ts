import { readFileSync } from 'node:fs';
import { Writable } from 'node:stream';
import ICAL from 'ical.js';
import nodeIcal from 'node-ical';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Cast, freshId, later, openCast, PEOPLE, type PersonKey, SITES } from '../cast.ts';

let cast: Cast;
let logged = '';
const log = new Writable({
  write(piece, _encoding, done) {
    logged += String(piece);
    done();
  },
});
beforeAll(async () => {
  cast = await openCast({ env: { PUBLIC_URL: 'https://bins.example', LOG: 'yes' }, log });
});
afterAll(() => cast.close());

const makeShift = async (change: Record<string, unknown> = {}): Promise<string> => {
  const id = freshId();
  const shift = {
    siteId: SITES.meadow,
    title: 'Round with Maren Quill',
    localDate: '2026-12-05',
    localTime: '10:00',
    minutes: 90,
    places: 3,
  };
  await cast.call('coordinator', 'POST', '/api/shifts', { id, ...shift, ...change });
  return id;
};
const take = (who: PersonKey, shiftId: string) => cast.call(who, 'POST', `/api/shifts/${shiftId}/sign-ups`, { id: freshId() });
const makeLink = async (who: PersonKey): Promise<{ id: string; path: string }> =>
  (await cast.call(who, 'POST', '/api/calendar-links', { id: freshId(), label: 'Phone' })).body;
const read = (path: string, headers: Record<string, string> = {}) => cast.call(null, 'GET', path, undefined, headers);

interface Read {
  readonly uid: string;
  readonly start: string;
  readonly end: string;
  readonly summary: string;
  readonly status: string;
  readonly sequence: number;
  readonly changedAt: string;
}

/** The same by two parsers that know nothing of each other. */
function parsed(text: string): Read[] {
  const one = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent').map((part): Read => {
    const event = new ICAL.Event(part);
    const at = (name: string) => (part.getFirstPropertyValue(name) as ICAL.Time).toJSDate().toISOString();
    return {
      uid: event.uid,
      start: at('dtstart'),
      end: at('dtend'),
      summary: event.summary,
      status: String(part.getFirstPropertyValue('status')),
      sequence: event.sequence,
      changedAt: at('last-modified'),
    };
  });
  const other = Object.values(nodeIcal.sync.parseICS(text)).flatMap((part): Read[] => {
    if (part?.type !== 'VEVENT') return [];
    return [
      {
        uid: part.uid,
        start: part.start.toISOString(),
        end: part.end!.toISOString(),
        summary: String(part.summary),
        status: String(part.status),
        sequence: Number(part.sequence),
        changedAt: part.lastmodified!.toISOString(),
      },
    ];
  });
  const byUid = (a: Read, b: Read) => a.uid.localeCompare(b.uid);
  expect(other.sort(byUid)).toEqual(one.sort(byUid));
  return one;
}

describe('the feed', () => {
  test('C13, C14: two parsers read the same; lines, endings and times are by the book across clock changes', async () => {
    await cast.call('coordinator', 'PATCH', `/api/sites/${SITES.meadow}`, {
      name: 'Long Meadow, “hüt” 🪱🪱🪱🪱🪱🪱🪱🪱🪱🪱🪱🪱; back\\gate',
    });
    const before = await makeShift({ localDate: '2027-03-27' });
    const after = await makeShift({ localDate: '2027-03-28' });
    for (const id of [before, after]) await take('volunteer', id);
    const { text, headers } = await read((await makeLink('volunteer')).path);
    expect(headers['content-type']).toBe('text/calendar; charset=utf-8');
    const events = parsed(text);
    expect(events.map(({ uid, start, end }) => [uid, start, end])).toEqual([
      [before, '2027-03-27T10:00:00.000Z', '2027-03-27T11:30:00.000Z'],
      [after, '2027-03-28T09:00:00.000Z', '2027-03-28T10:30:00.000Z'],
    ]);
    expect(events[0]!.summary).toBe('Bin feeding – Long Meadow, “hüt” 🪱🪱🪱🪱🪱🪱🪱🪱🪱🪱🪱🪱; back\\gate');
    const lines = text.split('\r\n');
    expect(lines.filter((line) => Buffer.byteLength(line) > 75 || line.includes('\uFFFD') || /[\r\n]/.test(line))).toEqual([]);
    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
    expect(text).toMatch(/^VERSION:2\.0\r$/m);
    expect(text).toMatch(/^REFRESH-INTERVAL;VALUE=DURATION:PT1H\r$/m);
    expect(text).toMatch(/^X-PUBLISHED-TTL:PT1H\r$/m);
    expect(text).not.toContain('RRULE');
    for (const line of lines.filter((one) => /^(DTSTART|DTEND|DTSTAMP|LAST-MODIFIED)/.test(one)))
      expect(line).toMatch(/^[A-Z-]+:\d{8}T\d{6}Z$/);
    await cast.call('coordinator', 'PATCH', `/api/sites/${SITES.meadow}`, { name: 'Long Meadow' });
  });

  test('C13: the number and the instant rise with every change, also after the clock was put back, and never without one', async () => {
    const id = await makeShift();
    await take('siteLead', id);
    const { path } = await makeLink('siteLead');
    const event = async () => parsed((await read(path)).text).find(({ uid }) => uid === id)!;
    const first = await event();
    later(cast, 60);
    expect(await event()).toEqual(first);
    await cast.call('coordinator', 'PATCH', `/api/shifts/${id}`, { note: 'nothing that a calendar shows' });
    expect(await event()).toEqual(first);
    await cast.call('coordinator', 'PATCH', `/api/shifts/${id}`, { localTime: '10:30' });
    const second = await event();
    later(cast, -600);
    await cast.call('coordinator', 'PATCH', `/api/shifts/${id}`, { minutes: 60 });
    const third = await event();
    expect([second.sequence - first.sequence, third.sequence - second.sequence]).toEqual([1, 1]);
    expect(first.changedAt < second.changedAt && second.changedAt < third.changedAt).toBe(true);
    later(cast, 540);
  });

  test('C13: a cancelled shift stays for more than thirty days as cancelled; a place given back is gone', async () => {
    const [cancelled, given] = [await makeShift(), await makeShift()];
    await take('otherVolunteer', cancelled);
    const { body } = await take('otherVolunteer', given);
    const { path } = await makeLink('otherVolunteer');
    await cast.call('coordinator', 'DELETE', `/api/shifts/${cancelled}`);
    const mine = body.signUps.find((one: { mine: boolean }) => one.mine);
    await cast.call('otherVolunteer', 'DELETE', `/api/shifts/${given}/sign-ups/${mine.id}`);
    const at = cast.clock.at;
    cast.clock.at = new Date('2027-01-05T10:00:00Z');
    expect(parsed((await read(path)).text).map(({ uid, status }) => [uid, status])).toEqual([[cancelled, 'CANCELLED']]);
    cast.clock.at = at;
  });

  test("C15: own shifts only, and nobody's name", async () => {
    const own = await makeShift();
    const theirs = await makeShift();
    for (const who of ['coordinator', 'volunteer'] as const) await take(who, own);
    await take('volunteer', theirs);
    const { text } = await read((await makeLink('coordinator')).path);
    expect(parsed(text).map(({ uid }) => uid)).toEqual([own]);
    for (const { name } of Object.values(PEOPLE)) expect(text).not.toContain(name.split(' ')[0]);
  });

  test('C16: secret, revoked at once, hashed in the store, absent from the log and out of bounds for robots', async () => {
    const [one, two] = [await makeLink('volunteer'), await makeLink('volunteer')];
    const token = /^\/calendar\/([\w-]+)\.ics$/.exec(two.path)![1]!;
    expect(Buffer.from(token, 'base64url').length * 8).toBeGreaterThanOrEqual(128);
    await read(two.path);
    expect((await cast.call('volunteer', 'DELETE', `/api/calendar-links/${two.id}`)).body.revoked).toBe(true);
    expect([(await read(two.path)).status, (await read(one.path)).status]).toEqual([404, 200]);
    expect(logged).toContain('/calendar/:file');
    expect(logged).not.toContain(token);
    const kept = cast.store.sqlite.prepare('SELECT group_concat(token_hash) FROM link').pluck().get();
    expect(kept).not.toContain(token);
    expect((await read(one.path)).headers['referrer-policy']).toBe('no-referrer');
    expect(readFileSync(new URL('../../apps/web/static/robots.txt', import.meta.url), 'utf8')).toContain('Disallow: /calendar/');
  });

  test('C16: no more than two a minute for an hour, and wrong addresses are counted too', async () => {
    const { path } = await makeLink('volunteer');
    const answers = [];
    for (let n = 0; n < 121; n += 1) answers.push((await read(path)).status);
    expect([answers.slice(0, 120).every((status) => status === 200), answers[120]]).toEqual([true, 429]);
    const misses = [];
    for (let n = 0; n < 61; n += 1) misses.push((await read(`/calendar/${'x'.repeat(43)}.ics`)).status);
    expect(misses.at(-1)).toBe(429);
    later(cast, 61);
    expect((await read(path)).status).toBe(200);
  });

  test('C17: what did not change is not sent again, by tag or by date', async () => {
    const { path } = await makeLink('volunteer');
    const { headers } = await read(path);
    expect(headers['cache-control']).toBe('private, max-age=900');
    const again = await read(path, { 'if-none-match': String(headers.etag) });
    expect([again.status, again.text]).toEqual([304, '']);
    expect((await read(path, { 'if-modified-since': String(headers['last-modified']) })).status).toBe(304);
    later(cast, 1);
    await take('volunteer', await makeShift());
    expect((await read(path, { 'if-none-match': String(headers.etag) })).status).toBe(200);
    expect((await read(path, { 'if-modified-since': String(headers['last-modified']) })).status).toBe(200);
  });

  test('one shift as a file', async () => {
    const id = await makeShift();
    const answer = await cast.call('volunteer', 'GET', `/api/shifts/${id}/calendar.ics`);
    expect(answer.headers['content-disposition']).toBe('attachment; filename="shift.ics"');
    expect(parsed(answer.text).map(({ uid, start }) => [uid, start])).toEqual([[id, '2026-12-05T10:00:00.000Z']]);
  });
});
