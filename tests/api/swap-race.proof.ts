/** Criteria C5: a thousand racing accepts from ten processes, ten times over. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Cast, openCast } from '../cast.ts';
import { placeOnOffer, raceFor } from './race/swap-race.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
afterAll(() => cast.close());

test.each(Array.from({ length: 10 }, (_, round) => round + 1))(
  'C5: round %i of a thousand racing accepts has exactly one winner',
  async () => {
    const { swapId } = await placeOnOffer(cast);
    const outcomes = await raceFor(cast, swapId, { racers: 10, tries: 100, way: 'statement' });
    expect(outcomes.flatMap(({ errors }) => errors)).toEqual([]);
    expect(outcomes.reduce((sum, { won, lost }) => sum + won + lost, 0)).toBe(1000);
    expect(outcomes.reduce((sum, { won }) => sum + won, 0)).toBe(1);
  },
);
