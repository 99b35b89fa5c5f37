import { describe, expect, it } from 'vitest';
import type { BinEvent } from '../bin/scenario.ts';
import { mixOf } from '../materials/blend.ts';
import { materialOf } from '../materials/material.ts';
import { logFactsAt } from '../signals/log-facts.ts';
import type { BinDay } from '../signals/member-day.ts';
import { binWell, TOTE, zoneWell } from '../signals/signals-cast.ts';
import { beddingForKg, type FeedScene, feedAdvice, feedingPlan, type Trouble, weeklyRationKg, zonesInTurn } from './feed-advice.ts';

const DAY = 40;
const scene = (over: Partial<BinDay> = {}, events: readonly BinEvent[] = [], rest: Partial<FeedScene> = {}): FeedScene => ({
  setup: { ...TOTE, areaM2: 0.4 },
  bin: binWell(DAY, { bedTempC: 20, bedPeakTempC: 20, wormsKg: 1, foodInHandDays: 2, ...over }),
  log: logFactsAt(events, DAY),
  resting: false,
  troubleAfter: () => trouble(0),
  ...rest,
});
const trouble = (airless: number, overfed = 0): Trouble => ({ airless, overfed, either: Math.max(airless, overfed) });
const fed = (day: number, massKg: number, zone = 1): BinEvent => ({ day, type: 'feeding', zone, items: [{ material: 'carrot', massKg }] });

describe('weeklyRationKg() (EQ12)', () => {
  it('is 0.25 kg per kg worms a day at 20 C', () => {
    expect(weeklyRationKg(scene())).toBeCloseTo(0.25 * 7, 9);
  });

  it('never passes 0.7 kg a day per square metre, however many the worms', () => {
    expect(weeklyRationKg(scene({ wormsKg: 10 }))).toBeCloseTo(0.7 * 0.4 * 7, 9);
  });

  it('is halved in a new bin and where food lies uneaten for a week', () => {
    expect(weeklyRationKg(scene({ ageDays: 30 }))).toBeCloseTo(0.25 * 7 * 0.5, 9);
    expect(weeklyRationKg(scene({ foodInHandDays: 8 }))).toBeCloseTo(0.25 * 7 * 0.5, 9);
  });

  it('follows the feeding curve: 0.343 over 0.974 at 10 C, never more than at 20 C, nothing at 33 C', () => {
    expect(weeklyRationKg(scene({ bedTempC: 10 }))).toBeCloseTo((1.75 * 0.343) / 0.974, 2);
    expect(weeklyRationKg(scene({ bedTempC: 22 }))).toBeCloseTo(1.75, 9);
    expect(weeklyRationKg(scene({ bedTempC: 33 }))).toBe(0);
  });
});

