import { type MixFacts, massForCn } from '../src/materials/blend.ts';
import type { AccuracySource } from './accuracy-row.ts';

const grass: MixFacts = { moistureFracWb: 0.77, carbonFracDb: 0.45, nitrogenFracDb: 0.024 };
const leaves: MixFacts = { moistureFracWb: 0.35, carbonFracDb: 0.5, nitrogenFracDb: 0.0075 };

/** Cornell's two-material formula as printed, with per cents and ratios, beside our linear solve. */
function printedFormulaKg(q1: number, first: MixFacts, second: MixFacts, ratio: number): number {
  const c1 = first.carbonFracDb * 100;
  const n1 = first.nitrogenFracDb * 100;
  const c2 = second.carbonFracDb * 100;
  const n2 = second.nitrogenFracDb * 100;
  const dry1 = 100 - first.moistureFracWb * 100;
  const dry2 = 100 - second.moistureFracWb * 100;
  return (q1 * n1 * (ratio - c1 / n1) * dry1) / (n2 * (c2 / n2 - ratio) * dry2);
}

const solvedKg = (ratio: number): number => {
  const result = massForCn([{ massKg: 10, facts: grass }], leaves, ratio);
  if (result.status !== 'ok') throw new Error('the published example must be feasible');
  return result.massesKg[0] as number;
};

/** Cornell's formula for two materials (seen) on its example (inputs from memory). */
export const cornellCn: AccuracySource = {
  source: 'cornell-cn',
  rows: [
    {
      id: 'WP3',
      quantity: 'leaves for 10 kg grass to reach C:N 30',
      unit: 'kg',
      published: 3.5,
      ours: () => solvedKg(30),
      tolerance: 0.05,
      toleranceWhy: 'printed to one decimal',
      tag: 'from memory',
    },
    ...[25, 30, 45].map((ratio) => ({
      id: `formula ${ratio}`,
      quantity: `leaves to C:N ${ratio} by the printed formula`,
      unit: 'kg',
      published: printedFormulaKg(10, grass, leaves, ratio),
      ours: () => solvedKg(ratio),
      tolerance: 1e-9,
      toleranceWhy: 'the same algebra in another form',
      tag: 'derived' as const,
    })),
  ],
};
