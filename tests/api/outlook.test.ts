import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { outlookOf, type Scenario } from '@middenry/domain';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { rememberer } from '../../apps/api/src/model/rememberer.ts';
import { useModel } from '../../apps/api/src/services/outlook-cache.ts';
import { BINS, type Cast, freshId, openCast, SITES } from '../cast.ts';

let cast: Cast;
let scenarios: Scenario[] = [];
beforeAll(async () => {
  cast = await openCast();
  // The real model, and a note of what it was given.
  useModel(cast.store, (scenario, today, settings) => {
    scenarios.push(scenario);
    return outlookOf(scenario, today, settings);
  });
});
beforeEach(() => {
  scenarios = [];
});
afterAll(() => cast.close());

const feed = (change: object = {}) =>
  cast.call('volunteer', 'POST', '/api/feedings', {
    id: freshId(),
    binId: BINS.tote,
    happenedAt: '2026-11-24T09:30:00.000Z',
    zone: 1,
    items: [{ materialId: 'food_scraps_veg', massKg: 1, how: 'weighed' }],
    ...change,
  });
const outlook = async (bin: string = BINS.tote, query = '') => (await cast.call('pupil', 'GET', `/api/bins/${bin}/outlook${query}`)).body;

describe('GET /bins/:id/outlook', () => {
  test('tells the model what was logged, by days since the bin was started', async () => {
    const entry = (await feed({ beddingKg: 0.2, beddingMaterialId: 'newsprint_shredded', waterKg: 0.1 })).body;
    await outlook();
    const { bin, climate, events, days } = scenarios.at(-1)!;
    expect(days).toBe(177);
    expect(bin).toMatchObject({ kind: 'tote', zones: 2, worms: { massKg: 0.5 }, bed: [{ material: 'cardboard_corrugated', massKg: 2 }] });
    expect(climate.monthly).toMatchObject({ firstDayOfYear: 152 });
    expect(events).toEqual([
      {
        type: 'feeding',
        day: 176,
        entryId: entry.id,
        zone: 1,
        items: [{ material: 'food_scraps_veg', massKg: 1, how: 'weighed', preparation: 'chopped' }],
        waterKg: 0.1,
        beddingKg: 0.2,
        beddingMaterial: 'newsprint_shredded',
      },
    ]);
  });

  test('an own material goes in by its numbers, own bedding beside the feeding', async () => {
    const own = { moistureFracWb: 0.3, carbonFracDb: 0.4, nitrogenFracDb: 0.01, bulkDensityKgM3: 100 };
    const like = 'leaves_dry';
    const material = { id: freshId(), name: 'Our own leaves', kind: 'bedding', like, ...own };
    await cast.call('coordinator', 'POST', '/api/materials', material);
    await feed({ binId: BINS.flow, beddingKg: 0.4, beddingMaterialId: material.id });
    await outlook(BINS.flow);
    const bedding = scenarios.at(-1)!.events.filter((event) => event.type === 'bedding');
    expect(bedding).toMatchObject([{ zone: 1, items: [{ massKg: 0.4, composition: { moistureFracWb: 0.3, carbonFracDb: 0.4 } }] }]);
  });

  test('history and forecast are dated, today in both', async () => {
    const body = await outlook(BINS.tote, '?historyDays=7');
    expect(body.today).toBe('2026-11-25');
    expect(body.history.map((row: { on: string }) => row.on)).toEqual([
      '2026-11-19',
      '2026-11-20',
      '2026-11-21',
      '2026-11-22',
      '2026-11-23',
      '2026-11-24',
      '2026-11-25',
    ]);
    expect(body.forecast).toHaveLength(15);
    expect(body.forecast[0].on).toBe('2026-11-25');
    expect(body.forecast[14].on).toBe('2026-12-09');
    expect(body.lastFedOn).toBe('2026-11-24');
    expect(body.flags).toHaveLength(12);
    for (const duty of body.duties) expect(duty.fromOn <= duty.dueOn && duty.dueOn <= duty.overdueOn).toBe(true);
  });

  test('of a bin that is not there is a 404', async () => {
    expect((await cast.call('volunteer', 'GET', `/api/bins/${freshId()}/outlook`)).status).toBe(404);
  });

  test('a flag names the entries behind it and the remedy that was tried', async () => {
    const heap = (await feed({ binId: BINS.school, items: [{ materialId: 'food_scraps_veg', massKg: 14, how: 'weighed' }] })).body;
    const body = await outlook(BINS.school);
    const lead = body.flags[0];
    expect(lead.band).toBe('act');
    expect(['airless', 'overfed']).toContain(lead.signal);
    const named = body.flags.flatMap((flag: { reasons: { entryIds: string[] }[] }) => flag.reasons.flatMap((reason) => reason.entryIds));
    expect(named).toContain(heap.id);
    expect(lead.remedies[0].probabilityAfter).toBeLessThanOrEqual(lead.remedies[0].probabilityBefore);
    expect(body.advice.massKg).toBe(0);
  });
});

