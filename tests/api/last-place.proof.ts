/** Criteria C1, C3, F5: the last place, wanted by four processes at once, hundreds of times in each way. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Cast, openCast } from '../cast.ts';
import { LastPlace, type RacerKey } from './race/last-place.ts';
import { ROUNDS } from './race/last-place-rounds.ts';

const TIMES = 500;

let cast: Cast;
let here: LastPlace;
beforeAll(async () => {
  cast = await openCast();
  here = await LastPlace.open(cast);
});
afterAll(async () => {
  here?.close();
  await cast.close();
});

test.each(Object.entries(ROUNDS))(`C1, C3: a place %s goes to exactly one, ${TIMES} times`, async (name, run) => {
  const wins = new Map<RacerKey, number>();
  for (let count = 0; count < TIMES; count += 1) {
    const { round, faults } = await run(here);
    expect(faults).toEqual([]);
    for (const key of round.won) wins.set(key, (wins.get(key) ?? 0) + 1);
  }
  // A race that always ends the same way is no race, unless the place was kept for one.
  expect(wins.size).toBeGreaterThan(name.startsWith('kept') ? 0 : 1);
  console.log(name, Object.fromEntries(wins));
});
