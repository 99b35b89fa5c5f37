import { DUTY_KINDS } from '@middenry/domain';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { BINS, type Cast, freshId, openCast, type PersonKey, SITES } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
beforeEach(() => {
  cast.clock.at = new Date('2026-11-25T10:00:00.000Z');
});
afterAll(() => cast.close());

interface Due {
  readonly kind: string;
  readonly binId: string;
  readonly urgency: string;
  readonly minutes: number;
  readonly plannedOn: { readonly shiftId: string } | null;
  readonly last: { readonly result: string } | null;
}
const due = async (query: string, who: PersonKey = 'volunteer'): Promise<Due[]> =>
  (await cast.call(who, 'GET', `/api/duties?${query}`)).body.items;
const ofTote = async (kind: string) => (await due(`binId=${BINS.tote}&days=90`)).find((duty) => duty.kind === kind);
const made = async (change: object = {}): Promise<string> => {
  const shift = {
    id: freshId(),
    siteId: SITES.meadow,
    title: 'Round',
    localDate: '2026-11-28',
    localTime: '09:00',
    minutes: 60,
    places: 2,
  };
  const duties = [
    { binId: BINS.tote, kind: 'check' },
    { binId: BINS.tote, kind: 'feed' },
  ];
  await cast.call('coordinator', 'POST', '/api/shifts', { ...shift, binIds: [BINS.tote], duties, ...change });
  return shift.id;
};
const say = (who: PersonKey, shiftId: string, body: object) => cast.call(who, 'PUT', `/api/shifts/${shiftId}/results`, body);

describe('GET /duties', () => {
  test('lists what falls due at every bin, the most pressing first, with why and what happens when missed', async () => {
    const items = (await cast.call('pupil', 'GET', '/api/duties?days=30')).body.items;
    expect(new Set(items.map((duty: Due) => duty.binId))).toEqual(new Set(Object.values(BINS)));
    const words = items.map((duty: Due) => ['overdue', 'past-due', 'in-window'].indexOf(duty.urgency));
    expect(words).toEqual([...words].sort((a, b) => a - b));
    // Nobody has looked at the tote since June.
    expect(items.find((duty: Due) => duty.binId === BINS.tote && duty.kind === 'check')).toMatchObject({
      why: 'time-to-look',
      ifMissed: 'trouble-unseen',
      urgency: 'overdue',
      minutes: 5,
      plannedOn: null,
      last: null,
    });
  });

  test('says which shift to come has it, and no longer once that is called off', async () => {
    const id = await made();
    expect((await ofTote('check'))?.plannedOn).toEqual({ shiftId: id, localDate: '2026-11-28' });
    await cast.call('coordinator', 'DELETE', `/api/shifts/${id}`);
    expect((await ofTote('check'))?.plannedOn).toBeNull();
  });

  test('takes the minutes that the site says', async () => {
    const set = await cast.call('siteLead', 'PUT', `/api/sites/${SITES.meadow}/times`, { minutes: [{ kind: 'check', minutes: 9 }] });
    expect(set.body.minutes).toContainEqual({ kind: 'check', minutes: 9, own: true });
    expect(set.body.minutes).toContainEqual({ kind: 'feed', minutes: 10, own: false });
    expect([set.body.usual, set.body.open.length, set.body.minutes.length]).toEqual([true, 7, DUTY_KINDS.length]);
    expect((await ofTote('check'))?.minutes).toBe(9);
    await cast.call('siteLead', 'PUT', `/api/sites/${SITES.meadow}/times`, { minutes: [] });
    expect((await ofTote('check'))?.minutes).toBe(5);
  });
});

