import { parameter } from './parameter.ts';

/** Model.md 1.6. */
export const CARBON_NITROGEN_PARAMETERS = {
  balancedCn: parameter(20, 'ratio', 'from memory', 'haug-1993: rotting matter above it keeps all its nitrogen'),
  leastLossFrac: parameter(0.02, 'share', 'estimate', 'none: of the nitrogen set free'),
  mostLossFrac: parameter(0.3, 'share', 'estimate', 'none: of the nitrogen set free at C:N 5'),
  alkaliPhKgPerKgN: parameter(60, 'pH kg/kg', 'estimate', 'none: ammonia lifts the pH of rich food'),
  carbonDioxidePerCarbon: parameter(44 / 12, 'kg/kg', 'from memory', 'molar masses'),
} as const;
const P = CARBON_NITROGEN_PARAMETERS;

/** Share of the nitrogen set free that leaves as gas, by the C:N of what rots. */
export function nitrogenLossFrac(cnRatio: number): number {
  const rich = Math.min(1, Math.max(0, (P.balancedCn.value - cnRatio) / 15));
  return P.leastLossFrac.value + (P.mostLossFrac.value - P.leastLossFrac.value) * rich;
}

/** Share of the nitrogen of rotted matter that microbes do not need and leave as ammonium. */
export const freedNitrogenFrac = (cnRatio: number): number => Math.max(0, 1 - cnRatio / P.balancedCn.value);
