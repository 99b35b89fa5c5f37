import { describe, expect, it } from 'vitest';
import type { BinEvent } from '../bin/scenario.ts';
import type { MembersDay } from './member-day.ts';
import { remediesFor, type Trial, type TrialMembers } from './remedies.ts';
import { binWell, TOTE, WELL, zoneWell } from './signals-cast.ts';

const TODAY = 40;
const MEMBERS = 10;

/** Days in which so many members of ten have food without air. */
const days = (from: number, count: number, troubled: number): readonly MembersDay[] =>
  Array.from({ length: count }, (_, i) => ({
    day: from + i,
    weights: Array.from({ length: MEMBERS }, () => 1 / MEMBERS),
    readings: Array.from({ length: MEMBERS }, (_each, m) => ({ ...WELL, airlessFrac: m < troubled ? 0.6 : 0 })),
  }));

type Effect = (done: ReadonlySet<BinEvent['type']>, planned: number) => number;

function membersOf(effect: Effect, tried: string[]): TrialMembers {
  return {
    past: days(TODAY - 5, 6, MEMBERS),
    ahead: days(TODAY + 1, 14, MEMBERS),
    tryDays: (events, count) => {
      const care = new Set(events.filter(({ type }) => type !== 'feeding').map(({ type }) => type));
      tried.push([...care].sort().join('+') || `fed ${events.length}`);
      return days(TODAY + 1, count, effect(care, events.filter(({ type }) => type === 'feeding').length));
    },
  };
}

const FED: BinEvent = { day: TODAY + 3, type: 'feeding', zone: 1, items: [{ material: 'lettuce', massKg: 2 }] };

function trial(effect: Effect, planned: readonly BinEvent[] = [], onFew: Effect = effect) {
  const [few, all]: [string[], string[]] = [[], []];
  const zones = [zoneWell(1, { foodLeftKgWb: 4, moistureFracWb: 0.85, airlessFrac: 0.6 })];
  const made: Trial = {
    setup: TOTE,
    checkIntervalDays: 7,
    resting: false,
    log: [],
    scene: {
      today: TODAY,
      setup: TOTE,
      bin: binWell(TODAY, { zones }),
      solidsKgDb: 3,
      planned,
      ration: { massKg: 1, beddingKg: 0.1, zones: [1] },
    },
    few: membersOf(onFew, few),
    all: membersOf(effect, all),
  };
  return { few, all, remedies: remediesFor({ id: 'airless', zone: 1 }, made) };
}

/** Loosening leaves six of ten in trouble, bedding five, taking out eight; each two together two fewer than the better one. */
const LEFT: Readonly<Partial<Record<BinEvent['type'], number>>> = { loosen: 6, bedding: 5, remove: 8 };
const together =
  (gain: number): Effect =>
  (care) =>
    Math.max(0, Math.min(MEMBERS, ...[...care].map((type) => LEFT[type] ?? MEMBERS)) - (care.size > 1 ? gain : 0));

describe('remediesFor()', () => {
  it('shows two together where they leave clearly less than either, with both efforts and cautions', () => {
    const { remedies } = trial(together(3));
    expect(remedies[0]).toMatchObject({ id: 'mix-in-bedding', effortMinutes: 15 });
    expect(remedies[0]?.probabilityBefore).toBeCloseTo(1, 9);
    expect(remedies[0]?.also).toMatchObject({ id: 'loosen', zone: 1, massKg: null });
    expect(remedies[0]?.probabilityAfter).toBeCloseTo(0.2, 9);
    expect(remedies.slice(1).map(({ id, also }) => [id, also])).toEqual([
      ['mix-in-bedding', null],
      ['loosen', null],
    ]);
    expect(remedies[0]?.cautions).toEqual(['gloves', 'damp-not-dusty']);
  });

  it('shows single ones alone where a second adds little, and tries no pair where one is enough', () => {
    expect(trial(together(0)).remedies.map(({ id, also }) => [id, also])).toEqual([
      ['mix-in-bedding', null],
      ['loosen', null],
      ['take-out-uneaten', null],
    ]);
    const enough = trial((care) => (care.has('loosen') ? 0 : MEMBERS));
    expect(enough.all.some((tried) => tried.includes('+'))).toBe(false);
    expect(enough.remedies[0]).toMatchObject({ id: 'loosen', probabilityAfter: 0 });
  });

  it('tries all on few members, the best three and pairs of the best four on all, and says what all members say', () => {
    const { few, all, remedies } = trial(
      (care) => (care.size > 1 ? 4 : 5),
      [FED],
      (care, fed) => (care.size > 0 ? 5 : fed),
    );
    expect(few).toHaveLength(5);
    expect(all.filter((tried) => !tried.includes('+')).length).toBeGreaterThanOrEqual(3);
    expect(all.length).toBeLessThanOrEqual(3 + 6);
    for (const { probabilityAfter } of remedies) expect(probabilityAfter).toBeGreaterThanOrEqual(0.4 - 1e-9);
  });

  it('holds back or halves what is planned, and never pairs the two', () => {
    const { remedies, all } = trial((_care, fed) => (fed > 0 ? 9 : 3), [FED]);
    expect(remedies[0]).toMatchObject({ id: 'hold-next-feed', effortMinutes: 0 });
    expect(remedies[0]?.probabilityAfter).toBeCloseTo(0.3, 9);
    expect(all.length).toBeGreaterThan(0);
    for (const { id, also } of remedies)
      expect([id, also?.id].filter((each) => each === 'hold-next-feed' || each === 'feed-half').length).toBeLessThan(2);
  });
});
