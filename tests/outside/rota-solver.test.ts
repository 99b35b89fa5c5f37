import { type LinearModel, ModelBuilder } from '@middenry/domain';
import { afterAll, describe, expect, test } from 'vitest';
import { highsSolver } from '../../apps/api/src/solver/highs-solver.ts';

const { solve, close } = highsSolver();
afterAll(close);

const limits = { nodes: null, seconds: null, gap: 0 };
const infinity = Number.POSITIVE_INFINITY;

function model(build: (builder: ModelBuilder) => void, cost: readonly number[]): LinearModel {
  const builder = new ModelBuilder();
  build(builder);
  return { columns: builder.columns, rows: builder.rows, cost, limits };
}

describe('highsSolver()', () => {
  test('finds the corner of a small linear programme: max 3x + 5y, x <= 4, 2y <= 12, 3x + 2y <= 18', async () => {
    // Wyndor Glass example of Hillier and Lieberman, Introduction to Operations Research; figures from memory, optimum 36 at (2, 6).
    const wyndor = model(
      (builder) => {
        const x = builder.column(0, 4, false);
        const y = builder.column(0, 6, false);
        builder.atMost(
          [
            [x, 3],
            [y, 2],
          ],
          18,
        );
      },
      [-3, -5],
    );
    const answer = await solve(wyndor);
    expect(answer).toMatchObject({ status: 'optimal' });
    expect('values' in answer && [...answer.values].map((value) => Math.round(value * 1e6) / 1e6)).toEqual([2, 6]);
  });

  test('keeps whole numbers whole: max 5x + 4y, 6x + 4y <= 24, x + 2y <= 6 falls from 21 to 20', async () => {
    const asked = (integer: boolean) =>
      model(
        (builder) => {
          const x = builder.column(0, infinity, integer);
          const y = builder.column(0, infinity, integer);
          builder.atMost(
            [
              [x, 6],
              [y, 4],
            ],
            24,
          );
          builder.atMost(
            [
              [x, 1],
              [y, 2],
            ],
            6,
          );
        },
        [-5, -4],
      );
    expect(await solve(asked(false))).toMatchObject({ status: 'optimal', objective: expect.closeTo(-21, 6) });
    expect(await solve(asked(true))).toMatchObject({ status: 'optimal', objective: expect.closeTo(-20, 6), bound: expect.closeTo(-20, 6) });
  });

  test('says infeasible, unbounded, and answers a model without unknowns', async () => {
    expect(await solve(model((builder) => builder.atLeast([[builder.column(0, 1, true), 1]], 2), [0]))).toEqual({ status: 'infeasible' });
    expect(await solve(model((builder) => void builder.column(0, infinity, false), [-1]))).toEqual({ status: 'unbounded' });
    expect(await solve(model((builder) => builder.atMost([], 0), []))).toMatchObject({ status: 'optimal', values: [] });
    expect(await solve(model((builder) => builder.atLeast([], 1), []))).toEqual({ status: 'infeasible' });
  });

  test('answers every one of several models sent at once', async () => {
    const upTo = (most: number) => model((builder) => void builder.column(0, most, true), [-1]);
    const answers = await Promise.all([1, 2, 3, 4].map((most) => solve(upTo(most))));
    expect(answers.map((answer) => 'objective' in answer && Math.round(answer.objective))).toEqual([-1, -2, -3, -4]);
  });

  test('refuses what is being solved when it is closed, and starts anew for the next', async () => {
    const other = highsSolver();
    const one = model((builder) => void builder.column(0, 1, true), [-1]);
    const refused = expect(other.solve(one)).rejects.toThrow('stopped');
    await other.close();
    await refused;
    expect(await other.solve(one)).toMatchObject({ status: 'optimal' });
    await other.close();
  });
});
