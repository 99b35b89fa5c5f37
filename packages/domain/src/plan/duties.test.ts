import { describe, expect, it } from 'vitest';
import type { BinEvent } from '../bin/scenario.ts';
import { logFactsAt } from '../signals/log-facts.ts';
import { type DutyScene, dutiesOf } from './duties.ts';
import type { DutyKind, HoldReason } from './types.ts';

const TODAY = 100;
const scene = (over: Partial<DutyScene> = {}, events: readonly BinEvent[] = []): DutyScene => ({
  today: TODAY,
  log: logFactsAt(events, TODAY),
  checkIntervalDays: 7,
  resting: false,
  hold: null,
  foodInHandDays: Array.from({ length: 15 }, () => 20),
  sinceDay: () => null,
  ...over,
});
const window = (kind: DutyKind, from: DutyScene) => dutiesOf(from).find((duty) => duty.kind === kind);

describe('dutiesOf()', () => {
  it('feeds between a week of food and almost none, by the forecast', () => {
    const foodInHandDays = [9, 8, 7, 6, 5, 4, 3, 2, 1, 0, 0, 0, 0, 0, 0];
    expect(window('feed', scene({ foodInHandDays }))).toEqual({
      kind: 'feed',
      fromDay: 102,
      dueDay: 107,
      overdueDay: 114,
      why: 'food-nearly-gone',
    });
  });

  it('has no feeding due while food lasts past the forecast', () => {
    expect(window('feed', scene())).toBeUndefined();
  });

  it('rests a bin that has more than it eats until a week of food is left, and feeds it only then', () => {
    const foodInHandDays = [12, 11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 0, 0, 0];
    const held = scene({ hold: 'food-in-hand', foodInHandDays });
    expect(window('rest', held)).toEqual({ kind: 'rest', fromDay: 100, dueDay: 105, overdueDay: 105, why: 'more-than-eaten' });
    expect(window('feed', held)).toMatchObject({ fromDay: 105, dueDay: 110 });
    expect(window('rest', scene({ hold: 'food-in-hand' }))).toMatchObject({ dueDay: 114 });
  });

  it('rests a bin short of air, sour or hot for a week, and none for cold or a feeding of this week', () => {
    const whyOf = (hold: HoldReason) => window('rest', scene({ hold, foodInHandDays: Array.from({ length: 15 }, () => 1) }))?.why;
    expect((['airless', 'smell', 'sour', 'hot', 'cold', 'fed-lately', 'resting'] as const).map(whyOf)).toEqual([
      'short-of-air',
      'short-of-air',
      'bed-sour',
      'bed-hot',
      undefined,
      undefined,
      undefined,
    ]);
    const feedOn = (food: number) => window('feed', scene({ hold: 'sour', foodInHandDays: Array.from({ length: 15 }, () => food) }));
    expect(feedOn(5)?.fromDay).toBe(107);
    expect(feedOn(0)?.dueDay).toBe(100);
  });

  it('a bin long out of food was due a week after its last feeding', () => {
    const events: BinEvent[] = [{ day: 80, type: 'feeding', zone: 1, items: [{ material: 'carrot', massKg: 1 }] }];
    const feed = window('feed', scene({ foodInHandDays: Array.from({ length: 15 }, () => 0) }, events));
    expect(feed).toMatchObject({ dueDay: 100, overdueDay: 107 });
  });

  it('checks on the interval, late at twice it', () => {
    const events: BinEvent[] = [{ day: 98, type: 'check' }];
    expect(window('check', scene({}, events))).toMatchObject({ fromDay: 102, dueDay: 105, overdueDay: 112 });
    expect(window('check', scene({ checkIntervalDays: 14 }, events))).toMatchObject({ dueDay: 112, overdueDay: 126 });
  });

  it('inoculates within 30 to 60 days of the last dose (common practice, no source)', () => {
    expect(window('inoculate', scene({}, [{ day: 60, type: 'inoculate' }]))).toMatchObject({ fromDay: 90, dueDay: 105, overdueDay: 120 });
  });

  it('asks for care that was never written down without calling it late', () => {
    for (const kind of ['loosen', 'inoculate'] as const) {
      const duty = window(kind, scene());
      expect(duty?.dueDay).toBe(TODAY);
      expect(duty?.overdueDay).toBeGreaterThan(TODAY);
    }
  });

  it('harvests from a week before it is due until three weeks after', () => {
    expect(window('harvest', scene({ sinceDay: (id) => (id === 'harvest-due' ? 106 : null) }))).toMatchObject({
      fromDay: 99,
      dueDay: 106,
      overdueDay: 127,
    });
    expect(window('harvest', scene({ sinceDay: (id) => (id === 'harvest-due' ? 70 : null) }))).toMatchObject({
      dueDay: 70,
      overdueDay: 91,
    });
    expect(window('harvest', scene())).toBeUndefined();
  });

  it('leaves a resting bin to be looked at, watered and harvested only', () => {
    const duties = dutiesOf(scene({ resting: true, sinceDay: () => TODAY, foodInHandDays: [0] }));
    expect(duties.map(({ kind }) => kind).sort()).toEqual(['check', 'harvest', 'water']);
  });

  it('keeps every window in order, the soonest overdue first', () => {
    const duties = dutiesOf(scene({ sinceDay: () => TODAY, foodInHandDays: [6, 5, 4, 3, 2, 1] }));
    expect(duties).toHaveLength(7);
    for (const { fromDay, dueDay, overdueDay } of duties) {
      expect(fromDay).toBeLessThanOrEqual(dueDay);
      expect(dueDay).toBeLessThan(overdueDay);
    }
    expect(duties.map(({ overdueDay }) => overdueDay)).toEqual(duties.map(({ overdueDay }) => overdueDay).sort((a, b) => a - b));
  });
});
