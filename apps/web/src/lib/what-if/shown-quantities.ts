import type { WhatIfAnswer, WhatIfQuantity } from '@middenry/domain';
import type { FanPoint, FanScale } from '../chart/fan-paths.ts';

export const SHOWN_QUANTITIES = [
  'airlessFrac',
  'foodInHandDays',
  'wormsKg',
  'moistureFracWb',
  'bedTempC',
] as const satisfies readonly WhatIfQuantity[];

export const readShownQuantity = (wanted: string | null): WhatIfQuantity =>
  SHOWN_QUANTITIES.find((quantity) => quantity === wanted) ?? 'airlessFrac';

/** One scale while a slider moves, or the fan would seem to stand still; worms by what there are now. */
const SCALES: Readonly<Record<Exclude<WhatIfQuantity, 'wormsKg'>, FanScale>> = {
  airlessFrac: { low: 0, high: 1 },
  foodInHandDays: { low: 0, high: 40 },
  moistureFracWb: { low: 0.4, high: 1 },
  bedTempC: { low: 0, high: 40 },
};
/** Marks of the signals, held equal to the domain's by a test: the page itself need not fetch all that judges a bin. */
export const LIMITS: Readonly<Record<WhatIfQuantity, readonly number[]>> = {
  airlessFrac: [0.25],
  foodInHandDays: [14],
  wormsKg: [],
  moistureFracWb: [0.6, 0.83],
  bedTempC: [5, 29],
};

export function scaleOf(quantity: WhatIfQuantity, without: Pick<WhatIfAnswer, 'days'>): FanScale {
  if (quantity !== 'wormsKg') return SCALES[quantity];
  const most = 1.5 * Math.max(0.1, ...without.days.map((day) => day.wormsKg.p90));
  return { low: 0, high: most };
}

export const pointsOf = ({ days }: Pick<WhatIfAnswer, 'days'>, quantity: WhatIfQuantity): FanPoint[] =>
  days.map((day) => ({ ahead: day.ahead, low: day[quantity].p10, mid: day[quantity].p50, high: day[quantity].p90 }));

/** Where a bin turns to `watch` and to `act`, as above. */
export const [WATCH, ACT] = [0.3, 0.6];
export const bandOf = (chance: number): 'act' | 'watch' | 'settled' => (chance >= ACT ? 'act' : chance >= WATCH ? 'watch' : 'settled');