describe('the card of a shift', () => {
  test('says at each bin what to do, with amounts of today, cautions, what to bring and who comes', async () => {
    const id = await made({ pupilPlaces: 5 });
    await cast.call('volunteer', 'POST', `/api/shifts/${id}/sign-ups`, { id: freshId() });
    const { status, body } = await cast.call('volunteer', 'GET', `/api/shifts/${id}/card`);
    expect([status, body.amountsOn, body.minutes]).toEqual([200, '2026-11-25', 15]);
    const [check, feed] = body.bins[0].duties;
    expect(check).toMatchObject({ kind: 'check', urgency: 'overdue', feed: null, cautions: ['gloves'], result: null, noted: false });
    const outlook = (await cast.call('volunteer', 'GET', `/api/bins/${BINS.tote}/outlook`)).body;
    const { massKg, zones, hold } = outlook.advice;
    expect(feed.feed).toMatchObject({ from: 'advice', massKg, zones, hold });
    expect(body.bring.bedding.map((part: { massKg: number }) => part.massKg)).toEqual(
      outlook.advice.beddingKg > 0 ? [outlook.advice.beddingKg] : [],
    );
    expect(body.shift.signUps).toMatchObject([{ name: 'Otis Barrow', mine: true }]);
    expect(body.cautions).toEqual(['gloves', 'food-from-outside']);
  });

  test('knows what the log has of that day already', async () => {
    const id = await made();
    cast.clock.at = new Date('2026-11-28T09:30:00.000Z');
    const check = { id: freshId(), binId: BINS.flow, happenedAt: '2026-11-28T09:20:00Z', squeeze: 'damp' };
    await cast.call('volunteer', 'POST', '/api/checks', check);
    const ofFlow = await made({ duties: [{ binId: BINS.flow, kind: 'check' }], binIds: [BINS.flow] });
    const noted = async (shiftId: string) => {
      const { bins } = (await cast.call('volunteer', 'GET', `/api/shifts/${shiftId}/card`)).body;
      return bins[0].duties[0].noted;
    };
    expect([await noted(ofFlow), await noted(id)]).toEqual([true, false]);
  });
});

describe('after a shift', () => {
  test('a duty that was missed is due again, and more pressing; one that was done says so', async () => {
    const id = await made();
    await cast.call('volunteer', 'POST', `/api/shifts/${id}/sign-ups`, { id: freshId() });
    const results = [
      { binId: BINS.tote, kind: 'check', result: 'done' },
      { binId: BINS.tote, kind: 'feed', result: 'missed', note: 'No scraps came' },
    ];
    expect((await say('volunteer', id, { results })).body.code).toBe('date-in-future');
    cast.clock.at = new Date('2026-11-28T11:00:00.000Z');
    expect((await say('volunteer', id, { results })).status).toBe(200);
    expect((await ofTote('check'))?.last).toMatchObject({ result: 'done' });
    const feed = await ofTote('feed');
    expect(feed).toMatchObject({ plannedOn: null, last: { result: 'missed' } });
    expect(feed?.urgency).not.toBe('in-window');
    const card = (await cast.call('volunteer', 'GET', `/api/shifts/${id}/card`)).body;
    expect(card.bins[0].duties.map((duty: { result: string }) => duty.result)).toEqual(['done', 'missed']);
    await say('volunteer', id, { results: [{ ...results[1], result: null }] });
    expect((await ofTote('feed'))?.last).toBeNull();
  });

  test('minutes are said of oneself, and by the lead of the site of everybody', async () => {
    const id = await made();
    const [mine, theirs] = [freshId(), freshId()];
    await cast.call('volunteer', 'POST', `/api/shifts/${id}/sign-ups`, { id: mine });
    await cast.call('otherVolunteer', 'POST', `/api/shifts/${id}/sign-ups`, { id: theirs });
    cast.clock.at = new Date('2026-11-28T11:00:00.000Z');
    const came = (signUpId: string) => ({ came: [{ signUpId, attended: true, minutes: 45 }] });
    expect((await say('volunteer', id, came(theirs))).body.errors[0].pointer).toBe('/came/0/signUpId');
    expect((await say('volunteer', id, came(mine))).body.signUps[0]).toMatchObject({ attended: true, minutes: 45 });
    expect((await say('siteLead', id, came(theirs))).body.signUps[1]).toMatchObject({ attended: true, minutes: 45 });
  });
});
