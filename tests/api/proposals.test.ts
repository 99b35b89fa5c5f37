import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { BINS, type Cast, freshId, openCast, SITES } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
beforeEach(() => {
  // A Wednesday.
  cast.clock.at = new Date('2026-11-25T10:00:00.000Z');
});
afterAll(() => cast.close());

interface Proposal {
  readonly localDate: string;
  readonly localTime: string;
  readonly minutes: number;
  readonly places: number;
  readonly standingId: string | null;
  readonly duties: readonly { readonly binId: string; readonly kind: string }[];
}
const proposals = async (weeks = 4) =>
  (await cast.call('siteLead', 'GET', `/api/shift-proposals?siteId=${SITES.meadow}&weeks=${weeks}`)).body as {
    items: Proposal[];
    dropped: { binId: string; kind: string }[];
  };
const accept = (shifts: readonly object[], id = freshId()) =>
  cast.call('siteLead', 'POST', '/api/shift-proposals/accepted', { id, siteId: SITES.meadow, shifts });
const accepted = ({ localDate, localTime, minutes, places, standingId, duties }: Proposal, change: object = {}) => ({
  ...{ title: 'Bins', localDate, localTime, minutes, places, standingId },
  duties: duties.map(({ binId, kind }) => ({ binId, kind })),
  ...change,
});
const names = (duties: readonly { binId: string; kind: string }[]) => duties.map(({ binId, kind }) => `${binId} ${kind}`).sort();

describe('proposals of shifts', () => {
  test('gather what falls due at my site on its open days, what presses first', async () => {
    await cast.call('siteLead', 'PUT', `/api/sites/${SITES.meadow}/times`, {
      open: [{ weekday: 6, from: '10:00', to: '13:00' }],
      closed: [{ from: '2026-12-05', to: '2026-12-05', label: 'Market day' }],
    });
    const { items } = await proposals();
    expect(items.length).toBeGreaterThan(0);
    expect(new Set(items.map(({ localTime }) => localTime))).toEqual(new Set(['10:00']));
    expect(items.map(({ localDate }) => localDate)).not.toContain('2026-12-05');
    // The look that is overdue comes on the first Saturday.
    expect(items[0]).toMatchObject({ localDate: '2026-11-28', standingId: null });
    expect(names(items[0]!.duties)).toContain(`${BINS.tote} check`);
    expect(
      (await cast.call('coordinator', 'GET', '/api/shift-proposals?weeks=1')).body.items.some(
        (each: { siteId: string }) => each.siteId === SITES.school,
      ),
    ).toBe(true);
    expect(
      (await cast.call('siteLead', 'GET', '/api/shift-proposals?weeks=1')).body.items.every(
        (each: { siteId: string }) => each.siteId === SITES.meadow,
      ),
    ).toBe(true);
  });

  test('that were dropped stay out until the duty changes or is taken up again', async () => {
    const duty = { binId: BINS.flow, kind: 'loosen' };
    const drop = (back: boolean) =>
      cast.call('siteLead', 'PUT', '/api/shift-proposals/dropped', { siteId: SITES.meadow, duties: [duty], back });
    const isProposed = async () => (await proposals()).items.some(({ duties }) => names(duties).includes(names([duty])[0]!));
    expect(await isProposed()).toBe(true);
    const dropped = await drop(false);
    expect([dropped.status, names(dropped.body.dropped)]).toEqual([200, names([duty])]);
    expect(await isProposed()).toBe(false);
    // Somebody loosens it: the next time is another duty, due weeks later.
    cast.clock.at = new Date('2026-11-25T11:00:00.000Z');
    const care = { id: freshId(), binId: BINS.flow, happenedAt: '2026-11-25T10:30:00Z', action: 'loosened' };
    expect((await cast.call('volunteer', 'POST', '/api/cares', care)).status).toBe(201);
    expect(await isProposed()).toBe(true);
    await drop(false);
    expect(await isProposed()).toBe(false);
    await drop(true);
    expect(await isProposed()).toBe(true);
  });

  test('that are accepted become shifts with bins and duties, sent twice or once, and are proposed no more', async () => {
    const [first] = (await proposals()).items;
    const id = freshId();
    const answers = [await accept([accepted(first!)], id), await accept([accepted(first!)], id)];
    expect(answers.map(({ status }) => status)).toEqual([201, 200]);
    const [shift] = answers[0]!.body.items;
    expect(answers[1]!.body.items[0].id).toBe(shift.id);
    expect(shift).toMatchObject({ localDate: first!.localDate, localTime: first!.localTime, places: first!.places, taken: 0 });
    expect(names(shift.duties)).toEqual(names(first!.duties));
    expect(new Set(shift.binIds)).toEqual(new Set(first!.duties.map(({ binId }) => binId)));
    const left = (await proposals()).items.flatMap(({ duties }) => names(duties));
    expect(left.filter((name) => names(first!.duties).includes(name))).toEqual([]);
    await cast.call('siteLead', 'DELETE', `/api/shifts/${shift.id}`);
  });

  test('fill a shift that is there with room for them', async () => {
    const shift = {
      id: freshId(),
      siteId: SITES.meadow,
      title: 'Saturday',
      localDate: '2026-11-28',
      localTime: '10:00',
      minutes: 120,
      places: 4,
    };
    await cast.call('siteLead', 'POST', '/api/shifts', { ...shift, duties: [{ binId: BINS.flow, kind: 'check' }], binIds: [BINS.flow] });
    const filled = (await proposals()).items.find(({ standingId }) => standingId === shift.id)!;
    expect(names(filled.duties)).toContain(`${BINS.tote} check`);
    const [after] = (await accept([accepted(filled)])).body.items;
    expect(after).toMatchObject({ id: shift.id, minutes: 120, places: 4 });
    expect(names(after.duties)).toEqual([...names(filled.duties), `${BINS.flow} check`].sort());
    await cast.call('siteLead', 'DELETE', `/api/shifts/${shift.id}`);
  });

  test('may be moved and merged, but not to a closed day, nor food and harvest of one bin together', async () => {
    const both = {
      duties: [
        { binId: BINS.tote, kind: 'check' },
        { binId: BINS.flow, kind: 'check' },
      ],
    };
    const [first] = (await proposals()).items;
    const closed = await accept([accepted(first!, { localDate: '2026-12-05' })]);
    expect([closed.status, closed.body.code, closed.body.errors[0].pointer]).toEqual([409, 'site-closed', '/shifts/0/localDate']);
    const clash = {
      duties: [
        { binId: BINS.tote, kind: 'feed' },
        { binId: BINS.tote, kind: 'harvest' },
      ],
    };
    expect((await accept([accepted(first!, clash)])).body.errors[0].pointer).toBe('/shifts/0/duties/0/kind');
    const [merged] = (await accept([accepted(first!, { ...both, localDate: '2026-12-12', localTime: '11:15' })])).body.items;
    expect(merged).toMatchObject({ localDate: '2026-12-12', localTime: '11:15' });
    const fed = [{ binId: BINS.tote, kind: 'feed' }];
    expect((await accept([accepted(first!, { duties: fed, localDate: '2026-12-12' })])).status).toBe(201);
    const harvest = [{ binId: BINS.tote, kind: 'harvest' }];
    expect((await accept([accepted(first!, { duties: harvest, localDate: '2026-12-12' })])).status).toBe(422);
  });
});

