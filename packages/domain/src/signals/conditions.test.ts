import { describe, expect, it } from 'vitest';
import type { BinEvent } from '../bin/scenario.ts';
import type { Reading } from './member-day.ts';
import { SIGNALS } from './registry.ts';
import { atWell, TOTE, told, zoneWell } from './signals-cast.ts';
import type { SignalId } from './types.ts';

const check = (over: Partial<Extract<BinEvent, { type: 'check' }>>, day = 30): BinEvent => ({
  day,
  type: 'check',
  entryId: 'entry-check',
  ...over,
});

/** Food for so many days of the appetite of one kilogram of worms at 20 C. */
const inHand = (days: number): Partial<Reading> => ({ bedTempC: 20, foodInHandDays: days, labileFoodKgDb: 1 });

describe('conditions at their thresholds', () => {
  const cases: readonly [SignalId, Partial<Reading>, Partial<Reading>, Partial<Reading>][] = [
    // signal, holds, just short of it, still holds once it held (inside the dead band)
    ['airless', { airlessFrac: 0.25 }, { airlessFrac: 0.24 }, { airlessFrac: 0.2 }],
    ['airless', { baseOxygenFrac: 0.049 }, { baseOxygenFrac: 0.05 }, { baseOxygenFrac: 0.049 }],
    ['overfed', inHand(14.1), inHand(14), inHand(12.1)],
    ['overfed', { ...inHand(8), oldLabileFrac: 0.51 }, { ...inHand(8), oldLabileFrac: 0.5 }, { ...inHand(8), oldLabileFrac: 0.51 }],
    [
      'hungry',
      { foodInHandDays: 0.9, beddingFracOfSolids: 0.1 },
      { foodInHandDays: 0.9, beddingFracOfSolids: 0.3 },
      { foodInHandDays: 1.4, beddingFracOfSolids: 0.1 },
    ],
    ['dry', { moistureFracWb: 0.59 }, { moistureFracWb: 0.6 }, { moistureFracWb: 0.61 }],
    ['wet', { moistureFracWb: 0.84 }, { moistureFracWb: 0.83 }, { moistureFracWb: 0.82 }],
    ['wet', { airFilledPorosity: 0.19 }, { airFilledPorosity: 0.2 }, { airFilledPorosity: 0.21 }],
    ['hot', { bedPeakTempC: 29 }, { bedPeakTempC: 28.9 }, { bedPeakTempC: 28 }],
    ['cold', { bedTempC: 4.9 }, { bedTempC: 5 }, { bedTempC: 5.9 }],
    ['sour', { ph: 5.4 }, { ph: 5.5 }, { ph: 5.6 }],
    ['ammonia', { rottingCn: 14, ph: 8.2 }, { rottingCn: 14, ph: 7.5 }, { rottingCn: 15.5, ph: 8.2 }],
    ['bedding-low', { beddingFracOfSolids: 0.09 }, { beddingFracOfSolids: 0.1 }, { beddingFracOfSolids: 0.11 }],
  ];

  it.each(cases)('%s holds, does not a little short of it, and keeps holding in its dead band', (id, holds, short, kept) => {
    const { condition } = SIGNALS[id];
    expect(condition(atWell(30, holds), false)).toBe(true);
    expect(condition(atWell(30, short), false)).toBe(false);
    expect(condition(atWell(30, kept), true)).toBe(true);
  });

  it('harvest-due holds by age with enough castings, by depth alone, and ends at a harvest', () => {
    const { condition } = SIGNALS['harvest-due'];
    const enough = { castingsKgWb: 10 };
    expect(condition(atWell(59, enough), false)).toBe(false);
    expect(condition(atWell(60, enough), false)).toBe(true);
    expect(condition(atWell(60, { castingsKgWb: 2 }), false)).toBe(false);
    expect(condition(atWell(1, { castingsKgWb: 30 }), false)).toBe(true);
    expect(condition(atWell(70, enough, [{ day: 65, type: 'harvest', massKg: 1 }]), false)).toBe(false);
  });

  it('a flow-through bin of depth is due two weeks after its last harvest (common practice, no source)', () => {
    const setup = { ...TOTE, kind: 'flow-through' as const, areaM2: 1, depthM: 0.6 };
    const events: BinEvent[] = [{ day: 100, type: 'harvest', massKg: 10 }];
    const { condition } = SIGNALS['harvest-due'];
    expect(condition(atWell(113, { castingsKgWb: 220 }, events, setup), false)).toBe(false);
    expect(condition(atWell(114, { castingsKgWb: 220 }, events, setup), false)).toBe(true);
  });

  it('unseen holds after twice the interval, counted from the start when nobody ever looked', () => {
    const { condition } = SIGNALS.unseen;
    expect(condition(atWell(14), false)).toBe(false);
    expect(condition(atWell(15), false)).toBe(true);
    expect(condition(atWell(34, {}, [check({}, 20)]), false)).toBe(false);
    expect(condition(atWell(35, {}, [check({}, 20)]), false)).toBe(true);
  });

  it('food that waits in a cold or dry bed is not overfed, and the same food in a warm one is', () => {
    const food = { labileFoodKgDb: 0.35, foodInHandDays: 999, oldLabileFrac: 0.7 };
    expect(SIGNALS.overfed.condition(atWell(30, { ...food, bedTempC: 20, foodInHandDays: 11 }), false)).toBe(true);
    expect(SIGNALS.overfed.condition(atWell(30, { ...food, labileFoodKgDb: 0.1, bedTempC: 5 }), false)).toBe(false);
    expect(SIGNALS.overfed.condition(atWell(30, { ...food, bedTempC: 5 }), false)).toBe(true);
  });

  it('a resting bin is never hungry', () => {
    const at = { ...atWell(30, { foodInHandDays: 0, beddingFracOfSolids: 0.05 }), resting: true };
    expect(SIGNALS.hungry.condition(at, false)).toBe(false);
  });
});

