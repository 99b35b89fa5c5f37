/** Criteria C3: ten thousand made-up histories, nobody out of order, no place given twice. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { settlementOf, type Waiter } from './waiting.ts';

const HOUR_MS = 3_600_000;
const scene = (change: object) => ({
  nowMs: 0,
  startsAtMs: 100 * HOUR_MS,
  endsAtMs: 101 * HOUR_MS,
  cancelled: false,
  places: 2,
  taken: 2,
  waiters: [],
  ...change,
});
const waiter = (id: string, offerUntilMs: number | null = null): Waiter => ({ id, offerUntilMs });

describe('settlementOf()', () => {
  test('offers a free place to whoever came first, for half of what is left and a day at most', () => {
    const waiters = [waiter('a'), waiter('b')];
    expect(settlementOf(scene({ taken: 1, waiters })).offered).toEqual([{ id: 'a', untilMs: 24 * HOUR_MS }]);
    expect(settlementOf(scene({ taken: 1, waiters, nowMs: 90 * HOUR_MS })).offered).toEqual([{ id: 'a', untilMs: 95 * HOUR_MS }]);
  });

  test('does not offer what is kept for somebody already, and offers it on when that ran out', () => {
    const waiters = [waiter('a', 10), waiter('b')];
    expect(settlementOf(scene({ taken: 1, waiters, nowMs: 9 }))).toEqual({ lapsed: [], offered: [], ended: [] });
    const later = settlementOf(scene({ taken: 1, waiters, nowMs: 10 }));
    expect([later.lapsed, later.offered.map(({ id }) => id)]).toEqual([['a'], ['b']]);
  });

  test('tells everybody when the start is less than three hours away', () => {
    const { offered } = settlementOf(scene({ taken: 1, waiters: [waiter('a'), waiter('b')], nowMs: 98 * HOUR_MS }));
    expect(offered).toEqual([
      { id: 'a', untilMs: 101 * HOUR_MS },
      { id: 'b', untilMs: 101 * HOUR_MS },
    ]);
  });

  test('ends all waiting when the shift is over or off', () => {
    expect(settlementOf(scene({ cancelled: true, waiters: [waiter('a')] })).ended).toEqual(['a']);
    expect(settlementOf(scene({ nowMs: 101 * HOUR_MS, waiters: [waiter('a', 1)] })).ended).toEqual(['a']);
  });
});

/** What can happen to one shift: somebody joins, leaves, gives back, accepts, or time passes. */
const happening = fc.record({
  what: fc.constantFrom('join', 'leave', 'give-back', 'accept', 'take', 'wait'),
  who: fc.nat(6),
  hours: fc.integer({ min: 0, max: 20 }),
});

interface World {
  nowMs: number;
  readonly startsAtMs: number;
  readonly taken: Set<number>;
  /** In order of joining. */
  queue: { who: number; offerUntilMs: number | null }[];
}
const PLACES = 2;
const idOf = (who: number) => String(who);

function settle(world: World): void {
  const waiters = world.queue.map(({ who, offerUntilMs }) => ({ id: idOf(who), offerUntilMs }));
  const endsAtMs = world.startsAtMs + HOUR_MS;
  const settled = settlementOf({
    nowMs: world.nowMs,
    startsAtMs: world.startsAtMs,
    endsAtMs,
    cancelled: false,
    places: PLACES,
    taken: world.taken.size,
    waiters,
  });
  world.queue = world.queue.filter(({ who }) => !settled.lapsed.includes(idOf(who)) && !settled.ended.includes(idOf(who)));
  for (const { id, untilMs } of settled.offered) world.queue.find(({ who }) => idOf(who) === id)!.offerUntilMs = untilMs;
}

/** Free places beyond those kept for others: what anybody may take. */
function mayTake(world: World, who: number): boolean {
  if (world.taken.has(who) || world.nowMs >= world.startsAtMs + HOUR_MS) return false;
  const rush = world.startsAtMs - world.nowMs <= 3 * HOUR_MS;
  const kept = rush ? 0 : world.queue.filter((wait) => wait.who !== who && (wait.offerUntilMs ?? 0) > world.nowMs).length;
  return world.taken.size + kept < PLACES;
}

function step(world: World, { what, who, hours }: { what: string; who: number; hours: number }): void {
  const waits = world.queue.some((wait) => wait.who === who);
  if (what === 'wait') world.nowMs += hours * HOUR_MS;
  settle(world);
  if (what === 'join' && !waits && !world.taken.has(who) && world.nowMs < world.startsAtMs) world.queue.push({ who, offerUntilMs: null });
  if (what === 'leave') world.queue = world.queue.filter((wait) => wait.who !== who);
  if (what === 'give-back') world.taken.delete(who);
  if ((what === 'accept' || what === 'take') && mayTake(world, who)) {
    world.taken.add(who);
    world.queue = world.queue.filter((wait) => wait.who !== who);
  }
  settle(world);
}

describe('any history of a waiting list', () => {
  test('C3: never grants twice and never passes over who came first', () => {
    fc.assert(
      fc.property(fc.array(happening, { maxLength: 40 }), (happenings) => {
        const world: World = { nowMs: 0, startsAtMs: 72 * HOUR_MS, taken: new Set(), queue: [] };
        return happenings.every((each) => {
          step(world, each);
          const offers = world.queue.map(({ offerUntilMs }) => offerUntilMs !== null);
          const rush = world.startsAtMs - world.nowMs <= 3 * HOUR_MS;
          // In order: nobody without an offer stands before somebody with one.
          const inOrder = offers.lastIndexOf(true) < (offers.includes(false) ? offers.indexOf(false) : offers.length);
          return inOrder && world.taken.size + (rush ? 0 : offers.filter(Boolean).length) <= PLACES;
        });
      }),
      { numRuns: 10_000, seed: 20261125 },
    );
  }, 60_000);
});
