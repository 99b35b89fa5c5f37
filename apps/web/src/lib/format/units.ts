/**
 * Units as people type and read them. Stored values are SI; what is typed keeps its unit.
 *
 * @source NIST SP 811 (2008), appendix B: 1 lb = 0.45359237 kg exactly, 1 ft = 0.3048 m exactly, 1 US gal = 3.785412 L
 */
export type UnitSystem = 'metric' | 'us';
export type MassUnit = 'kg' | 'g' | 'lb' | 'oz';
export type VolumeUnit = 'l' | 'ml' | 'gal' | 'qt';
export type TemperatureUnit = 'c' | 'f';

export const KG_PER: Readonly<Record<MassUnit, number>> = { kg: 1, g: 0.001, lb: 0.45359237, oz: 0.45359237 / 16 };
export const LITRES_PER: Readonly<Record<VolumeUnit, number>> = { l: 1, ml: 0.001, gal: 3.785411784, qt: 3.785411784 / 4 };
export const CM_PER_M = 100;
export const CM_PER_INCH = 2.54;

/** Whole grams, as the store keeps them. */
export function toKg(value: number, unit: MassUnit): number {
  return Math.round(value * KG_PER[unit] * 1000) / 1000;
}

export function toCelsius(value: number, unit: TemperatureUnit): number {
  return unit === 'c' ? value : ((value - 32) * 5) / 9;
}

export function fromCelsius(valueC: number, unit: TemperatureUnit): number {
  return unit === 'c' ? valueC : (valueC * 9) / 5 + 32;
}
