/** Flags seen and put aside (criteria A17, A18). */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { shortName } from '../../apps/api/src/services/names.ts';
import { BINS, type Cast, freshId, openCast, PEOPLE, type PersonKey } from '../cast.ts';

let cast: Cast;
let signal: string;
const TODAY = '2026-11-25';
const url = `/api/bins/${BINS.tote}/flag-notes`;
const board = async (who: PersonKey = 'coordinator') => (await cast.call(who, 'GET', '/api/board')).body;
const bin = async (who?: PersonKey) => (await board(who)).bins.find((one: { id: string }) => one.id === BINS.tote);
const say = (part: object, who: PersonKey = 'coordinator') => cast.call(who, 'POST', url, { id: freshId(), signal, ...part });
const aside = (untilOn: string) => say({ kind: 'aside', reason: 'A fan is on its way', untilOn });

beforeAll(async () => {
  cast = await openCast();
  const items = [{ materialId: 'food_scraps_veg', massKg: 14, how: 'weighed' }];
  const feeding = { id: freshId(), binId: BINS.tote, happenedAt: '2026-11-24T09:00:00Z', zone: 1, items };
  expect((await cast.call('coordinator', 'POST', '/api/feedings', feeding)).status).toBe(201);
  const { band, flags } = await bin();
  expect(band).toBe('act');
  signal = flags[0].signal;
}, 60_000);
afterAll(() => cast.close());

describe('A18: seen', () => {
  it('says who and when, and hides nothing', async () => {
    const before = await board();
    const answer = await say({ kind: 'seen' }, 'siteLead');
    expect([answer.status, answer.body.by]).toEqual([201, { id: PEOPLE.siteLead.id, name: PEOPLE.siteLead.name }]);
    const after = await bin();
    expect(after.notes).toMatchObject([{ kind: 'seen', signal, at: cast.clock.at.toISOString() }]);
    expect([after.band, after.isAside, (await board()).counts]).toEqual(['act', false, before.counts]);
    // The bin's own page says the same, to a pupil with a first name and an initial.
    const own = async (who: PersonKey) => (await cast.call(who, 'GET', `/api/bins/${BINS.tote}/outlook`)).body.notes;
    expect(await own('coordinator')).toEqual(after.notes);
    expect((await own('pupil')).map(({ by }: { by: { name: string } }) => by.name)).toEqual([shortName(PEOPLE.siteLead.name)]);
  });

  it('a reader by link sees no name, not even one that a reason tells', async () => {
    const told = `${PEOPLE.volunteer.name} brings a fan`;
    const put = await say({ kind: 'aside', reason: told, untilOn: TODAY });
    expect([put.status, (await bin()).notes.some(({ reason }: { reason: string }) => reason === told)]).toEqual([201, true]);
    const link = await cast.call('coordinator', 'POST', '/api/links', { id: freshId(), kind: 'board' });
    const token = link.body.path.split('#').at(-1);
    const { body } = await cast.call(null, 'POST', '/api/linked-boards', { token });
    const shown = body.bins.find((one: { id: string }) => one.id === BINS.tote);
    expect(shown.notes).toMatchObject([{ by: null }, { by: null }]);
    const names = Object.values(PEOPLE).flatMap(({ name }) => name.split(' ').filter((part) => part.length > 2));
    expect(names.filter((name) => JSON.stringify(body).includes(name))).toEqual([]);
    await cast.call('coordinator', 'DELETE', `/api/flag-notes/${put.body.id}`);
  });
});

describe('A17: put aside', () => {
  it('needs a reason and an end within thirty days', async () => {
    const refused = [
      await say({ kind: 'aside', reason: '', untilOn: TODAY }),
      await say({ kind: 'aside', reason: 'Why' }),
      await aside('2026-11-24'),
      await aside('2026-12-26'),
    ];
    expect(refused.map(({ status, body }) => [status, body.errors[0].pointer])).toEqual([
      [422, '/reason'],
      [422, '/untilOn'],
      [422, '/untilOn'],
      [422, '/untilOn'],
    ]);
  });

  it('keeps its band, is counted, and comes back by itself', async () => {
    const clockBefore = cast.clock.at;
    const before = await board();
    expect((await aside('2026-11-26')).status).toBe(201);
    const others = (await bin()).flags.filter((flag: { signal: string; band: string }) => flag.band === 'act' && flag.signal !== signal);
    for (const other of others) await say({ signal: other.signal, kind: 'aside', reason: 'The same', untilOn: '2026-11-26' });
    const now = await board();
    expect([now.aside, now.counts]).toEqual([1, before.counts]);
    expect(await bin()).toMatchObject({ band: 'act', isAside: true });
    cast.clock.at = new Date('2026-11-26T20:00:00Z');
    expect((await board()).aside).toBe(1);
    cast.clock.at = new Date('2026-11-27T09:00:00Z');
    const later = await board();
    expect([later.aside, (await bin()).isAside]).toEqual([0, false]);
    cast.clock.at = clockBefore;
  }, 60_000);

  it('can be taken up again before its day, and all of it stands in the audit', async () => {
    const made = await aside('2026-12-01');
    expect((await cast.call('coordinator', 'DELETE', `/api/flag-notes/${made.body.id}`)).status).toBe(204);
    expect((await bin()).notes.filter((note: { kind: string; signal: string }) => note.kind === 'aside' && note.signal === signal)).toEqual(
      [],
    );
    const { body } = await cast.call('owner', 'GET', '/api/audit');
    const actions = body.items.map((line: { action: string }) => line.action);
    expect(actions).toEqual(expect.arrayContaining(['flag.seen', 'flag.put-aside', 'flag.taken-up']));
  });

  it('sent twice is once, and volunteers may not', async () => {
    const body = { id: freshId(), signal, kind: 'seen' };
    const answers = [await cast.call('coordinator', 'POST', url, body), await cast.call('coordinator', 'POST', url, body)];
    expect(answers.map(({ status }) => status)).toEqual([201, 200]);
    expect((await say({ kind: 'seen' }, 'volunteer')).status).toBe(403);
  });
});
