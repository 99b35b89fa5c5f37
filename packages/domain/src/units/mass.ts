/** Grams of a kilogram. */
export const GRAMS_PER_KG = 1000;
export const MILLIGRAMS_PER_GRAM = 1000;
export const MILLIGRAMS_PER_KG = 1_000_000;
/** Exact by the international yard and pound agreement of 1959. */
export const GRAMS_PER_LB = 453.59237;
export const OUNCES_PER_LB = 16;
/** US short ton; a long ton is another thing. */
export const LB_PER_SHORT_TON = 2000;
export const KG_PER_TONNE = 1000;

export const MASS_UNITS = ['g', 'kg', 'oz', 'lb'] as const;
export type MassUnit = (typeof MASS_UNITS)[number];

const GRAMS_OF: Readonly<Record<MassUnit, number>> = {
  g: 1,
  kg: GRAMS_PER_KG,
  oz: GRAMS_PER_LB / OUNCES_PER_LB,
  lb: GRAMS_PER_LB,
};

/**
 * Whole grams of a weight as typed, the form in which weights are stored.
 *
 * @shape scalar -> scalar
 * @returns Mass, [g], a whole number
 * @valid value >= 0 and finite
 * @throws {RangeError} when the value is negative or not finite
 */
export function gramsFrom(value: number, unit: MassUnit): number {
  return Math.round(checkedMass(value) * GRAMS_OF[unit]);
}

/** A stored weight in the unit somebody wants to read. */
export function massIn(grams: number, unit: MassUnit): number {
  return checkedMass(grams) / GRAMS_OF[unit];
}

export function kgFrom(value: number, unit: MassUnit): number {
  return (checkedMass(value) * GRAMS_OF[unit]) / GRAMS_PER_KG;
}

export const kgFromGrams = (grams: number): number => grams / GRAMS_PER_KG;
export const gramsFromKg = (massKg: number): number => Math.round(checkedMass(massKg) * GRAMS_PER_KG);
export const kgFromLb = (massLb: number): number => kgFrom(massLb, 'lb');
export const lbFromKg = (massKg: number): number => (checkedMass(massKg) * GRAMS_PER_KG) / GRAMS_PER_LB;
export const kgFromShortTons = (shortTons: number): number => kgFromLb(shortTons * LB_PER_SHORT_TON);

function checkedMass(value: number): number {
  if (!Number.isFinite(value) || value < 0)
    throw new RangeError(`Cannot convert mass as it must be zero or more: current value is ${value}`);
  return value;
}
