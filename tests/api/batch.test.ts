/** Entries that waited on a phone, sent together (criteria B13, B14, B15, B23, B24, F28), and what the phone carries (E.2). */
import { HOURS_PER_DAY } from '@middenry/domain';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { BINS, type Cast, freshId, later, openCast, PEOPLE, type PersonKey } from '../cast.ts';
import { feeding } from './hostile/stage.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
afterAll(() => cast.close());

const rows = () => cast.store.sqlite.prepare('SELECT count(*) FROM entry').pluck().get() as number;
const note = (text: string, id = freshId()) => ({
  kind: 'note',
  body: { id, binId: BINS.tote, happenedAt: '2026-11-24T10:00:00Z', note: text },
});
const food = (id = freshId()) => ({ kind: 'feeding', body: feeding(id) });
const send = (who: PersonKey, entries: unknown[], more: object = {}, headers: Record<string, string> = {}) => {
  const body = { personId: PEOPLE[who as 'volunteer'].id, deviceAt: cast.clock.at.toISOString(), entries, ...more };
  return cast.call(who, 'POST', '/api/entries/batch', body, headers);
};
const statuses = (answer: { body: { items: { status: number }[] } }) => answer.body.items.map(({ status }) => status);
let before: number;
beforeEach(() => {
  before = rows();
});

describe('POST /api/entries/batch', () => {
  it('F28: takes fifty in their order, and knows all fifty again when the answer was lost', async () => {
    const fifty = Array.from({ length: 50 }, (_, n) => note(`number ${n}`));
    const first = await send('volunteer', fifty);
    expect([first.status, statuses(first)]).toEqual([200, Array(50).fill(201)]);
    expect(first.body.items.map(({ entry }: { entry: { note: string } }) => entry.note)).toEqual(fifty.map(({ body }) => body.note));
    expect(statuses(await send('volunteer', fifty))).toEqual(Array(50).fill(200));
    expect(rows()).toBe(before + 50);
  });

  it('B14: one that is refused says why, leaves no trace, and keeps none of the others out', async () => {
    const bad = { kind: 'feeding', body: { ...feeding(freshId()), zone: 3 } };
    const unread = { kind: 'check', body: { id: freshId(), smell: 'roses' } };
    const answer = await send('volunteer', [note('before'), bad, unread, food()]);
    expect(statuses(answer)).toEqual([201, 422, 422, 201]);
    expect(answer.body.items.map(({ problem }: { problem?: { code: string } }) => problem?.code)).toEqual([
      undefined,
      'zone-unknown',
      'invalid',
      undefined,
    ]);
    expect(answer.body.items[2].problem.errors.map(({ pointer }: { pointer: string }) => pointer)).toContain('/binId');
    expect(rows()).toBe(before + 2);
    // Mended under the same id it is taken.
    expect(statuses(await send('volunteer', [{ ...bad, body: { ...bad.body, zone: 1 } }]))).toEqual([201]);
  });

  it('B13: is the same entry whether it came by itself or with others; other content is refused', async () => {
    const one = food();
    expect((await cast.call('volunteer', 'POST', '/api/feedings', one.body)).status).toBe(201);
    expect(statuses(await send('volunteer', [one, one]))).toEqual([200, 200]);
    expect(statuses(await send('volunteer', [{ ...one, body: { ...one.body, note: 'other' } }]))).toEqual([422]);
    expect(rows()).toBe(before + 1);
  });

  it('B15: is never taken for anybody but its author', async () => {
    const answer = await send('otherVolunteer', [note('not mine')], { personId: PEOPLE.volunteer.id });
    expect([answer.status, answer.body.code, rows()]).toEqual([403, 'signed-in-as-another', before]);
  });

  it('goes back whole when the store fails in the middle', async () => {
    cast.store.sqlite.exec(
      "CREATE TRIGGER fails BEFORE INSERT ON entry WHEN NEW.note = 'fails' BEGIN SELECT abs(-9223372036854775808); END",
    );
    const answer = await send('volunteer', [note('first'), note('fails'), note('last')]);
    cast.store.sqlite.exec('DROP TRIGGER fails');
    expect([answer.status, rows()]).toEqual([500, before]);
  });

  it('B24: corrects the times of a phone that is more than a day fast by when it was sent', async () => {
    const fast = new Date(cast.clock.at.getTime() + 26 * 3_600_000);
    const entry = note('fast clock');
    const happenedAt = new Date(fast.getTime() - 3_600_000).toISOString();
    const answer = await send('volunteer', [{ ...entry, body: { ...entry.body, happenedAt } }], { deviceAt: fast.toISOString() });
    const [{ entry: kept }] = answer.body.items;
    expect([kept.clockSkewed, kept.happenedAt]).toEqual([true, new Date(cast.clock.at.getTime() - 3_600_000).toISOString()]);
    later(cast, 1);
    const late = new Date(fast.getTime() + 60_000).toISOString();
    expect(statuses(await send('volunteer', [{ ...entry, body: { ...entry.body, happenedAt } }], { deviceAt: late }))).toEqual([200]);
  });

  it.each([
    ['one older', '1', 200],
    ['the same', '2', 200],
    ['one newer', '3', 200],
    ['two older', '0', 426],
    ['two newer', '4', 426],
    ['no number', 'x', 426],
  ])('B23: pages of a release that is %s', async (_, release, status) => {
    const answer = await send('volunteer', [note('release')], {}, { 'middenry-release': release });
    expect([answer.status, rows()]).toEqual([status, before + (status === 200 ? 1 : 0)]);
    if (status === 426) expect(answer.body.code).toBe('update-first');
  });
});