describe('things seen', () => {
  const cases: readonly [SignalId, BinEvent][] = [
    ['airless', check({ smell: 'rotten' })],
    ['sour', check({ smell: 'sour' })],
    ['sour', check({ ph: 5.2 })],
    ['ammonia', check({ smell: 'ammonia' })],
    ['dry', check({ squeeze: 'crumbles' })],
    ['wet', check({ squeeze: 'trickle' })],
    ['hot', check({ tempC: 30 })],
    ['cold', check({ tempC: 3 })],
  ];

  it.each(cases)('%s is itself the event, names its entry, and lasts a week at most', (id, event) => {
    expect(SIGNALS[id].seen(atWell(30, {}, [event]))[0]?.entryIds).toEqual(['entry-check']);
    expect(SIGNALS[id].seen(atWell(37, {}, [event]))).toHaveLength(1);
    expect(SIGNALS[id].seen(atWell(38, {}, [event]))).toEqual([]);
  });

  it('another look that finds it well ends it at once', () => {
    expect(SIGNALS.airless.seen(atWell(31, {}, [check({ smell: 'rotten' }), check({ smell: 'earthy' }, 31)]))).toEqual([]);
  });

  it('care ends it the day after', () => {
    const events: BinEvent[] = [check({ squeeze: 'crumbles' }), { day: 31, type: 'water', massKg: 2 }];
    expect(SIGNALS.dry.seen(atWell(31, {}, events))).toHaveLength(1);
    expect(SIGNALS.dry.seen(atWell(32, {}, events))).toEqual([]);
  });

  it('care of the same day ends it a day later, since it may have come before the look', () => {
    const events: BinEvent[] = [check({ squeeze: 'crumbles' }), { day: 30, type: 'water', massKg: 2 }];
    expect(SIGNALS.dry.seen(atWell(31, {}, events))).toHaveLength(1);
    expect(SIGNALS.dry.seen(atWell(32, {}, events))).toEqual([]);
  });

  it('a feeding found mostly there after ten days is overfed and names both entries', () => {
    const fed: BinEvent = { day: 20, type: 'feeding', zone: 2, items: [{ material: 'carrot', massKg: 1 }], entryId: 'entry-fed' };
    expect(SIGNALS.overfed.seen(atWell(30, {}, [fed, check({ leftover: { '2': 'most' } })]))[0]).toMatchObject({
      code: 'feeding-left',
      entryIds: ['entry-check', 'entry-fed'],
    });
    expect(SIGNALS.overfed.seen(atWell(30, {}, [fed, check({ leftover: { '2': 'half' } })]))).toEqual([]);
    expect(SIGNALS.overfed.seen(atWell(27, {}, [fed, check({ leftover: { '2': 'most' } }, 27)]))).toEqual([]);
  });
});

describe('reasons', () => {
  it('airless names the zone, the layer against the air, and the feeding that was too much or bare', () => {
    const fed: BinEvent = { day: 28, type: 'feeding', zone: 3, items: [{ material: 'carrot', massKg: 4 }], entryId: 'entry-big' };
    const zones = [zoneWell(1), zoneWell(3, { airlessFrac: 0.4, layerDepthM: 0.12, airDepthM: 0.07, foodLeftKgWb: 4 })];
    const at = told(atWell(30, { airlessFrac: 0.4 }, [fed]), { zones });
    expect(SIGNALS.airless.zone(at)).toBe(3);
    expect(SIGNALS.airless.reasons(at).map(({ code, entryIds }) => [code, entryIds])).toEqual([
      ['layer-deep', []],
      ['fed-much', ['entry-big']],
      ['fed-without-bedding', ['entry-big']],
    ]);
  });

  it('airless from below blames the bed and no zone', () => {
    const at = told(atWell(30, { baseOxygenFrac: 0.02, airFilledPorosity: 0.1 }));
    expect(SIGNALS.airless.zone(at)).toBeNull();
    expect(SIGNALS.airless.reasons(at).map(({ code }) => code)).toEqual(['packed', 'too-wet']);
  });
});
