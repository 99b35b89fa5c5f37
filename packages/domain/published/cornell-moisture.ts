import { massForMoisture, mixOf } from '../src/materials/blend.ts';
import { moistureFromOven } from '../src/materials/measure.ts';
import { percentFromFrac } from '../src/units/fraction.ts';
import type { AccuracySource } from './accuracy-row.ts';

const grass = { moistureFracWb: 0.77, carbonFracDb: 0.45, nitrogenFracDb: 0.024 };
const leaves = { moistureFracWb: 0.35, carbonFracDb: 0.5, nitrogenFracDb: 0.0075 };

const leavesKg = (): number => {
  const result = massForMoisture([{ massKg: 10, facts: grass }], leaves, 0.6);
  if (result.status !== 'ok') throw new Error('the published example must be feasible');
  return result.massesKg[0] as number;
};

/** Cornell Composting in Schools: grass in an oven, then grass with leaves to 60 per cent. */
export const cornellMoisture: AccuracySource = {
  source: 'cornell-moisture',
  rows: [
    {
      id: 'WP1',
      quantity: 'moisture of 10 g wet grass that dries to 2.3 g',
      unit: '%',
      published: 77,
      ours: () => percentFromFrac(moistureFromOven({ wetG: 10, dishG: 4, dishAndDryG: 6.3 })),
      tolerance: 1e-9,
      toleranceWhy: 'exact arithmetic',
      tag: 'seen',
    },
    {
      id: 'WP2',
      quantity: 'leaves for 10 kg grass to reach 60 %',
      unit: 'kg',
      published: 6.8,
      ours: leavesKg,
      tolerance: 1e-9,
      toleranceWhy: 'exact arithmetic',
      tag: 'seen',
    },
    {
      id: 'WP2b',
      quantity: 'moisture of that mixture by the mixture formula',
      unit: '%',
      published: 60,
      ours: () =>
        percentFromFrac(
          mixOf([
            { massKg: 10, facts: grass },
            { massKg: 6.8, facts: leaves },
          ]).moistureFracWb,
        ),
      tolerance: 1e-9,
      toleranceWhy: 'exact arithmetic',
      tag: 'seen',
    },
  ],
};
