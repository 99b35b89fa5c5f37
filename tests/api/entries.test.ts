import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { BINS, type Cast, freshId, openCast, PEOPLE } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast({ at: '2026-11-25T10:00:00.000Z' });
});
afterAll(() => cast.close());

const feeding = (change: object = {}) => ({
  id: freshId(),
  binId: BINS.tote,
  happenedAt: '2026-11-25T09:30:00.000Z',
  zone: 1,
  items: [{ materialId: 'food_scraps_veg', massKg: 1.2344, how: 'weighed', typed: { value: 1.2344, unit: 'kg' } }],
  ...change,
});
const check = (change: object = {}) => ({ id: freshId(), binId: BINS.tote, happenedAt: '2026-11-25T09:30:00.000Z', ...change });
const harvest = (change: object = {}) => ({
  id: freshId(),
  binId: BINS.flow,
  happenedAt: '2026-11-25T09:30:00.000Z',
  massKg: 3.5,
  destination: 'beds',
  ...change,
});
const countEntries = () => Number(cast.store.sql('SELECT count(*) FROM entry').pluck().get());

describe('POST /feedings', () => {
  test('keeps whole grams and the weight as typed', async () => {
    const answer = await cast.call('volunteer', 'POST', '/api/feedings', feeding({ beddingKg: 0.2, waterKg: 0.1, note: 'two caddies' }));
    expect(answer.status).toBe(201);
    expect(answer.body).toMatchObject({
      kind: 'feeding',
      binCode: 'T1',
      localDate: '2026-11-25',
      massKg: 1.234,
      beddingKg: 0.2,
      waterKg: 0.1,
      mine: true,
      revision: 1,
      undoneAt: null,
      clockSkewed: false,
      by: { id: PEOPLE.volunteer.id, name: PEOPLE.volunteer.name },
    });
    expect(answer.body.items[0]).toMatchObject({ massKg: 1.234, typed: { value: 1.2344, unit: 'kg' }, preparation: 'chopped' });
  });

  test('sent twice is one entry, also when the phone sends a later clock', async () => {
    const body = feeding({ deviceAt: '2026-11-25T10:00:00.000Z' });
    const first = await cast.call('volunteer', 'POST', '/api/feedings', body);
    const before = countEntries();
    const second = await cast.call('volunteer', 'POST', '/api/feedings', { ...body, deviceAt: '2026-11-25T10:00:40.000Z' });
    expect([first.status, second.status]).toEqual([201, 200]);
    expect(second.body).toEqual(first.body);
    expect(countEntries()).toBe(before);
  });

  test('refuses the same id with other content', async () => {
    const body = feeding();
    await cast.call('volunteer', 'POST', '/api/feedings', body);
    const other = await cast.call('volunteer', 'POST', '/api/feedings', { ...body, zone: 2 });
    expect(other.status).toBe(422);
    expect(other.body.code).toBe('same-id-other-content');
  });

  test("refuses somebody else's id as if it were not there", async () => {
    const body = feeding();
    await cast.call('volunteer', 'POST', '/api/feedings', body);
    const other = await cast.call('otherVolunteer', 'POST', '/api/feedings', body);
    expect(other.status).toBe(404);
  });

  test.each([
    ['a date before the bin', { happenedAt: '2026-05-31T22:59:00.000Z' }, 422, 'date-before-bin'],
    ['a date six minutes ahead', { happenedAt: '2026-11-25T10:06:00.000Z' }, 422, 'date-in-future'],
    ['a zone the bin does not have', { zone: 3 }, 422, 'zone-unknown'],
    ['what is never fed', { items: [{ materialId: 'meat_raw', massKg: 1, how: 'weighed' }] }, 422, 'material-never'],
    ['a material with a figure missing', { items: [{ materialId: 'potato_tops', massKg: 1, how: 'weighed' }] }, 422, 'material-hidden'],
    ['a material nobody knows', { items: [{ materialId: 'moon_dust', massKg: 1, how: 'weighed' }] }, 422, 'material-unknown'],
    ['bedding that is never fed', { beddingMaterialId: 'glossy_paper', beddingKg: 1 }, 422, 'material-never'],
    ['a negative weight', { items: [{ materialId: 'apple', massKg: -1, how: 'weighed' }] }, 422, 'invalid'],
    ['a thousand million kilograms', { items: [{ materialId: 'apple', massKg: 1e9, how: 'weighed' }] }, 422, 'invalid'],
    ['a bin that is not there', { binId: freshId() }, 404, 'not-found'],
    ['a shift that is not there', { shiftId: freshId() }, 422, 'invalid'],
    [
      'a container that is not there',
      { items: [{ materialId: 'apple', massKg: 1, how: 'container', containerId: freshId() }] },
      422,
      'invalid',
    ],
  ])('refuses %s and writes nothing', async (_what, change, status, code) => {
    const before = countEntries();
    const answer = await cast.call('volunteer', 'POST', '/api/feedings', feeding(change));
    expect([answer.status, answer.body.code]).toEqual([status, code]);
    expect(countEntries()).toBe(before);
  });

  test('takes a time four minutes ahead as now, since phones run fast', async () => {
    const answer = await cast.call('volunteer', 'POST', '/api/feedings', feeding({ happenedAt: '2026-11-25T10:04:00.000Z' }));
    expect(answer.status).toBe(201);
    expect(answer.body.happenedAt).toBe('2026-11-25T10:00:00.000Z');
  });

  test('a phone two hours fast is corrected, kept and told', async () => {
    const sent = { happenedAt: '2026-11-25T11:45:00.000Z', deviceAt: '2026-11-25T12:00:00.000Z' };
    const answer = await cast.call('volunteer', 'POST', '/api/feedings', feeding(sent));
    expect(answer.body).toMatchObject({ happenedAt: '2026-11-25T09:45:00.000Z', clockSkewed: true });
    const kept = cast.store.sql('SELECT device_at, received_at, skew_s FROM entry WHERE id = ?').get(answer.body.id);
    expect(kept).toEqual({ device_at: '2026-11-25T12:00:00.000Z', received_at: '2026-11-25T10:00:00.000Z', skew_s: 7200 });
  });

  test('a time late in the evening belongs to the day of the site', async () => {
    const answer = await cast.call('volunteer', 'POST', '/api/feedings', feeding({ happenedAt: '2026-07-01T23:30:00.000Z' }));
    expect(answer.body.localDate).toBe('2026-07-02');
  });

  test('is closed to pupils and to nobody', async () => {
    expect((await cast.call('pupil', 'POST', '/api/feedings', feeding())).status).toBe(403);
    expect((await cast.call(null, 'POST', '/api/feedings', feeding())).status).toBe(401);
  });

  test('refuses a retired bin', async () => {
    const bin = BINS.school;
    await cast.call('coordinator', 'PATCH', `/api/bins/${bin}`, { state: 'retired' });
    const answer = await cast.call('volunteer', 'POST', '/api/feedings', feeding({ binId: bin }));
    await cast.call('coordinator', 'PATCH', `/api/bins/${bin}`, { state: 'active' });
    expect([answer.status, answer.body.code]).toEqual([409, 'bin-retired']);
  });
});

