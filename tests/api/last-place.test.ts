/** Criteria C1, C3, F5: the last place, wanted by four processes at once; the short form of last-place.proof.ts. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Cast, openCast } from '../cast.ts';
import { LastPlace } from './race/last-place.ts';
import { naiveCrowd, ROUNDS } from './race/last-place-rounds.ts';

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

test.each(Object.entries(ROUNDS))('C1, C3: a place %s goes to exactly one, and the others are told why', async (_name, run) => {
  for (let count = 0; count < 6; count += 1) expect((await run(here)).faults).toEqual([]);
});

test('C1: servers that look first and write afterwards overbook in the same race', async () => {
  cast.store.sqlite.exec('DROP TRIGGER sign_up_never_over');
  expect(await naiveCrowd(here, 3)).toBeGreaterThan(1);
});
