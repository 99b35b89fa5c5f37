import type { Scenario } from '@middenry/domain';
import { outlookOf } from '@middenry/domain';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { useModel } from '../../apps/api/src/services/outlook-cache.ts';
import { BINS, type Cast, freshId, openCast, PEOPLE, type PersonKey } from '../cast.ts';

let cast: Cast;
let told: Scenario;
beforeAll(async () => {
  cast = await openCast({ at: '2026-11-25T10:00:00.000Z' });
  useModel(cast.store, (scenario, today, settings) => {
    told = scenario;
    return outlookOf(scenario, today, settings);
  });
});
afterAll(() => cast.close());

const entry = (change: object) => ({ id: freshId(), binId: BINS.tote, happenedAt: '2026-11-25T09:30:00.000Z', ...change });
const care = (change: object, who: PersonKey = 'volunteer') => cast.call(who, 'POST', '/api/cares', entry(change));
const stateOf = async (bin: string) => (await cast.call('pupil', 'GET', `/api/bins/${bin}`)).body.state;

describe('POST /cares', () => {
  test.each([
    [
      { action: 'loosened', zone: 2 },
      { type: 'loosen', zone: 2 },
    ],
    [
      { action: 'watered', massKg: 1.5 },
      { type: 'water', massKg: 1.5 },
    ],
    [
      { action: 'bedding', massKg: 0.4, materialId: 'leaves_dry' },
      { type: 'bedding', items: [{ material: 'leaves_dry', massKg: 0.4 }] },
    ],
    [
      { action: 'inoculated', massKg: 2 },
      { type: 'inoculate', massKg: 2 },
    ],
    [{ action: 'drained' }, { type: 'drain' }],
    [
      { action: 'moved', exposure: 'indoors' },
      { type: 'move', exposure: 'indoors' },
    ],
    [
      { action: 'covered', zone: 1 },
      { type: 'cover', zone: 1 },
    ],
    [
      { action: 'taken-out', share: 0.5, zone: 1 },
      { type: 'remove', foodFrac: 0.5, zone: 1 },
    ],
  ])('%j is told to the model', async (body, event) => {
    const answer = await care(body);
    expect(answer.status).toBe(201);
    expect(answer.body).toMatchObject({ kind: 'care', ...body });
    await cast.call('volunteer', 'GET', `/api/bins/${BINS.tote}/outlook`);
    expect(told.events).toContainEqual(expect.objectContaining({ ...event, day: 177, entryId: answer.body.id }));
  });

  test.each([
    ['watering without how much', { action: 'watered' }, '/massKg'],
    ['bedding without how much', { action: 'bedding', materialId: 'coir' }, '/massKg'],
    ['a move to nowhere', { action: 'moved' }, '/exposure'],
    ['taking out no share', { action: 'taken-out' }, '/share'],
  ])('refuses %s, naming the field', async (_what, body, pointer) => {
    const answer = await care(body);
    expect([answer.status, answer.body.errors[0].pointer]).toEqual([422, pointer]);
  });

  test('refuses a zone that is not there and bedding that never goes in', async () => {
    expect((await care({ action: 'loosened', zone: 3 })).body.code).toBe('zone-unknown');
    expect((await care({ action: 'bedding', massKg: 1, materialId: 'glossy_paper' })).body.code).toBe('material-never');
  });
});

