/** Criteria C5: many accept at once, exactly one has the place; the short form of swap-race.proof.ts. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Cast, freshId, openCast, PEOPLE, type PersonKey } from '../cast.ts';
import { placeOnOffer, raceFor } from './race/swap-race.ts';

let cast: Cast;
beforeAll(async () => {
  cast = await openCast();
});
afterAll(() => cast.close());

test('C5: of two hundred accepts through the API one gets the place, and nobody else is on the shift', async () => {
  const { swapId, shiftId } = await placeOnOffer(cast);
  const people: PersonKey[] = ['otherVolunteer', 'siteLead', 'coordinator', 'owner'];
  const answers = await Promise.all(
    Array.from({ length: 200 }, (_, at) =>
      cast.call(people[at % people.length]!, 'POST', `/api/swaps/${swapId}/accept`, { id: freshId() }),
    ),
  );
  expect(answers.filter(({ status }) => status === 201)).toHaveLength(1);
  expect(new Set(answers.filter(({ status }) => status !== 201).map(({ body }) => body.code))).toEqual(new Set(['swap-gone']));
  const { signUps } = (await cast.call('coordinator', 'GET', `/api/shifts/${shiftId}`)).body;
  expect(signUps).toHaveLength(1);
  expect(signUps[0].personId).not.toBe(PEOPLE.volunteer.id);
});

test('C5: of four processes one wins; looking first and then writing lets several win the same race', async () => {
  const { swapId } = await placeOnOffer(cast);
  const size = { racers: 4, tries: 5 };
  const honest = await raceFor(cast, swapId, { ...size, way: 'statement' });
  expect(honest.flatMap(({ errors }) => errors)).toEqual([]);
  expect(honest.reduce((sum, { won }) => sum + won, 0)).toBe(1);
  const second = await placeOnOffer(cast);
  const naive = await raceFor(cast, second.swapId, { ...size, way: 'naive' });
  expect(naive.reduce((sum, { won }) => sum + won, 0)).toBeGreaterThan(1);
});