describe('feedAdvice()', () => {
  it('gives the ration in kilograms, with its spread, zones and bedding', () => {
    const advice = feedAdvice(scene());
    expect(advice).toMatchObject({ massKg: 1.75, hold: null, estimateValid: true, zones: [1] });
    expect(advice.lowKg).toBeCloseTo(1.75 * 0.7, 1);
    expect(advice.highKg).toBeCloseTo(1.75 * 1.3, 1);
    expect(advice.beddingKg).toBeGreaterThan(0.15);
  });

  it('leaves room for what the last week brought', () => {
    expect(feedAdvice(scene({}, [fed(DAY - 3, 1)])).massKg).toBeCloseTo(0.75, 9);
    expect(feedAdvice(scene({}, [fed(DAY - 3, 1.6)]))).toMatchObject({ massKg: 0, hold: 'fed-lately' });
    expect(feedAdvice(scene({ foodInHandDays: 9 }, [fed(DAY - 3, 1.6)])).hold).toBe('food-in-hand');
    expect(feedAdvice(scene({}, [fed(DAY - 7, 5)])).massKg).toBeCloseTo(1.75, 9);
  });

  it.each<[string, Partial<BinDay>]>([
    ['hot', { bedPeakTempC: 29 }],
    ['cold', { bedTempC: 4 }],
    ['sour', { ph: 4.9 }],
    ['airless', { airFilledPorosity: 0.11 }],
    ['food-in-hand', { foodInHandDays: 15 }],
  ])('holds when %s', (hold, over) => {
    expect(feedAdvice(scene(over))).toMatchObject({ hold, massKg: 0, beddingKg: 0, zones: [] });
  });

  it('holds after a bad smell until a week or an earthy one', () => {
    const smell = (day: number, value: 'rotten' | 'earthy'): BinEvent => ({ day, type: 'check', smell: value });
    expect(feedAdvice(scene({}, [smell(DAY - 2, 'rotten')])).hold).toBe('smell');
    expect(feedAdvice(scene({}, [smell(DAY - 2, 'rotten'), smell(DAY - 1, 'earthy')])).hold).toBeNull();
    expect(feedAdvice(scene({}, [smell(DAY - 8, 'rotten')])).hold).toBeNull();
  });

  it('holds while the bin rests', () => {
    expect(feedAdvice(scene({}, [], { resting: true })).hold).toBe('resting');
  });

  it('shrinks until trouble is at most one in ten, and holds when even a little brings it', () => {
    const above = (limitKg: number) => feedAdvice(scene({}, [], { troubleAfter: ({ massKg }) => trouble(massKg > limitKg ? 0.11 : 0.1) }));
    for (const limitKg of [0.3, 0.72, 1, 1.7])
      expect(above(limitKg), String(limitKg)).toMatchObject({ limit: 'airless', troubleProbability: 0.1 });
    expect(above(1).massKg).toBeCloseTo(1, 9);
    expect(above(1).highKg).toBeCloseTo(1, 9);
    expect(above(0.72).massKg).toBeCloseTo(0.7, 9);
    expect(above(2)).toMatchObject({ massKg: 1.75, limit: 'ration' });
    expect(feedAdvice(scene({}, [], { troubleAfter: () => trouble(0, 1) }))).toMatchObject({
      massKg: 0,
      hold: 'food-in-hand',
      limit: null,
    });
    expect(feedAdvice(scene({}, [], { troubleAfter: () => trouble(1) }))).toMatchObject({ massKg: 0, hold: 'airless' });
  });

  it('asks few members often and all members last, and goes down where all say no', () => {
    const asked: string[] = [];
    const advice = feedAdvice(
      scene({}, [], {
        troubleAfter: ({ massKg }, by) => {
          asked.push(by);
          return trouble(0, massKg > (by === 'few' ? 1.2 : 0.9) ? 0.2 : 0.05);
        },
      }),
    );
    expect(advice).toMatchObject({ limit: 'overfed', troubleProbability: 0.05 });
    expect(advice.massKg).toBeLessThanOrEqual(0.9);
    expect(advice.massKg).toBeGreaterThanOrEqual(0.7);
    expect(asked.filter((by) => by === 'few').length).toBeLessThanOrEqual(8);
    expect(asked.filter((by) => by === 'all').length).toBeLessThanOrEqual(3);
  });

  it('does not trust its estimate for four weeks after soldier-fly larvae', () => {
    const larvae = (day: number): BinEvent => ({ day, type: 'check', visitors: ['soldier-fly-larvae'] });
    expect(feedAdvice(scene({}, [larvae(DAY - 28)])).estimateValid).toBe(false);
    expect(feedAdvice(scene({}, [larvae(DAY - 29)])).estimateValid).toBe(true);
  });
});

describe('zones', () => {
  it('takes the emptiest first, then the one not fed for longest', () => {
    const zones = [
      zoneWell(1, { watchedLabileFrac: 0.8 }),
      zoneWell(2, { foodLeftKgDb: 0, lastFedDay: 20 }),
      zoneWell(3, { foodLeftKgDb: 0, lastFedDay: 10 }),
      zoneWell(4, { watchedFedDay: null, lastFedDay: null }),
    ];
    expect(zonesInTurn(binWell(DAY, { zones })).map(({ zone }) => zone)).toEqual([4, 3, 2, 1]);
  });

  it('spreads a large feeding over as many zones as thin layers need, thinner in a warm bed', () => {
    expect(feedingPlan(scene(), 4).zones).toHaveLength(2);
    expect(feedingPlan(scene({ bedTempC: 25 }), 4).zones).toHaveLength(3);
    expect(feedingPlan(scene(), 100)).toMatchObject({ massKg: 12, zones: [1, 2, 3, 4] });
  });
});

describe('beddingForKg()', () => {
  it('brings mixed scraps with card to at most 80 per cent and C:N between 20 and 35', () => {
    const food = materialOf({ material: 'food_scraps_veg' });
    const card = materialOf({ material: 'cardboard_corrugated' });
    const mix = mixOf([
      { massKg: 10, facts: food },
      { massKg: beddingForKg(10), facts: card },
    ]);
    expect(mix.moistureFracWb).toBeLessThanOrEqual(0.8);
    expect(mix.moistureFracWb).toBeGreaterThan(0.79);
    expect(mix.cnRatio).toBeGreaterThanOrEqual(20);
    expect(mix.cnRatio).toBeLessThanOrEqual(35);
  });

  it('raises C:N of rich greens to 20 even where they are dry enough', () => {
    const greens = { moistureFracWb: 0.7, carbonFracDb: 0.4, nitrogenFracDb: 0.04 };
    const card = materialOf({ material: 'cardboard_corrugated' });
    const massKg = beddingForKg(10, { food: greens });
    expect(
      mixOf([
        { massKg: 10, facts: greens },
        { massKg, facts: card },
      ]).cnRatio,
    ).toBeGreaterThanOrEqual(20);
  });

  it('adds none to nothing, and none to food that is dry and carbon-rich', () => {
    expect(beddingForKg(0)).toBe(0);
    expect(beddingForKg(1, { food: materialOf({ material: 'straw_general' }) })).toBe(0);
  });
});
