import { materialOf } from '../src/materials/material.ts';
import { massFromVolume } from '../src/materials/measure.ts';
import { kgPerLitreFromKgPerM3 } from '../src/units/volume.ts';
import type { AccuracySource } from './accuracy-row.ts';

export const merseysideDensity: AccuracySource = {
  source: 'merseyside-density',
  rows: [
    {
      id: 'WP8',
      quantity: 'weight of a 5 L caddy of food scraps',
      unit: 'kg',
      published: 2.125,
      ours: () => massFromVolume(5, kgPerLitreFromKgPerM3(materialOf({ material: 'food_scraps_veg' }).bulkDensityKgM3)),
      tolerance: 1e-9,
      toleranceWhy: 'exact arithmetic',
      tag: 'seen',
    },
  ],
};
