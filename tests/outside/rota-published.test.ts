import { readFileSync } from 'node:fs';
import { solveRota } from '@middenry/domain';
import { afterAll, describe, expect, test } from 'vitest';
import { highsSolver } from '../../apps/api/src/solver/highs-solver.ts';
import { ROTA_EXAMPLES } from '../../packages/domain/published/rota-examples.ts';
import { rotaFaults } from '../../packages/domain/src/rota/check.ts';

const { solve, close } = highsSolver();
afterAll(close);

const sources = readFileSync(new URL('../../shared/sources.md', import.meta.url), 'utf8');

describe('solveRota() on printed staffing examples', () => {
  test.each(ROTA_EXAMPLES.map((example) => [example.source, example.known.printed, example] as const))(
    '%s: %s',
    async (source, _, example) => {
      expect(sources).toContain(`### ${source}\n`);
      const rota = await solveRota(example.spec, solve);
      if (rota.status === 'infeasible') throw new Error('a printed example must be feasible');
      expect(rotaFaults(example.spec, rota)).toEqual([]);
      expect(rota.status).toBe('optimal');
      expect(rota.score.uncovered).toBe(0);
      expect(rota.score[example.known.part]).toBe(example.known.value);
    },
  );

  test('the shift requests come out with four or five shifts for each', async () => {
    const example = ROTA_EXAMPLES.find(({ source }) => source === 'shift-requests-example');
    const rota = await solveRota(example!.spec, solve);
    if (rota.status === 'infeasible') throw new Error('a printed example must be feasible');
    const counts = example!.spec.people.map(({ id }) => rota.proposals.filter(({ personId }) => personId === id).length);
    expect([...counts].sort()).toEqual([4, 4, 4, 4, 5]);
  });
});
