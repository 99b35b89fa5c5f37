import { CASTINGS_MARKS } from './castings-marks.ts';
import { type SeasonColumn, sumOf } from './season-row.ts';

const STANDARD = CASTINGS_MARKS.standardMoistureFracWb;

/**
 * What castings would weigh at the standard moisture.
 *
 * corrected = as weighed (1 - w) / (1 - 0.65)
 *
 * @shape scalar -> scalar
 * @returns Mass, [g], a whole number; as weighed where the moisture is not known
 * @valid moisture 0 to below 1
 * @throws {RangeError} outside
 * @source derived-vectors (EQ8: dry mass is kept, water is not)
 */
export function correctedCastingsG(grams: number, moistureFracWb: number | null): number {
  if (moistureFracWb === null) return grams;
  if (!(moistureFracWb >= 0 && moistureFracWb < 1))
    throw new RangeError(`Cannot correct castings as their moisture lies from 0 to below 1: current value is ${moistureFracWb}`);
  return Math.round((grams * (1 - moistureFracWb)) / (1 - STANDARD.value));
}

export const castingsCorrected: SeasonColumn = {
  id: 'castingsCorrectedG',
  unit: 'g',
  meaning: 'Castings at 65 % moisture, so that more water is not more yield; as weighed where the moisture was not noted.',
  of: (rows) => sumOf(rows, (row) => (row.type === 'harvest' ? correctedCastingsG(row.grams, row.moistureFracWb ?? null) : 0)),
};

export const castingsMoistureNoted: SeasonColumn = {
  id: 'castingsMoistureNotedG',
  unit: 'g',
  meaning: 'Castings, as weighed, whose moisture was noted.',
  of: (rows) => sumOf(rows, (row) => (row.type === 'harvest' && (row.moistureFracWb ?? null) !== null ? row.grams : 0)),
};
