import { bulkDensityFromContainer } from '../src/materials/measure.ts';
import { kgPerLitreFromKgPerM3 } from '../src/units/volume.ts';
import type { AccuracySource } from './accuracy-row.ts';

export const eawagBulkDensity: AccuracySource = {
  source: 'eawag-bulk-density',
  rows: [
    {
      id: 'WP7',
      quantity: 'bulk density of a 20 L bucket, 1 kg empty and 10 kg full',
      unit: 'kg/L',
      published: 0.45,
      ours: () => kgPerLitreFromKgPerM3(bulkDensityFromContainer({ emptyKg: 1, fullKg: 10, volumeL: 20 })),
      tolerance: 1e-9,
      toleranceWhy: 'exact arithmetic',
      tag: 'seen',
    },
  ],
};
