import { type RotaSpec, solveRota } from '@middenry/domain';
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { highsSolver } from '../../apps/api/src/solver/highs-solver.ts';
import { rotaFaults } from '../../packages/domain/src/rota/check.ts';
import { bestByTrying, vectorOf } from './rota/brute-force.ts';
import { randomSpec, type Sizes } from './rota/random-spec.ts';
import { personOf, rotaOf, shiftOf } from './rota/spec.ts';

const { solve, close } = highsSolver();
afterAll(close);

/** Solves, has the checker judge, and compares with the best of all by trying. Gives how many rotas kept the rules; 0 = conflict. */
async function judge(spec: RotaSpec): Promise<number> {
  const rota = await solveRota(spec, solve);
  if (rota.status === 'infeasible') return 0;
  expect(rotaFaults(spec, rota)).toEqual([]);
  expect(rota.status).toBe('optimal');
  const best = bestByTrying(spec, rota.possible);
  expect(vectorOf(rota.score)).toEqual(vectorOf(best.score));
  return best.tried;
}

async function judgeMany(sizes: Sizes, runs: { readonly numRuns: number; readonly seed: number }): Promise<number[]> {
  const tried: number[] = [];
  await fc.assert(
    fc.asyncProperty(randomSpec(sizes), async (spec) => void tried.push(await judge(spec))),
    runs,
  );
  return tried;
}

const bits = (mask: number, count: number): number[] => Array.from({ length: count }, (_, bit) => bit).filter((bit) => mask & (1 << bit));

/** Every way in which so many people can or cannot take so many places. */
function* everyRota(people: number, shifts: number, isTight: boolean): Generator<RotaSpec> {
  for (let mask = 0; mask < 1 << (people * shifts); mask += 1) {
    yield rotaOf(
      Array.from({ length: people }, (_, p) =>
        personOf(`p${p}`, {
          wish: p + 1,
          caps: { period: isTight ? 2 : null, week: null, day: null },
          declined: bits(mask >> (p * shifts), shifts).map((s) => `s${s}`),
        }),
      ),
      // Tight: the first two at the same time.
      Array.from({ length: shifts }, (_, s) => shiftOf(`s${s}`, { day: isTight ? Math.floor(s / 2) : s, urgency: 1 + (s % 2) })),
    );
  }
}

const isLong = process.env.PROOF === 'long';

describe('solveRota() is as good as the best of all by trying', () => {
  test.each([
    // The loose ones of three places, which are most of them, are asked by `npm run proof`.
    ['loose', false, isLong ? 3 : 2, isLong ? 689 : 104],
    ['tight', true, 3, 689],
  ])(
    'every rota of up to 3 people, %s',
    async (_, isTight, mostShifts, wanted) => {
      let count = 0;
      for (const people of [0, 1, 2, 3])
        for (let shifts = 0; shifts <= mostShifts; shifts += 1)
          for (const spec of everyRota(people, shifts, isTight)) {
            expect(await judge(spec)).toBeGreaterThan(0);
            count += 1;
          }
      // The sum of 2^(people x shifts) over 0 to 3 people and all these shifts.
      expect(count).toBe(wanted);
    },
    120_000,
  );

  test('random rotas of up to 3 people and 3 shifts with every rule in play', async () => {
    // More in `npm run proof`; most of them must leave a choice, and some must leave none.
    const numRuns = isLong ? 500 : 200;
    const tried = await judgeMany({ people: 3, shifts: 3 }, { numRuns, seed: 20270503 });
    expect(tried.filter((count) => count > 1).length).toBeGreaterThan(numRuns / 2);
    expect(tried.filter((count) => count === 0).length).toBeGreaterThan(numRuns / 25);
  }, 120_000);

  test('random rotas of up to 5 people and 5 shifts with every rule in play', async () => {
    const tried = await judgeMany({ people: 5, shifts: 5 }, { numRuns: 25, seed: 20270510 });
    expect(Math.max(...tried)).toBeGreaterThan(1000);
  }, 120_000);
});
