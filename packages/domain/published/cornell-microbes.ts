import { wetMassForDry, wetToDryRatio } from '../src/materials/measure.ts';
import type { AccuracySource } from './accuracy-row.ts';

const sample = { wetG: 4.3, dryG: 2.8 };

/** Cornell Composting, microbes page: how much wet compost holds 5 g of dry. */
export const cornellMicrobes: AccuracySource = {
  source: 'cornell-microbes',
  rows: [
    {
      id: 'WP5',
      quantity: 'wet to dry ratio of 4.3 g that dries to 2.8 g',
      unit: '',
      published: 1.54,
      ours: () => wetToDryRatio(sample),
      tolerance: 0.005,
      toleranceWhy: 'printed to two decimals',
      tag: 'seen',
    },
    {
      id: 'WP5b',
      quantity: 'wet mass that holds 5 g dry',
      unit: 'g',
      published: 7.7,
      ours: () => wetMassForDry(sample, 5),
      tolerance: 0.05,
      toleranceWhy: 'printed to one decimal',
      tag: 'seen',
    },
  ],
};
