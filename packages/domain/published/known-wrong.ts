import { massForCn, mixOf } from '../src/materials/blend.ts';
import { feetFromInches } from '../src/units/volume.ts';
import type { AccuracySource } from './accuracy-row.ts';

// Where two materials hold the same nitrogen per mass, averaging their ratios by mass is right, so the page's own
// algebra can be put to our solver: its slip is then arithmetic alone.
const sameNitrogen = (cnRatio: number) => ({ moistureFracWb: 0, carbonFracDb: cnRatio * 0.003, nitrogenFracDb: 0.003 });

const shareForThirty = (): number => {
  const result = massForCn([{ massKg: 1, facts: sameNitrogen(130) }], sameNitrogen(7.5), 30);
  if (result.status !== 'ok') throw new Error('the published example must be feasible');
  const massKg = result.massesKg[0] as number;
  return massKg / (1 + massKg);
};

const grass = { moistureFracWb: 0.77, carbonFracDb: 19 * 0.024, nitrogenFracDb: 0.024 };
const leaves = { moistureFracWb: 0.35, carbonFracDb: 60 * 0.0075, nitrogenFracDb: 0.0075 };

export const ncextAlgebra: AccuracySource = {
  source: 'ncext-algebra',
  rows: [
    {
      id: 'WN1',
      quantity: 'share of the rich material for C:N 30',
      unit: '',
      published: 0.9,
      ours: shareForThirty,
      tolerance: 0.05,
      toleranceWhy: 'the printed figure is a slip',
      tag: 'negative',
      right: 100 / 122.5,
    },
  ],
};

export const cornellChemistry: AccuracySource = {
  source: 'cornell-chemistry',
  rows: [
    {
      id: 'WN2',
      quantity: 'C:N of 2 parts grass and 1 part leaves',
      unit: '',
      published: 32.7,
      ours: () =>
        mixOf([
          { massKg: 2, facts: grass },
          { massKg: 1, facts: leaves },
        ]).cnRatio,
      tolerance: 0.5,
      toleranceWhy: 'the printed figure averages ratios',
      tag: 'negative',
      right: 31.559,
    },
  ],
};

export const gardenVolume: AccuracySource = {
  source: 'garden-volume',
  rows: [
    {
      id: 'WN3',
      quantity: 'volume of 4 ft by 8 ft by 2 in',
      unit: 'ft3',
      published: 0.67,
      ours: () => 4 * 8 * feetFromInches(2),
      tolerance: 0.5,
      toleranceWhy: 'the printed figure mixes feet and inches',
      tag: 'negative',
      right: 16 / 3,
    },
  ],
};
