import { type FoundRota, type LinearModel, ModelBuilder, type SolverAnswer, solveRota } from '@middenry/domain';
import { afterAll, expect, test } from 'vitest';
import { withinTime } from '../../apps/api/src/solver/desk.ts';
import { highsSolver } from '../../apps/api/src/solver/highs-solver.ts';
import { madeUpRota } from '../../bench/rota.ts';
import { rotaFaults } from '../../packages/domain/src/rota/check.ts';
import { personOf, rotaOf, shiftOf } from './rota/spec.ts';

const { solve, close } = highsSolver();
afterAll(close);

test('withinTime() gives each stage what the ones before have left, and none to a model without a limit', async () => {
  let nowMs = 0;
  const given: (number | null)[] = [];
  const slow = async ({ limits }: LinearModel): Promise<SolverAnswer> => {
    given.push(limits.seconds);
    nowMs += 4000;
    return { status: 'none-found' };
  };
  const limited = withinTime(slow, 10, () => nowMs);
  const { columns, rows } = new ModelBuilder();
  const model = (seconds: number | null): LinearModel => ({ columns, rows, cost: [], limits: { nodes: null, seconds, gap: 0 } });
  for (const seconds of [10, null, 10, 10]) await limited(model(seconds));
  expect(given).toEqual([10, null, 2, 0.05]);
});

test('a search that its time may end gives an allowed rota, and says optimal only where all is proven', async () => {
  const spec = madeUpRota(20, 40, 2);
  const rota = await solveRota(spec, withinTime(solve, 0.3), { nodes: null, seconds: 0.3, gap: 0 });
  if (rota.status === 'infeasible') throw new Error('the made-up rota has no conflicts');
  expect(rotaFaults(spec, rota)).toEqual([]);
  const isProven = rota.stages.every(({ proven }) => proven);
  expect([rota.status, rota.gap > 0]).toEqual(isProven ? ['optimal', false] : ['best-found', true]);
  expect(rota.stages.every(({ value, bound }) => bound <= value)).toBe(true);
}, 60_000);

test('whoever a stopped search left on a place that asks for nothing is seated where most places are covered', async () => {
  const places = [
    { count: 1, skills: ['keys'] },
    { count: 1, skills: [] },
  ];
  const people = [personOf('has keys', { skills: ['keys'] }), personOf('signed up')];
  const spec = rotaOf(people, [shiftOf('round', { places })], { signUps: [{ personId: 'signed up', shiftId: 'round' }] });
  // Of the two unknowns of the one who has keys the second is the place without a skill.
  const stopped = async (model: LinearModel): Promise<SolverAnswer> =>
    model.limits.nodes === null
      ? solve(model)
      : { status: 'limit', objective: 0, bound: -1, values: model.columns.map((_, column) => (column === 1 ? 1 : 0)) };
  const rota = await solveRota(spec, stopped, { nodes: 1, seconds: null, gap: 0 });
  expect(rota).toMatchObject({ proposals: [{ personId: 'has keys', group: 0 }], score: { uncovered: 0 } });
  expect(rotaFaults(spec, rota as FoundRota)).toEqual([]);
});