describe('resting and retiring', () => {
  test('are for the lead of the site, and change the bin until they are undone', async () => {
    expect((await care({ action: 'rested', binId: BINS.flow })).status).toBe(403);
    expect((await care({ action: 'rested', binId: BINS.school }, 'siteLead')).status).toBe(403);
    const rested = await care({ action: 'rested', binId: BINS.flow, happenedAt: '2026-11-25T08:00:00.000Z' }, 'siteLead');
    expect(await stateOf(BINS.flow)).toBe('resting');
    const retired = await care({ action: 'retired', binId: BINS.flow }, 'siteLead');
    expect(await stateOf(BINS.flow)).toBe('retired');
    expect((await care({ action: 'loosened', binId: BINS.flow })).body.code).toBe('bin-retired');
    await cast.call('siteLead', 'DELETE', `/api/entries/${retired.body.id}`);
    expect(await stateOf(BINS.flow)).toBe('resting');
    await cast.call('siteLead', 'DELETE', `/api/entries/${rested.body.id}`);
    expect(await stateOf(BINS.flow)).toBe('active');
  });

  test('a retired bin can be woken again', async () => {
    await care({ action: 'retired', binId: BINS.flow, happenedAt: '2026-11-25T09:00:00.000Z' }, 'coordinator');
    expect((await care({ action: 'woken', binId: BINS.flow }, 'coordinator')).status).toBe(201);
    expect(await stateOf(BINS.flow)).toBe('active');
  });
});

describe('POST /worms and /notes', () => {
  const worms = (change: object) => cast.call('volunteer', 'POST', '/api/worms', entry(change));

  test('worms split off take their share of food and cocoons along', async () => {
    const answer = await worms({ direction: 'split-off', share: 0.4, otherBinId: BINS.flow });
    expect(answer.body).toMatchObject({ kind: 'worms', share: 0.4, otherBinCode: 'F1', massKg: null });
    await cast.call('volunteer', 'GET', `/api/bins/${BINS.tote}/outlook`);
    const event = { type: 'remove', wormsFrac: 0.4, cocoonsFrac: 0.4, foodFrac: 0.4 };
    expect(told.events).toContainEqual(expect.objectContaining(event));
  });

  test('worms added have a weight, worms given away a share, and only that', async () => {
    expect((await worms({ direction: 'added', massKg: 0.25, how: 'weighed' })).status).toBe(201);
    expect((await worms({ direction: 'added' })).body.errors[0].pointer).toBe('/massKg');
    expect((await worms({ direction: 'given-away' })).body.errors[0].pointer).toBe('/share');
    expect((await worms({ direction: 'added', massKg: 1, share: 0.1 })).body.errors[0].pointer).toBe('/share');
    expect((await worms({ direction: 'split-off', share: 0.1, otherBinId: BINS.tote })).body.errors[0].pointer).toBe('/otherBinId');
  });

  test('a note says something and stands in the log with the rest', async () => {
    expect((await cast.call('volunteer', 'POST', '/api/notes', entry({ note: '  ' }))).status).toBe(422);
    const note = await cast.call('volunteer', 'POST', '/api/notes', entry({ note: 'Lid is cracked', binId: BINS.school }));
    expect(note.body).toMatchObject({ kind: 'note', note: 'Lid is cracked' });
    const log = await cast.call('pupil', 'GET', `/api/bins/${BINS.school}/entries`);
    expect(log.body.items.map((item: { id: string }) => item.id)).toContain(note.body.id);
  });
});

