import { FEED_PARAMETERS } from '@middenry/domain';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { runsOut } from '../../apps/api/src/services/bedding.ts';
import { binScenes, troubleOfPlan } from '../../apps/api/src/services/intake-ask.ts';
import { modelInThread, trialInThread } from '../../apps/api/src/services/model.ts';
import { useModel } from '../../apps/api/src/services/outlook-cache.ts';
import { BINS, type Cast, freshId, openCast, SITES } from '../cast.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
  for (const [at, id] of KEPT.entries()) await wellKept(id, `K${at + 1}`);
  // One after another, so that no single answer has to wait for the outlooks of all.
  for (const id of [BINS.tote, BINS.flow, ...KEPT]) await cast.call('siteLead', 'GET', `/api/bins/${id}/outlook`);
  await move('counted', 6);
  await cast.call('siteLead', 'POST', '/api/containers', { id: freshId(), siteId: SITES.meadow, name: 'Blue caddy', litres: 7, fullKg: 1 });
});
beforeEach(() => {
  cast.clock.at = new Date('2026-11-25T10:00:00.000Z');
});
afterAll(() => cast.close());

/** Two bins indoors, fed every week and looked at, so that they can take something. */
const KEPT = [freshId(), freshId()];
async function wellKept(id: string, code: string): Promise<void> {
  const size = { kind: 'tote', areaM2: 0.5, depthM: 0.5, zones: 2, exposure: 'indoors', wormsKg: 1, bedWaterKg: 9 };
  const bed = [{ materialId: 'cardboard_corrugated', massKg: 4 }];
  const bin = { id, siteId: SITES.meadow, code, name: `Kept ${code}`, startedOn: '2026-09-01', bed, ...size };
  await cast.call('siteLead', 'POST', '/api/bins', bin);
  for (const day of ['09-08', '09-19', '09-30', '10-11', '10-22', '11-02', '11-13']) {
    const happenedAt = `2026-${day}T10:00:00Z`;
    const items = [{ materialId: 'food_scraps_veg', massKg: 1.2, how: 'weighed' }];
    await cast.call('siteLead', 'POST', '/api/feedings', { id: freshId(), binId: id, happenedAt, zone: 1, items, beddingKg: 0.3 });
    await cast.call('siteLead', 'POST', '/api/checks', { id: freshId(), binId: id, happenedAt, squeeze: 'one-two-drops', smell: 'earthy' });
  }
}

const move = (kind: string, massKg: number) =>
  cast.call('siteLead', 'POST', '/api/bedding-moves', {
    ...{ id: freshId(), siteId: SITES.meadow, materialId: 'cardboard_corrugated', kind, massKg },
  });
const offered = [
  { source: 'Corner cafe', materialId: 'coffee_grounds', massKg: 2 },
  { source: 'Market stall', materialId: 'food_scraps_veg', massKg: 60 },
];
const plan = (change: object = {}) =>
  cast.call('siteLead', 'POST', '/api/intake-plans', {
    id: freshId(),
    siteId: SITES.meadow,
    on: '2026-11-27',
    streams: offered,
    ...change,
  });
const made = async (change: object = {}): Promise<string> => {
  const shift = {
    id: freshId(),
    siteId: SITES.meadow,
    title: 'Friday',
    localDate: '2026-11-27',
    localTime: '16:00',
    minutes: 60,
    places: 2,
  };
  await cast.call('siteLead', 'POST', '/api/shifts', { ...shift, ...change });
  return shift.id;
};
interface Part {
  readonly materialId: string;
  readonly massKg: number;
}
const sumKg = (parts: readonly Part[]) => parts.reduce((sum, { massKg }) => sum + massKg, 0);