describe('what is kept', () => {
  test('the model runs once for a bin on a day, again after an entry, an undo, or midnight at the site', async () => {
    await outlook();
    scenarios = [];
    await outlook();
    expect(scenarios).toHaveLength(0);
    const entry = (await feed({ zone: 2 })).body;
    await outlook();
    expect(scenarios).toHaveLength(1);
    await cast.call('volunteer', 'DELETE', `/api/entries/${entry.id}`);
    await outlook();
    expect(scenarios).toHaveLength(2);
    expect(scenarios[1]!.events).not.toContainEqual(expect.objectContaining({ entryId: entry.id }));
    const before = cast.clock.at;
    cast.clock.at = new Date('2026-11-26T00:30:00.000Z');
    expect((await outlook()).today).toBe('2026-11-26');
    cast.clock.at = before;
    expect(scenarios).toHaveLength(3);
  });
});

describe('the model with its memory in a file', () => {
  test('a restart and a lost file change nothing of what the board and a page say', async () => {
    const file = join(cast.dir, 'memory.db');
    const clockBefore = cast.clock.at;
    const opened = () => {
      const model = rememberer(file, import.meta.url);
      useModel(cast.store, (scenario, today, settings) => {
        const { outlook, keep } = model.outlookOf(scenario, today, settings);
        keep();
        return outlook;
      });
      return model;
    };
    const told = async () => {
      const { body } = await cast.call('volunteer', 'GET', '/api/board');
      return { bins: body.bins, page: await outlook(BINS.flow) };
    };
    const first = opened();
    await told();
    cast.clock.at = new Date('2026-11-26T10:00:00.000Z');
    await feed({ binId: BINS.flow, happenedAt: '2026-11-26T09:00:00.000Z' });
    const straight = await told();
    first.close();
    const second = opened();
    expect(await told()).toEqual(straight);
    second.close();
    for (const end of ['', '-wal', '-shm']) rmSync(`${file}${end}`, { force: true });
    const third = opened();
    expect(await told()).toEqual(straight);
    third.close();
    cast.clock.at = clockBefore;
    useModel(cast.store, outlookOf);
  }, 60_000);
});

describe('GET /board', () => {
  test('shows every bin by place with counts that add up, and what is uncovered', async () => {
    const shift = {
      id: freshId(),
      siteId: SITES.meadow,
      title: 'Round',
      localDate: '2026-11-28',
      localTime: '09:00',
      minutes: 60,
      places: 2,
    };
    await cast.call('coordinator', 'POST', '/api/shifts', shift);
    await cast.call('coordinator', 'POST', '/api/shifts', { ...shift, id: freshId(), localDate: '2026-12-20' });
    const { body } = await cast.call('volunteer', 'GET', '/api/board');
    expect(body.bins.map((bin: { code: string }) => bin.code)).toEqual(['S1', 'F1', 'T1']);
    const { act, watch, unknown, settled } = body.counts;
    expect(act + watch + unknown + settled).toBe(3);
    expect(act).toBeGreaterThanOrEqual(1);
    expect(body.uncovered).toMatchObject([{ shiftId: shift.id, places: 2, taken: 0, siteName: 'Long Meadow' }]);
    for (const bin of body.bins) {
      expect(bin.trend.values).toHaveLength(56);
      expect(bin.trend.values.at(-1).on).toBe('2026-11-25');
    }
  });

  test('of one site leaves the others out, a retired bin is not on it, an unknown site is a 404', async () => {
    const school = await cast.call('volunteer', 'GET', `/api/board?siteId=${SITES.school}`);
    expect(school.body.bins.map((bin: { code: string }) => bin.code)).toEqual(['S1']);
    await cast.call('coordinator', 'PATCH', `/api/bins/${BINS.school}`, { state: 'retired' });
    const after = await cast.call('volunteer', 'GET', '/api/board');
    expect(after.body.bins).toHaveLength(2);
    expect((await cast.call('volunteer', 'GET', `/api/board?siteId=${freshId()}`)).status).toBe(404);
  });
});
