import { parameter } from './parameter.ts';

/** Model.md 1.7; EQ8. */
export const CASTINGS_PARAMETERS = {
  moistureAsMadeFracWb: parameter(0.7, 'share', 'from memory', 'science 8: 65-80 % as made'),
  densityKgM3: parameter(650, 'kg/m3', 'published', 'agnew-leonard-2003'),
} as const;

/**
 * Wet castings from what went in.
 *
 * EQ8: out = dry in x (1 - loss) / (1 - w out)
 *
 * @shape scalar -> scalar
 * @returns Wet mass, [kg]
 * @source eq8
 */
export const yieldKgWb = (dryInKg: number, lossFrac: number, moistureOutFracWb: number): number =>
  (dryInKg * (1 - lossFrac)) / (1 - moistureOutFracWb);

/** Share of volatile solids lost, by the ash that stays: 1 - a(1-b)/(b(1-a)) @source eq8 */
export const lossByAshFrac = (ashInFracDb: number, ashOutFracDb: number): number =>
  1 - (ashInFracDb * (1 - ashOutFracDb)) / (ashOutFracDb * (1 - ashInFracDb));