describe('GET /api/pocket', () => {
  const read = (who: PersonKey, headers: Record<string, string> = {}) => cast.call(who, 'GET', '/api/pocket', undefined, headers);

  it('E.2: carries nobody else’s name and nobody else’s words', async () => {
    await send('otherVolunteer', [note('Ask Cyril Vane about the lid')]);
    await send('volunteer', [note('my own words')]);
    const { status, text, body } = await read('volunteer');
    expect(status).toBe(200);
    expect(text).toContain('my own words');
    expect(text).not.toContain('Cyril');
    for (const { name } of Object.values(PEOPLE)) if (name !== PEOPLE.volunteer.name) expect(text).not.toContain(name.split(' ')[1]);
    expect(body.session.person.id).toBe(PEOPLE.volunteer.id);
    expect(body.bins.map(({ bin }: { bin: { id: string } }) => bin.id)).toEqual(expect.arrayContaining(Object.values(BINS)));
    expect(body.bins[0].outlook.zones.length).toBeGreaterThan(0);
  });

  it('says 304 until something changes', async () => {
    const first = await read('volunteer');
    const etag = String(first.headers.etag);
    later(cast, 1);
    const same = await read('volunteer', { 'if-none-match': etag });
    expect([same.status, same.text]).toEqual([304, '']);
    await send('volunteer', [food()]);
    expect((await read('volunteer', { 'if-none-match': etag })).status).toBe(200);
  });
});

describe('what waited long on a phone', () => {
  const told = (who: 'coordinator' | 'owner' = 'coordinator') =>
    cast.store.sqlite
      .prepare("SELECT facts FROM message WHERE kind = 'late-entries' AND person_id = ? ORDER BY rowid")
      .pluck()
      .all(PEOPLE[who].id)
      .map((facts) => JSON.parse(String(facts)));
  const hoursAgo = (hours: number) => new Date(cast.clock.at.getTime() - hours * 3_600_000).toISOString();

  it('B18: coordinators are told of more than 72 hours, once a day for each phone, and never of less', async () => {
    const kept = (hours: number) => ({ ...note(`kept ${hours} h`), keptAt: hoursAgo(hours) });
    await send('volunteer', [kept(72), kept(1), note('of no known time')]);
    expect(told()).toEqual([]);
    const late = [kept(71), kept(100), kept(80)];
    await send('volunteer', late);
    await send('volunteer', late);
    await send('volunteer', [kept(90)]);
    const message = { hours: 100, byPersonId: PEOPLE.volunteer.id };
    expect([told(), told('owner')]).toEqual([[message], [message]]);
    await send('otherVolunteer', [kept(74)]);
    later(cast, HOURS_PER_DAY * 60);
    await send('volunteer', [kept(96)]);
    expect(told().map(({ hours }) => hours)).toEqual([100, 74, 96]);
    const { items } = (await cast.call('coordinator', 'GET', '/api/messages')).body;
    const [newest] = items.filter(({ kind }: { kind: string }) => kind === 'late-entries');
    expect(newest).toMatchObject({ shift: null, facts: { hours: 96, by: PEOPLE.volunteer.name }, over: false });
  });

  it('B18: by the clock of the phone alone, and not of what is refused', async () => {
    const before = told().length;
    const deviceAt = new Date(cast.clock.at.getTime() + 100 * 3_600_000).toISOString();
    await send('volunteer', [{ ...note('a fast clock'), keptAt: hoursAgo(-99) }], { deviceAt });
    await send('otherVolunteer', [{ kind: 'feeding', keptAt: hoursAgo(300), body: { ...feeding(freshId()), zone: 3 } }]);
    expect(told().length).toBe(before);
  });
});