describe('PUT /entries/:id', () => {
  const fed = { zone: 1, items: [{ materialId: 'apple', massKg: 1, how: 'weighed' }], shiftId: null, note: '', beddingKg: 0, waterKg: 0 };
  const logged = async (who: PersonKey = 'volunteer') => (await cast.call(who, 'POST', '/api/feedings', entry(fed))).body;
  const put = (who: PersonKey, id: string, revision: number | null, change: object = {}) => {
    const { id: _id, ...rest } = entry(fed);
    const body = { kind: 'feeding', ...rest, ...change };
    return cast.call(who, 'PUT', `/api/entries/${id}`, body, revision === null ? {} : { 'if-match': `"${revision}"` });
  };

  test('keeps what the entry said before, for everybody to read', async () => {
    const { id } = await logged();
    const items = [{ materialId: 'pear', massKg: 0.8, how: 'guessed' }];
    const corrected = await put('volunteer', id, 1, { items, zone: 2, happenedAt: '2026-11-20T09:00:00.000Z' });
    expect(corrected.body).toMatchObject({
      revision: 2,
      zone: 2,
      massKg: 0.8,
      localDate: '2026-11-20',
      receivedAt: '2026-11-25T10:00:00.000Z',
    });
    const { body } = await cast.call('pupil', 'GET', `/api/entries/${id}/history`);
    expect(body.items).toHaveLength(1);
    expect(body.items[0]).toMatchObject({
      replacedBy: { name: 'Otis B.' },
      entry: { revision: 1, zone: 1, massKg: 1, items: [{ materialId: 'apple' }] },
    });
  });

  test('B25: the second of two editors sees both versions, and nothing is overwritten', async () => {
    const { id } = await logged();
    await put('coordinator', id, 1, { note: 'first' });
    const second = await put('volunteer', id, 1, { note: 'second' });
    expect([second.status, second.body.code]).toEqual([412, 'changed-meanwhile']);
    expect(second.body.help).toMatchObject({ theirs: { note: 'first', revision: 2 }, yours: { note: 'second' } });
    expect((await cast.call('volunteer', 'GET', `/api/entries/${id}`)).body.note).toBe('first');
    expect((await put('volunteer', id, 2, { note: 'second' })).body).toMatchObject({ note: 'second', revision: 3 });
  });

  test("needs the revision that was read; another's entry looks like none but to whoever leads there; an undone one is done with", async () => {
    const { id } = await logged();
    expect((await put('volunteer', id, null)).body.errors[0].pointer).toBe('header/if-match');
    expect((await put('otherVolunteer', id, 1)).status).toBe(404);
    expect((await put('siteLead', id, 1)).status).toBe(200);
    expect((await put('volunteer', id, 2, { kind: 'harvest' })).status).toBe(422);
    await cast.call('volunteer', 'DELETE', `/api/entries/${id}`);
    expect((await put('volunteer', id, 3)).body.code).toBe('already-undone');
  });

  test('keeps to every rule of a new entry and leaves the old one whole when it does not', async () => {
    const { id } = await logged();
    const { id: _id, ...core } = entry({ shiftId: null, note: '' });
    expect((await put('volunteer', id, 1, { zone: 9 })).body.code).toBe('zone-unknown');
    expect((await put('volunteer', id, 1, { happenedAt: '2020-01-01T10:00:00.000Z' })).body.code).toBe('date-before-bin');
    expect((await cast.call('volunteer', 'GET', `/api/entries/${id}`)).body).toMatchObject({ revision: 1, massKg: 1 });
    const watered = (await care({ action: 'watered', massKg: 1 })).body;
    const dry = { kind: 'care', ...core, action: 'watered', zone: null, massKg: null, materialId: null, exposure: null, share: null };
    const answer = await cast.call('volunteer', 'PUT', `/api/entries/${watered.id}`, dry, { 'if-match': '1' });
    expect([answer.status, answer.body.errors[0].pointer]).toEqual([422, '/massKg']);
  });

  test('an entry moved to the bin it belongs to leaves the other one', async () => {
    const { id } = await logged();
    expect((await put('volunteer', id, 1, { binId: BINS.school })).body).toMatchObject({ binCode: 'S1' });
    const idsOf = async (bin: string) =>
      (await cast.call('pupil', 'GET', `/api/bins/${bin}/entries`)).body.items.map((item: { id: string }) => item.id);
    expect(await idsOf(BINS.tote)).not.toContain(id);
    expect(await idsOf(BINS.school)).toContain(id);
  });

  test('a name is not kept in the history, so that erasing somebody reaches it', async () => {
    const { id } = await logged();
    await put('volunteer', id, 1, { note: 'x' });
    const kept = String(cast.store.sql('SELECT body FROM entry_revision WHERE entry_id = ?').pluck().get(id));
    expect(kept).not.toContain(PEOPLE.volunteer.name);
  });
});