describe('a plan for scraps on offer', () => {
  test('shares them among the bins within their advice, says what is left over, and loses nothing', async () => {
    const { status, body } = await plan();
    expect(status).toBe(201);
    const scraps = body.feedings.flatMap((feeding: { scraps: Part[] }) => feeding.scraps);
    for (const { materialId, massKg } of offered) {
      const of = (parts: readonly Part[]) => sumKg(parts.filter((part) => part.materialId === materialId));
      expect(of(scraps) + of(body.leftOver)).toBeCloseTo(massKg, 2);
    }
    expect(sumKg(scraps)).toBeGreaterThan(0);
    expect(sumKg(body.leftOver)).toBeGreaterThan(30);
    for (const feeding of body.feedings) {
      expect(feeding.fillFrac).toBeLessThanOrEqual(1 + 1e-6);
      expect(feeding.troubleProbability).toBeLessThanOrEqual(FEED_PARAMETERS.troubleProbability.value);
      expect(feeding.massKg).toBeCloseTo(sumKg(feeding.scraps), 2);
    }
    expect(sumKg(body.bedding)).toBeLessThanOrEqual(6);
    expect(body.bedding[0]).toMatchObject({ materialId: 'cardboard_corrugated', inStoreKg: 6 });
  });

  test('with too little bedding says how much is missing', async () => {
    const poor = (await plan({ siteId: SITES.meadow })).body;
    await move('counted', 0);
    const without = (await plan()).body;
    const fed = (body: { feedings: { massKg: number }[] }) => body.feedings.reduce((sum, { massKg }) => sum + massKg, 0);
    expect(fed(without)).toBeLessThan(fed(poor));
    expect(sumKg(without.beddingMissing)).toBeGreaterThan(0);
    expect(without.leftOver.some(({ forBeddingKg }: { forBeddingKg: number }) => forBeddingKg > 0)).toBe(true);
    await move('counted', 6);
  });

  test('is what it was when sent again, and another programme of days is refused', async () => {
    const id = freshId();
    const first = await plan({ id });
    const again = await plan({ id });
    expect([first.status, again.status]).toEqual([201, 200]);
    expect(again.body).toEqual(first.body);
    expect((await plan({ id, on: '2026-11-28' })).body.code).toBe('same-id-other-content');
    expect((await plan({ streams: [{ ...offered[0], materialId: 'meat' }] })).status).toBe(422);
  });

  test('that is accepted is on the card of the shift, with its amounts and its bedding to bring', async () => {
    const shiftId = await made();
    const { id, feedings, suggestedShiftId } = (await plan()).body;
    expect(suggestedShiftId).toBe(shiftId);
    const url = `/api/intake-plans/${id}/accept`;
    const before = await made({ localDate: '2026-11-26' });
    expect((await cast.call('siteLead', 'POST', url, { id: freshId(), shiftId: before })).body.errors[0].pointer).toBe('/shiftId');
    const accepted = await cast.call('siteLead', 'POST', url, { id: freshId(), shiftId });
    expect([accepted.status, accepted.body.plan.shiftId]).toEqual([201, shiftId]);
    expect((await cast.call('siteLead', 'POST', url, { id: freshId(), shiftId })).body.code).toBe('plan-accepted');
    const card = (await cast.call('volunteer', 'GET', `/api/shifts/${shiftId}/card`)).body;
    for (const { binId, massKg, scraps } of feedings) {
      const [duty] = card.bins.find((bin: { id: string }) => bin.id === binId).duties;
      expect(duty).toMatchObject({ kind: 'feed', feed: { from: 'intake', massKg } });
      expect(duty.feed.scraps.map(({ materialId }: Part) => materialId).sort()).toEqual(
        scraps.map(({ materialId }: Part) => materialId).sort(),
      );
      expect(duty.feed.containers.every(({ count }: { count: number }) => count <= massKg)).toBe(true);
    }
    // The forecast counts on the very amounts that the card asks for, not on what the bin is usually given.
    const [{ binId, massKg }] = feedings;
    const { planned } = (await cast.call('volunteer', 'GET', `/api/bins/${binId}/outlook`)).body;
    expect(planned.map(({ on, from }: { on: string; from: string }) => [on, from])).toContainEqual(['2026-11-27', 'shift']);
    expect(sumKg(planned.filter(({ on }: { on: string }) => on === '2026-11-27'))).toBeCloseTo(massKg, 3);
    const [stock] = (await cast.call('volunteer', 'GET', `/api/bedding-stock?siteId=${SITES.meadow}`)).body.items;
    expect(stock.plannedKg).toBeCloseTo(sumKg(card.bring.bedding), 2);
  });

  test('does not feed a bin that the shift harvests', async () => {
    const { id, feedings } = (await plan()).body;
    const shiftId = await made({ duties: [{ binId: feedings[0].binId, kind: 'harvest' }] });
    const refused = await cast.call('siteLead', 'POST', `/api/intake-plans/${id}/accept`, { id: freshId(), shiftId });
    expect([refused.status, refused.body.errors[0].pointer]).toEqual([422, '/shiftId']);
    const { items } = (await cast.call('siteLead', 'GET', '/api/intake-plans')).body;
    expect(items.find((each: { id: string }) => each.id === id).acceptedAt).toBeNull();
    expect(KEPT).toContain(feedings[0].binId);
  });
});

