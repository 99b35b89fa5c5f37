import { CASTINGS_MARKS } from './castings-marks.ts';
import { type SeasonColumn, sumOf } from './season-row.ts';

/**
 * Volume of castings: as measured by the bucket, else from their weight.
 *
 * V = m / density
 *
 * @shape scalar -> scalar
 * @returns Volume, [ml], a whole number
 * @source common-practice: 0.6 kg/L where nobody measured
 */
export const castingsVolumeMl = (grams: number, measuredMl: number | null): number =>
  measuredMl ?? Math.round(grams / CASTINGS_MARKS.densityKgPerL.value);

export const castingsVolume: SeasonColumn = {
  id: 'castingsMl',
  unit: 'ml',
  meaning: 'Volume of the castings, at 0.6 kilograms a litre where nobody measured it.',
  of: (rows) => sumOf(rows, (row) => (row.type === 'harvest' ? castingsVolumeMl(row.grams, row.volumeMl ?? null) : 0)),
};

export const castingsVolumeMeasured: SeasonColumn = {
  id: 'castingsMeasuredMl',
  unit: 'ml',
  meaning: 'Volume of those castings that were measured by the bucket.',
  of: (rows) => sumOf(rows, (row) => (row.type === 'harvest' ? (row.volumeMl ?? 0) : 0)),
};
