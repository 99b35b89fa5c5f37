const PERCENT = 100;

export const fracFromPercent = (percent: number): number => percent / PERCENT;
export const percentFromFrac = (frac: number): number => frac * PERCENT;

/**
 * Wet-basis moisture of a dry-basis one.
 *
 * w = m / (1 + m), with m = water over dry mass
 *
 * @shape scalar -> scalar
 * @returns Moisture of the whole, 0 to 1
 * @valid 0 or more
 * @throws {RangeError} below 0
 * @source cornell-moisture
 */
export function wetFromDryBasis(moistureFracDb: number): number {
  if (!(moistureFracDb >= 0))
    throw new RangeError(`Cannot change the moisture basis as water over dry mass is 0 or more: current value is ${moistureFracDb}`);
  return Number.isFinite(moistureFracDb) ? moistureFracDb / (1 + moistureFracDb) : 1;
}

/**
 * Dry-basis moisture of a wet-basis one.
 *
 * m = w / (1 - w)
 *
 * @shape scalar -> scalar
 * @returns Water over dry mass; 0.8 gives 4
 * @valid 0 to below 1
 * @throws {RangeError} outside
 * @source cornell-moisture
 */
export function dryFromWetBasis(moistureFracWb: number): number {
  if (!(moistureFracWb >= 0 && moistureFracWb < 1))
    throw new RangeError(`Cannot change the moisture basis as the wet-basis fraction is 0 to below 1: current value is ${moistureFracWb}`);
  return moistureFracWb / (1 - moistureFracWb);
}

/** Dry mass of a wet one. */
export const dryMassKg = (massKgWb: number, moistureFracWb: number): number => massKgWb * (1 - moistureFracWb);
