import { kgFromLb } from './mass.ts';

export const LITRES_PER_M3 = 1000;
/** Exact: 231 cubic inches. */
export const LITRES_PER_US_GALLON = 3.785411784;
/** Exact: 27 cubic feet of 0.3048 m. */
export const M3_PER_YD3 = 0.764554857984;
export const MILLILITRES_PER_LITRE = 1000;
export const METRES_PER_FOOT = 0.3048;
export const INCHES_PER_FOOT = 12;
export const CM_PER_M = 100;

export const VOLUME_UNITS = ['l', 'us-gal', 'yd3', 'm3'] as const;
export type VolumeUnit = (typeof VOLUME_UNITS)[number];

const LITRES_OF: Readonly<Record<VolumeUnit, number>> = {
  l: 1,
  'us-gal': LITRES_PER_US_GALLON,
  yd3: M3_PER_YD3 * LITRES_PER_M3,
  m3: LITRES_PER_M3,
};

/** Litres of a volume as typed. */
export function litresFrom(value: number, unit: VolumeUnit): number {
  if (!Number.isFinite(value) || value < 0)
    throw new RangeError(`Cannot convert volume as it must be zero or more: current value is ${value}`);
  return value * LITRES_OF[unit];
}

export const volumeIn = (litres: number, unit: VolumeUnit): number => litres / LITRES_OF[unit];

/** Density of a full container: what it weighs over what it holds. */
export const kgPerM3FromKgPerLitre = (kgPerLitre: number): number => kgPerLitre * LITRES_PER_M3;
export const kgPerLitreFromKgPerM3 = (kgPerM3: number): number => kgPerM3 / LITRES_PER_M3;
export const kgPerM3FromLbPerYd3 = (lbPerYd3: number): number => kgFromLb(lbPerYd3) / M3_PER_YD3;
export const kgPerM3FromLbPerUsGallon = (lbPerGallon: number): number => (kgFromLb(lbPerGallon) / LITRES_PER_US_GALLON) * LITRES_PER_M3;
export const metresFromFeet = (feet: number): number => feet * METRES_PER_FOOT;
export const feetFromInches = (inches: number): number => inches / INCHES_PER_FOOT;
export const cmFromM = (lengthM: number): number => lengthM * CM_PER_M;
export const mFromCm = (lengthCm: number): number => lengthCm / CM_PER_M;
export const millilitresFromLitres = (litres: number): number => Math.round(litres * MILLILITRES_PER_LITRE);
export const litresFromMillilitres = (millilitres: number): number => millilitres / MILLILITRES_PER_LITRE;
