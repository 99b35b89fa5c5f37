/** Criteria C19 in any history; ten thousand of them are in adult-rule.proof.ts. */
import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Cast, openCast } from '../cast.ts';
import { faultsIn, type HistoryStage, historyStage, step } from './adult-rule-histories.ts';

let cast: Cast;
let stage: HistoryStage;
beforeAll(async () => {
  cast = await openCast();
  stage = await historyStage(cast);
});
afterAll(() => cast.close());

test('C19: in 25 random histories no shift is ever confirmed that breaks the adult rule, nor the other way round', async () => {
  const histories = fc.sample(fc.array(step, { minLength: 8, maxLength: 16 }), { numRuns: 25, seed: 20261125 });
  const faults: string[] = [];
  for (const history of histories) faults.push(...(await faultsIn(stage, history)));
  expect(faults).toEqual([]);
  const states = cast.store.sql('SELECT count(DISTINCT shift_id) FROM shift_group').pluck().get();
  expect(Number(states)).toBeGreaterThan(10);
});