describe('when the time is short', () => {
  const call = () => ({ store: cast.store, today: () => '2026-11-25' });
  const soon = () => performance.now() + 60_000;

  test('a bin that could not be looked at is named, and known the next time', async () => {
    let open = () => {};
    let gate = Promise.resolve();
    useModel(cast.store, async (...question) => {
      await gate;
      return modelInThread(...question);
    });
    const all = await binScenes(call(), SITES.meadow, soon());
    expect(all.unlooked).toEqual([]);
    const last = all.bins.at(-1)!.bin;
    gate = new Promise((resolve) => {
      open = resolve;
    });
    const seen = { id: freshId(), binId: last.id, happenedAt: '2026-11-25T09:00:00Z', smell: 'earthy' };
    expect((await cast.call('siteLead', 'POST', '/api/checks', seen)).status).toBe(201);
    const short = await binScenes(call(), SITES.meadow, performance.now() + 150);
    expect(short.unlooked.map(({ code }) => code)).toEqual([last.code]);
    expect(short.bins.map(({ bin }) => bin.code)).toEqual(all.bins.slice(0, -1).map(({ bin }) => bin.code));
    open();
    expect((await binScenes(call(), SITES.meadow, soon())).unlooked).toEqual([]);
  });

  test('feedings that could not be tried out have no chance of trouble; the same one is tried once', async () => {
    let tries = 0;
    useModel(cast.store, modelInThread, (...question) => {
      tries += 1;
      return trialInThread(...question);
    });
    const { bins } = await binScenes(call(), SITES.meadow, soon());
    const scene = { bins, own: new Map() };
    const feeding = { binId: KEPT[0]!, scraps: [{ id: '1', massKg: 1 }], bedding: [] };
    const inTime = troubleOfPlan(call(), offered, scene, { on: '2026-11-27', untilMs: soon() });
    expect(await inTime(feeding)).toEqual(await inTime({ ...feeding }));
    expect([tries, typeof (await inTime(feeding))]).toEqual([1, 'number']);
    const late = troubleOfPlan(call(), offered, scene, { on: '2026-11-27', untilMs: performance.now() - 1 });
    expect([late(feeding), tries]).toEqual([null, 1]);
  });
});

describe('runsOut()', () => {
  test('is the day on which plans and usual use have taken all there is', () => {
    const on = (massKg: number, usedPerWeekKg: number, plannedKg = 0) => runsOut('2026-11-25', { massKg, usedPerWeekKg }, plannedKg);
    expect([on(7, 1), on(7, 1, 3), on(7, 1, 7), on(0, 1), on(7, 0), on(0, 0), on(1000, 1)]).toEqual([
      '2027-01-13',
      '2026-12-23',
      '2026-11-25',
      '2026-11-25',
      null,
      null,
      null,
    ]);
  });
});
