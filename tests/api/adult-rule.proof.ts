/** Criteria C19: ten thousand random histories, no confirmed shift that breaks the rule. */
import fc from 'fast-check';
import { afterEach, expect, test } from 'vitest';
import { type Cast, openCast } from '../cast.ts';
import { faultsIn, historyStage, step } from './adult-rule-histories.ts';

let cast: Cast | undefined;
afterEach(async () => cast?.close());

const ROUNDS = 20;
const HISTORIES = 500;

test.each(Array.from({ length: ROUNDS }, (_, round) => round + 1))('C19: round %i of 500 histories', async (round) => {
  cast = await openCast();
  const stage = await historyStage(cast);
  const histories = fc.sample(fc.array(step, { minLength: 4, maxLength: 14 }), { numRuns: HISTORIES, seed: round });
  const faults: string[] = [];
  for (const history of histories) faults.push(...(await faultsIn(stage, history)));
  expect([histories.length, faults]).toEqual([HISTORIES, []]);
});
