import type { Composition } from '../../src/index.ts';

/**
 * What laboratory feeds are made of, as far as the model asks. None of the studies prints it: organic share, carbon and nitrogen
 * are of the kind (science table 7b's neighbours, materials.csv), the split and its rates are our estimates for the kind, the same
 * in every study. Only `qualityRatio` is fitted, one constant a study, on the series the study names.
 */
type Feed = Omit<Composition, 'moistureFracWb' | 'qualityRatio'>;

export const CATTLE_DUNG: Feed = {
  organicFracDb: 0.8,
  carbonFracDb: 0.42,
  nitrogenFracDb: 0.02,
  labileFrac: 0.5,
  labileRatePerDay: 0.04,
  slowRatePerDay: 0.004,
  ph: 7.5,
};
export const HORSE_MANURE: Feed = {
  organicFracDb: 0.8,
  carbonFracDb: 0.42,
  nitrogenFracDb: 0.016,
  labileFrac: 0.45,
  labileRatePerDay: 0.04,
  slowRatePerDay: 0.004,
  ph: 7.5,
};
export const PIG_MANURE: Feed = {
  organicFracDb: 0.8,
  carbonFracDb: 0.42,
  nitrogenFracDb: 0.03,
  labileFrac: 0.55,
  labileRatePerDay: 0.05,
  slowRatePerDay: 0.004,
  ph: 7.5,
};
export const SEWAGE_SLUDGE: Feed = {
  organicFracDb: 0.65,
  carbonFracDb: 0.35,
  nitrogenFracDb: 0.045,
  labileFrac: 0.6,
  labileRatePerDay: 0.05,
  slowRatePerDay: 0.005,
  ph: 7,
};
export const FOOD_WASTE: Feed = {
  organicFracDb: 0.9,
  carbonFracDb: 0.45,
  nitrogenFracDb: 0.027,
  labileFrac: 0.7875,
  labileRatePerDay: 0.085,
  slowRatePerDay: 0.007,
  ph: 6.5,
};
export const PAPER: Feed = {
  organicFracDb: 0.9,
  carbonFracDb: 0.44,
  nitrogenFracDb: 0.002,
  labileFrac: 0.6,
  labileRatePerDay: 0.012,
  slowRatePerDay: 0.003,
  ph: 7,
};
export const CARDBOARD: Feed = {
  organicFracDb: 0.9,
  carbonFracDb: 0.45,
  nitrogenFracDb: 0.001,
  labileFrac: 0.5,
  labileRatePerDay: 0.012,
  slowRatePerDay: 0.002,
  ph: 7,
};
