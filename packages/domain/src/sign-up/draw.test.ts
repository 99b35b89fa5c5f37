import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { capEndsAtMs, seasonObstacle } from './cap.ts';
import { type DrawPerson, type DrawShift, drawPlaces } from './draw.ts';

const HOUR_MS = 3_600_000;
const shift = (id: string, free: number, startsAtMs: number): DrawShift => ({
  id,
  free,
  startsAtMs,
  endsAtMs: startsAtMs + HOUR_MS,
  held: [],
});
const people = Array.from({ length: 20 }, (_, index) => `person ${String(index).padStart(2, '0')}`);
const DRAWS = 1000;

/** How often each of twenty equal people wins one of fifteen equal places. */
function winsOf(draw: (seed: string, ids: readonly string[]) => readonly string[]): number[] {
  const wins = new Map(people.map((id) => [id, 0]));
  for (let at = 0; at < DRAWS; at += 1) for (const id of draw(`seed ${at}`, people)) wins.set(id, (wins.get(id) ?? 0) + 1);
  return [...wins.values()];
}
/** Largest distance from the mean, as a share of it. */
function unevenness(wins: readonly number[]): number {
  const mean = wins.reduce((sum, count) => sum + count, 0) / wins.length;
  return Math.max(...wins.map((count) => Math.abs(count - mean))) / mean;
}
const wanting = (ids: readonly string[], wishes: readonly string[], most = 1): DrawPerson[] => ids.map((id) => ({ id, most, wishes }));

describe('C4: drawPlaces()', () => {
  // Fifteen places for twenty people: 750 wins each with a standard deviation of 13.7, so that 10 % of the mean is 5.5 deviations.
  test('over 1000 draws gives each of 20 equal people as much as the others, within 10 % of the mean', () => {
    const fair = winsOf((seed, ids) =>
      drawPlaces({ seed, shifts: [shift('a', 15, 0)], people: wanting(ids, ['a']) }).won.map(({ personId }) => personId),
    );
    expect(fair.reduce((sum, count) => sum + count, 0)).toBe(15 * DRAWS);
    expect(unevenness(fair)).toBeLessThan(0.1);
  });

  test('the same check finds out a draw by list order, and one that only starts at a drawn place', () => {
    expect(unevenness(winsOf((_, ids) => ids.slice(0, 15)))).toBeGreaterThan(0.1);
    const halfDrawn = winsOf((seed, ids) => {
      const start = Number(seed.slice(5)) % 2 === 0 ? 0 : 5;
      return ids.slice(start, start + 15);
    });
    expect(unevenness(halfDrawn)).toBeGreaterThan(0.1);
  });

  test('is the same for the same seed, however the lists are ordered, and another for another seed', () => {
    const shifts = [shift('a', 2, 0), shift('b', 2, 2 * HOUR_MS), shift('c', 1, 4 * HOUR_MS)];
    const all = wanting(people, ['b', 'a', 'c'], 2);
    const one = drawPlaces({ seed: 'oak', shifts, people: all });
    expect(drawPlaces({ seed: 'oak', shifts: [...shifts].reverse(), people: [...all].reverse() })).toEqual(one);
    expect(drawPlaces({ seed: 'elm', shifts, people: all }).order).not.toEqual(one.order);
  });

  test('gives everybody one before anybody gets a second, there and back', () => {
    const shifts = [shift('a', 3, 0), shift('b', 1, 2 * HOUR_MS), shift('c', 1, 4 * HOUR_MS)];
    const { order, won } = drawPlaces({ seed: 'ash', shifts, people: wanting(['x', 'y', 'z'], ['a', 'b', 'c'], 3) });
    expect(won.map(({ personId }) => personId)).toEqual([...order, order[2], order[1]]);
  });

  const wishes = fc.uniqueArray(fc.constantFrom<string[]>('a', 'b', 'c', 'd', 'gone'), { maxLength: 5 });
  const person = fc.record({ id: fc.constantFrom(...people), most: fc.integer({ min: 1, max: 4 }), wishes });
  const scene = fc.record({
    seed: fc.string(),
    people: fc.uniqueArray(person, { selector: ({ id }) => id, maxLength: 12 }),
    shifts: fc
      .tuple(fc.nat(3), fc.nat(3), fc.nat(3), fc.nat(3))
      .map((free) =>
        ['a', 'b', 'c', 'd'].map((id, at) => ({ ...shift(id, free[at] ?? 0, (at >> 1) * HOUR_MS), held: at === 0 ? ['person 00'] : [] })),
      ),
  });
  test('never gives more places than there are, more than somebody wants, what nobody wished, or two at once', () => {
    fc.assert(
      fc.property(scene, (input) => {
        const { won } = drawPlaces(input);
        const of = (personId: string) => won.filter((place) => place.personId === personId).map(({ shiftId }) => shiftId);
        const noneOver = input.shifts.every(({ id, free }) => won.filter(({ shiftId }) => shiftId === id).length <= free);
        const asWished = input.people.every(
          ({ id, most, wishes: list }) => of(id).length <= most && of(id).every((one) => list.includes(one)),
        );
        const pairs = ['ab', 'cd'];
        const onceEach = input.people.every(({ id }) => {
          const all = [...of(id), ...(id === 'person 00' ? ['a'] : [])];
          return pairs.every((pair) => all.filter((one) => pair.includes(one)).length <= 1);
        });
        // Nobody is left without a place that was free, wished and possible.
        const nothingLeft = input.people.every(({ id, most, wishes: list }) => {
          const all = [...of(id), ...(id === 'person 00' ? ['a'] : [])];
          const open = input.shifts.filter((one) => won.filter(({ shiftId }) => shiftId === one.id).length < one.free);
          return (
            of(id).length === most ||
            !open.some((one) => list.includes(one.id) && !pairs.some((p) => p.includes(one.id) && all.some((x) => p.includes(x))))
          );
        });
        return noneOver && asWished && onceEach && nothingLeft;
      }),
      { numRuns: 2000, seed: 20261125 },
    );
  });
});

describe('C4: seasonObstacle()', () => {
  const opensAtMs = 1_000 * HOUR_MS;
  const at = (hours: number, held: number) =>
    seasonObstacle({ way: 'first-come', opensAtMs, cap: 2, drawn: false, nowMs: opensAtMs + hours * HOUR_MS, held });

  test('lets nobody in before it opens, two each in the first 48 hours, and as many as they like after that', () => {
    expect([at(-1, 0), at(0, 0), at(0, 1), at(47.99, 2), at(48, 2), at(100, 9)]).toEqual([
      'not-open-yet',
      null,
      null,
      'cap-reached',
      null,
      null,
    ]);
    expect(capEndsAtMs(opensAtMs) - opensAtMs).toBe(48 * HOUR_MS);
  });

  test('asks for wishes until they are drawn', () => {
    const draw = (drawn: boolean) => seasonObstacle({ way: 'draw', opensAtMs, cap: 2, drawn, nowMs: opensAtMs + HOUR_MS, held: 5 });
    expect([draw(false), draw(true)]).toEqual(['wishes-first', null]);
  });
});
