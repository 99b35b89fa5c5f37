import { carbonFracFromAsh } from '../src/materials/measure.ts';
import { percentFromFrac } from '../src/units/fraction.ts';
import type { AccuracySource } from './accuracy-row.ts';

export const cornellCarbon: AccuracySource = {
  source: 'cornell-carbon',
  rows: [
    {
      id: 'WP14',
      quantity: 'carbon of dry mass with 10 % ash',
      unit: '%',
      published: 50,
      ours: () => percentFromFrac(carbonFracFromAsh(0.1)),
      tolerance: 1e-9,
      toleranceWhy: 'exact arithmetic; formula seen, number derived',
      tag: 'derived',
    },
  ],
};