describe('POST /checks and /harvests', () => {
  test('a check keeps only what was looked at', async () => {
    const seen = { leftover: [{ zone: 2, left: 'half' }], squeeze: 'damp', visitors: ['mites', 'mites', 'ants'], bedTempC: 19.5 };
    const answer = await cast.call('volunteer', 'POST', '/api/checks', check(seen));
    expect(answer.status).toBe(201);
    expect(answer.body).toMatchObject({ squeeze: 'damp', smell: null, worms: null, ph: null, bedTempC: 19.5, visitors: ['ants', 'mites'] });
    expect(answer.body.leftover).toEqual([{ zone: 2, left: 'half' }]);
  });

  test('a check refuses a zone named twice or not there', async () => {
    const twice = [
      { zone: 1, left: 'half' },
      { zone: 1, left: 'none' },
    ];
    expect((await cast.call('volunteer', 'POST', '/api/checks', check({ leftover: twice }))).body.code).toBe('invalid');
    expect((await cast.call('volunteer', 'POST', '/api/checks', check({ leftover: [{ zone: 9, left: 'half' }] }))).body.code).toBe(
      'zone-unknown',
    );
  });

  test('a harvest says where it went', async () => {
    const answer = await cast.call(
      'siteLead',
      'POST',
      '/api/harvests',
      harvest({ typed: { value: 7.72, unit: 'lb' }, destinationNote: 'roses' }),
    );
    expect(answer.status).toBe(201);
    expect(answer.body).toMatchObject({
      massKg: 3.5,
      how: 'weighed',
      destination: 'beds',
      destinationNote: 'roses',
      typed: { value: 7.72, unit: 'lb' },
    });
  });
});

