import type { Format } from '../format/format.ts';
import type { BinOutlook, DayRow } from './types.ts';

export const QUANTITIES = ['moistureFracWb', 'bedTempC', 'foodInHandDays', 'airlessFrac', 'castingsKgWb', 'wormsKg'] as const;
export type Quantity = (typeof QUANTITIES)[number];

export function readQuantity(wanted: string | null, otherwise: Quantity): Quantity {
  return QUANTITIES.find((q) => q === wanted) ?? otherwise;
}

export function showQuantity(quantity: Quantity, f: Format): (value: number) => string {
  return {
    moistureFracWb: f.percent,
    bedTempC: f.temp,
    foodInHandDays: f.foodDays,
    airlessFrac: f.percent,
    castingsKgWb: f.mass,
    wormsKg: f.mass,
  }[quantity];
}

export interface SeriesPoint {
  readonly on: string;
  readonly low: number;
  readonly mid: number;
  readonly high: number;
  readonly expected: boolean;
}

/** History and forecast as one row of points, today counted once. */
export function seriesOf(outlook: BinOutlook, quantity: Quantity): SeriesPoint[] {
  const point = (row: DayRow, expected: boolean) => ({
    on: row.on,
    low: row[quantity].p10,
    mid: row[quantity].p50,
    high: row[quantity].p90,
    expected,
  });
  return [
    ...outlook.history.map((r) => point(r, false)),
    ...outlook.forecast.filter((r) => r.on > outlook.today).map((r) => point(r, true)),
  ];
}

/** The quantity that tells most about a flag. */
export function quantityOfSignal(signal: string | null): Quantity {
  const table: Readonly<Record<string, Quantity>> = {
    airless: 'airlessFrac',
    overfed: 'foodInHandDays',
    hungry: 'foodInHandDays',
    hot: 'bedTempC',
    cold: 'bedTempC',
    'harvest-due': 'castingsKgWb',
  };
  return (signal === null ? undefined : table[signal]) ?? 'moistureFracWb';
}
