import { type BlendResult, type MixFacts, massForCn, massForMoisture } from '../src/materials/blend.ts';
import { kgFromLb, lbFromKg } from '../src/units/mass.ts';
import type { AccuracySource } from './accuracy-row.ts';

const onlyMass = (result: BlendResult): number => {
  if (result.status !== 'ok') throw new Error('the published example must be feasible');
  return result.massesKg[0] as number;
};

// The answer reckons with 400 lb of dry sawdust, 60 % carbon at C:N 400, and urea as nitrogen alone.
const sawdust: MixFacts = { moistureFracWb: 0, carbonFracDb: 0.6, nitrogenFracDb: 0.6 / 400 };
const urea: MixFacts = { moistureFracWb: 0, carbonFracDb: 0, nitrogenFracDb: 0.46 };

export const osuSawdust: AccuracySource = {
  source: 'osu-sawdust',
  rows: [
    {
      id: 'WP10',
      quantity: 'urea for 400 lb of sawdust to reach C:N 30',
      unit: 'lb',
      published: 16,
      ours: () => lbFromKg(onlyMass(massForCn([{ massKg: kgFromLb(400), facts: sawdust }], urea, 30))),
      tolerance: 0.5,
      toleranceWhy: 'printed to whole pounds',
      tag: 'seen',
    },
  ],
};

const paperMix: MixFacts = { moistureFracWb: 0.07, carbonFracDb: 0.43, nitrogenFracDb: 0.003 };
const water: MixFacts = { moistureFracWb: 1, carbonFracDb: 0, nitrogenFracDb: 0 };

export const vesilindWater: AccuracySource = {
  source: 'vesilind-water',
  rows: [
    {
      id: 'WP11',
      quantity: 'water for 10 t of paper at 7 % to reach 60 %',
      unit: 't',
      published: 13.3,
      ours: () => onlyMass(massForMoisture([{ massKg: 10, facts: paperMix }], water, 0.6)),
      tolerance: 0.06,
      toleranceWhy: 'printed to one decimal, rounded up',
      tag: 'from memory',
    },
  ],
};

const leaves: MixFacts = { moistureFracWb: 0.5, carbonFracDb: 0.35, nitrogenFracDb: 0.007 };
const sludge: MixFacts = { moistureFracWb: 0.75, carbonFracDb: 6.3 * 0.056, nitrogenFracDb: 0.056 };

export const tchobanoglousBlend: AccuracySource = {
  source: 'tchobanoglous-blend',
  rows: [
    {
      id: 'WP12',
      quantity: 'sludge for 1 kg of leaves to reach C:N 25',
      unit: 'kg',
      published: 0.33,
      ours: () => onlyMass(massForCn([{ massKg: 1, facts: leaves }], sludge, 25)),
      tolerance: 0.005,
      toleranceWhy: 'printed to two decimals',
      tag: 'from memory',
    },
  ],
};
