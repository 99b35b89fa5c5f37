import { parameter } from './parameter.ts';

/** Acids of airless rot and of sour food, as pH below neutral times dry mass: one number a bin (model.md 1.3). */
export const ACID_PARAMETERS = {
  neutralPh: parameter(7.1, 'pH', 'estimate', 'science 5: 6.5-7.5 finished'),
  airlessPhKgPerKg: parameter(40, 'pH kg/kg', 'estimate', 'none: acids of a kilogram rotted without air'),
  eatenPerDay: parameter(0.12, '1/d', 'estimate', 'none: acids are food for microbes with air'),
  alkaliLossPerDay: parameter(0.06, '1/d', 'estimate', 'none: ammonia is lost or turned to nitrate'),
  lowestPh: parameter(3.6, 'pH', 'estimate', 'science 5: citrus peel 3.95, vermi 4.6'),
  highestPh: parameter(9.2, 'pH', 'estimate', 'none'),
} as const;
const P = ACID_PARAMETERS;

export function phOf(acidPhKg: number, dryKg: number): number {
  if (dryKg <= 0) return P.neutralPh.value;
  return Math.min(P.highestPh.value, Math.max(P.lowestPh.value, P.neutralPh.value - acidPhKg / dryKg));
}