describe("GET a bin's log", () => {
  test('is newest first, in pages that lose nothing of one moment', async () => {
    const bin = BINS.school;
    const moments = ['2026-08-01T10:00:00.000Z', '2026-08-02T10:00:00.000Z', '2026-08-02T10:00:00.000Z', '2026-08-03T10:00:00.000Z'];
    for (const happenedAt of moments) await cast.call('volunteer', 'POST', '/api/feedings', feeding({ binId: bin, happenedAt }));
    const seen: string[] = [];
    let before = '';
    for (let page = 0; page < 10; page++) {
      const { body } = await cast.call('pupil', 'GET', `/api/bins/${bin}/entries?limit=2${before}`);
      seen.push(...body.items.map((item: { happenedAt: string }) => item.happenedAt));
      if (!body.more) break;
      before = `&before=${encodeURIComponent(body.items.at(-1).happenedAt)}`;
    }
    expect(seen).toEqual([...moments].reverse());
  });

  test('shows others by first name and initial, whole names to the coordinator, and whose is mine', async () => {
    const { body } = await cast.call('otherVolunteer', 'GET', `/api/bins/${BINS.school}/entries`);
    expect(body.items[0].by.name).toBe('Otis B.');
    expect(body.items[0].mine).toBe(false);
    const whole = await cast.call('coordinator', 'GET', `/api/bins/${BINS.school}/entries`);
    expect(whole.body.items[0].by.name).toBe('Otis Barrow');
  });

  test('of a bin that is not there is a 404', async () => {
    expect((await cast.call('volunteer', 'GET', `/api/bins/${freshId()}/entries`)).status).toBe(404);
  });
});

describe('DELETE /entries/:id', () => {
  const logged = async () => (await cast.call('volunteer', 'POST', '/api/feedings', feeding())).body;

  test('undoes my own, keeps what it said, and only once', async () => {
    const entry = await logged();
    const undone = await cast.call('volunteer', 'DELETE', `/api/entries/${entry.id}`);
    expect(undone.status).toBe(200);
    expect(undone.body).toMatchObject({ undoneAt: '2026-11-25T10:00:00.000Z', revision: 2 });
    const kept = cast.store.sql('SELECT body FROM entry_revision WHERE entry_id = ? AND revision = 1').pluck().get(entry.id);
    expect(JSON.parse(String(kept)).items[0].grams).toBe(1234);
    const again = await cast.call('volunteer', 'DELETE', `/api/entries/${entry.id}`);
    expect([again.status, again.body.code]).toEqual([409, 'already-undone']);
  });

  test("another's looks as if it were not there, and stays", async () => {
    const entry = await logged();
    for (const who of ['otherVolunteer', 'pupil'] as const) {
      const answer = await cast.call(who, 'DELETE', `/api/entries/${entry.id}`);
      const missing = await cast.call(who, 'DELETE', `/api/entries/${freshId()}`);
      expect(answer.status).toBe(404);
      expect({ ...answer.body, requestId: '' }).toEqual({ ...missing.body, requestId: '' });
    }
    expect((await cast.call('volunteer', 'GET', `/api/entries/${entry.id}`)).body.undoneAt).toBeNull();
  });

  test('whoever leads the site undoes what was noted there, and nothing noted elsewhere', async () => {
    const entry = await logged();
    expect((await cast.call('siteLead', 'DELETE', `/api/entries/${entry.id}`)).status).toBe(200);
    const away = await cast.call('volunteer', 'POST', '/api/feedings', feeding({ binId: BINS.school }));
    expect((await cast.call('siteLead', 'DELETE', `/api/entries/${away.body.id}`)).status).toBe(404);
  });

  test("E10: a site lead moves nobody's entry to a site that is not theirs", async () => {
    const entry = await logged();
    const { id: _id, ...content } = feeding({ kind: 'feeding', binId: BINS.school });
    const moved = await cast.call('siteLead', 'PUT', `/api/entries/${entry.id}`, content, { 'if-match': '"1"' });
    expect(moved.status).toBe(404);
    const kept = await cast.call('siteLead', 'PUT', `/api/entries/${entry.id}`, { ...content, binId: BINS.tote }, { 'if-match': '"1"' });
    expect([kept.status, kept.body.revision]).toEqual([200, 2]);
  });

  test("the coordinator undoes another's, and the audit says so", async () => {
    const entry = await logged();
    expect((await cast.call('coordinator', 'DELETE', `/api/entries/${entry.id}`)).status).toBe(200);
    const row = cast.store.sql('SELECT person_id, action FROM audit WHERE subject = ?').get(entry.id);
    expect(row).toEqual({ person_id: PEOPLE.coordinator.id, action: 'entry.undone-for-another' });
  });
});
