import { celsiusFromF, fahrenheitFromC, GRAMS_PER_KG, GRAMS_PER_LB, LITRES_PER_US_GALLON, OUNCES_PER_LB } from '@middenry/domain';

/** Units as people type and read them. Stored values are SI; what is typed keeps its unit. */
export type UnitSystem = 'metric' | 'us';
export type MassUnit = 'kg' | 'g' | 'lb' | 'oz';
export type TemperatureUnit = 'c' | 'f';

export const KG_PER: Readonly<Record<MassUnit, number>> = {
  kg: 1,
  g: 1 / GRAMS_PER_KG,
  lb: GRAMS_PER_LB / GRAMS_PER_KG,
  oz: GRAMS_PER_LB / GRAMS_PER_KG / OUNCES_PER_LB,
};
/** The unit of that name, if there is one. */
export const unitOf = (name: string | null | undefined): MassUnit | null =>
  name && Object.hasOwn(KG_PER, name) ? (name as MassUnit) : null;
const QUARTS_PER_GALLON = 4;
export const LITRES_PER_QUART = LITRES_PER_US_GALLON / QUARTS_PER_GALLON;

/** Whole grams, as the store keeps them. */
export function toKg(value: number, unit: MassUnit): number {
  return Math.round(value * KG_PER[unit] * GRAMS_PER_KG) / GRAMS_PER_KG;
}

export const toCelsius = (value: number, unit: TemperatureUnit): number => (unit === 'c' ? value : celsiusFromF(value));
export const fromCelsius = (tempC: number, unit: TemperatureUnit): number => (unit === 'c' ? tempC : fahrenheitFromC(tempC));