describe('C9: a standing week', () => {
  const body = (change: object = {}) => ({
    ...{
      id: freshId(),
      siteId: SITES.meadow,
      title: 'Round',
      localDate: '2027-01-04',
      localTime: '09:00',
      minutes: 60,
      places: 2,
      weeks: 12,
    },
    ...change,
  });

  test('is one call for twelve weeks of three shifts, none of them in the holidays', async () => {
    await cast.call('siteLead', 'PUT', `/api/sites/${SITES.meadow}/times`, {
      open: [],
      closed: [{ from: '2027-02-15', to: '2027-02-21' }],
    });
    const all = (await cast.call('siteLead', 'POST', '/api/shifts', body({ weekdays: [6, 2, 4] }))).body.items;
    expect([all.length, all[0].localDate, all[1].localDate, all[2].localDate, all.at(-1).localDate]).toEqual([
      36,
      '2027-01-05',
      '2027-01-07',
      '2027-01-09',
      '2027-03-27',
    ]);
    expect(new Set(all.map(({ seriesId }: { seriesId: string }) => seriesId)).size).toBe(1);
    const open = (await cast.call('siteLead', 'POST', '/api/shifts', body({ weekdays: [2, 4, 6], skipClosed: true }))).body.items;
    expect(open).toHaveLength(33);
    const none = body({ localDate: '2027-02-15', weeks: 1, skipClosed: true });
    expect((await cast.call('siteLead', 'POST', '/api/shifts', none)).body.code).toBe('site-closed');
  });

  test('moved from one week on names who has a place first, when asked, and keeps them', async () => {
    const { items } = (await cast.call('siteLead', 'POST', '/api/shifts', body({ weekdays: [3] }))).body;
    await cast.call('volunteer', 'POST', `/api/shifts/${items[5].id}/sign-ups`, { id: freshId() });
    const change = { scope: 'this-and-later', localTime: '10:00' };
    const asked = await cast.call('siteLead', 'PATCH', `/api/shifts/${items[3].id}`, { ...change, askFirst: true });
    expect([asked.status, asked.body.code]).toEqual([409, 'has-sign-ups']);
    expect(asked.body.help.affected.map((each: { id: string; signUps: { name: string }[] }) => [each.id, each.signUps[0]!.name])).toEqual([
      [items[5].id, 'Otis B.'],
    ]);
    expect(
      (await cast.call('siteLead', 'PATCH', `/api/shifts/${items[3].id}`, { note: 'Gloves', scope: 'this-and-later', askFirst: true }))
        .status,
    ).toBe(200);
    await cast.call('siteLead', 'PATCH', `/api/shifts/${items[3].id}`, change);
    expect((await cast.call('volunteer', 'GET', `/api/shifts/${items[5].id}`)).body).toMatchObject({ localTime: '10:00', taken: 1 });
  });
});
