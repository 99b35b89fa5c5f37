import { parameter } from '../bin/parameter.ts';

/** EQ12 and the rules of thumb around it. */
export const FEED_PARAMETERS = {
  perWormKgPerKgDay: parameter(0.25, 'kg food/kg worms/d at 20 C', 'estimate', 'feed-advice-default'),
  perAreaKgPerM2Day: parameter(0.7, 'kg food/m2/d', 'published', 'osu-area-load'),
  newBinRatio: parameter(0.5, 'ratio', 'estimate', 'feed-advice-default'),
  newBinDays: parameter(42, 'd', 'estimate', 'feed-advice-default'),
  leftoverRatio: parameter(0.5, 'ratio', 'estimate', 'feed-advice-default'),
  leftoverDays: parameter(7, 'd of appetite', 'estimate', 'feed-advice-default'),
  holdFoodDays: parameter(14, 'd of appetite', 'estimate', 'science-table-1'),
  spreadRatio: parameter(0.3, 'share', 'estimate', 'feed-advice-default'),
  rationDays: parameter(7, 'd', 'common practice', 'common-practice'),
  /** Less than this, or than this share of a ration, is not worth a visit. */
  leastRationFrac: parameter(0.25, 'share', 'estimate', 'feed-advice-default'),
  leastKg: parameter(0.1, 'kg', 'estimate', 'feed-advice-default'),
  holdHotC: parameter(29, 'C', 'estimate', 'science-table-3'),
  holdColdC: parameter(5, 'C', 'estimate', 'science-table-3'),
  holdPorosity: parameter(0.12, 'air of volume', 'estimate', 'science-table-6'),
  holdPh: parameter(5, 'pH', 'estimate', 'science-table-5'),
  layerM: parameter(0.05, 'm', 'derived', 'science-table-6'),
  layerWarmM: parameter(0.025, 'm', 'derived', 'science-table-6'),
  warmC: parameter(24, 'C', 'derived', 'science-table-6'),
  layerKgM3: parameter(600, 'kg/m3', 'estimate', 'science-table-6'),
  troubleProbability: parameter(0.1, 'share of members', 'estimate', 'feed-advice-default'),
  moistureFracWb: parameter(0.8, 'wet basis', 'estimate', 'science-table-4'),
  cnLow: parameter(20, 'C:N', 'estimate', 'science-table-1'),
  cnHigh: parameter(35, 'C:N', 'estimate', 'science-table-1'),
} as const;
