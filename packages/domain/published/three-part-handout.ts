import { mixOf } from '../src/materials/blend.ts';
import { kgFromLb } from '../src/units/mass.ts';
import type { AccuracySource } from './accuracy-row.ts';

// The handout's per cents are of the stuff as it is, so it goes in with no water: dry basis then equals as-is basis.
const part = (massLb: number, carbonPct: number, nitrogenPct: number) => ({
  massKg: kgFromLb(massLb),
  facts: { moistureFracWb: 0, carbonFracDb: carbonPct / 100, nitrogenFracDb: nitrogenPct / 100 },
});

export const threePartHandout: AccuracySource = {
  source: 'three-part-handout',
  rows: [
    {
      id: 'WP6',
      quantity: 'C:N of 50 lb hay, 10 lb scraps, 2 lb coffee',
      unit: '',
      published: 34.7,
      ours: () => mixOf([part(50, 40, 1), part(10, 10, 1), part(2, 25, 1)]).cnRatio,
      tolerance: 0.05,
      toleranceWhy: 'printed to one decimal',
      tag: 'seen',
    },
  ],
};
