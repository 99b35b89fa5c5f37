import { type LinearModel, ModelBuilder, type SolverAnswer, solveRota } from '@middenry/domain';
import { afterAll, expect, test } from 'vitest';
import { withinTime } from '../../apps/api/src/solver/desk.ts';
import { highsSolver } from '../../apps/api/src/solver/highs-solver.ts';
import { madeUpRota } from '../../bench/rota.ts';
import { rotaFaults } from '../../packages/domain/src/rota/check.ts';

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

test('a search that its time ends gives an allowed rota with its gap', async () => {
  const spec = madeUpRota(20, 40, 2);
  const rota = await solveRota(spec, withinTime(solve, 0.3), { nodes: null, seconds: 0.3, gap: 0 });
  if (rota.status === 'infeasible') throw new Error('the made-up rota has no conflicts');
  expect(rotaFaults(spec, rota)).toEqual([]);
  expect(rota.status).toBe('best-found');
  expect(rota.gap).toBeGreaterThan(0);
  expect(rota.stages.every(({ value, bound }) => bound <= value)).toBe(true);
}, 60_000);
