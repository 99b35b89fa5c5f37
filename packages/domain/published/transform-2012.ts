import { dryMassKg } from '../src/units/fraction.ts';
import { KG_PER_TONNE } from '../src/units/mass.ts';
import type { AccuracySource } from './accuracy-row.ts';

const tonnes = (count: number): number => count * KG_PER_TONNE;
const waterKg = (massKg: number, moistureFracWb: number): number => massKg - dryMassKg(massKg, moistureFracWb);

/** A whole batch: 1000 t at 65 % becomes 500 t at 50 %. */
export const transform2012: AccuracySource = {
  source: 'transform-2012',
  rows: [
    {
      id: 'WP9',
      quantity: 'water lost from 1000 t at 65 % that becomes 500 t at 50 %',
      unit: 't',
      published: 400,
      ours: () => (waterKg(tonnes(1000), 0.65) - waterKg(tonnes(500), 0.5)) / KG_PER_TONNE,
      tolerance: 1e-9,
      toleranceWhy: 'exact arithmetic',
      tag: 'seen',
    },
  ],
};
