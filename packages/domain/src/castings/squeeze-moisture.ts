import { parameter } from '../bin/parameter.ts';
import { SQUEEZES } from '../bin/scenario.ts';

type Squeeze = (typeof SQUEEZES)[number];

/**
 * Moisture that a squeeze stands for, and how far from it the castings may be. A squeeze is a guess and is kept as the word that
 * was chosen; neighbouring words overlap by 5 % of water, so each range reaches so far into the next.
 */
export const SQUEEZE_MOISTURE_PARAMETERS = {
  /** Between neighbouring words, driest first; the outer two end where castings are found at their driest and wettest. */
  driestFracWb: parameter(0.45, 'wet basis', 'from memory', 'science 8: screened castings hold 40-55 % of water'),
  crumblesBelow: parameter(0.6, 'wet basis', 'estimate', 'science 4: falls apart, no shine'),
  dampBelow: parameter(0.7, 'wet basis', 'estimate', 'science 4: palm damp, no drop'),
  dropsBelow: parameter(0.8, 'wet basis', 'estimate', 'science 4: one or two drops'),
  manyDropsBelow: parameter(0.85, 'wet basis', 'estimate', 'science 4: three to ten drops'),
  wettestFracWb: parameter(0.9, 'wet basis', 'estimate', 'science 4: a trickle'),
  overlap: parameter(0.05, 'wet basis', 'estimate', 'science 4: bands overlap by 5 %'),
} as const;
const P = SQUEEZE_MOISTURE_PARAMETERS;
const MARKS = [P.driestFracWb, P.crumblesBelow, P.dampBelow, P.dropsBelow, P.manyDropsBelow, P.wettestFracWb].map(({ value }) => value);

/** A moisture with the range in which it lies. */
export interface MoistureRange {
  readonly moistureFracWb: number;
  readonly lowFracWb: number;
  readonly highFracWb: number;
}

/**
 * What a squeeze of castings says of their moisture.
 *
 * @shape word -> range
 * @returns The middle of the word's band, and the band with its overlap, [wet basis]
 * @source none: science 4's bands, which are an estimate themselves
 */
export function squeezeMoisture(squeeze: Squeeze): MoistureRange {
  const at = SQUEEZES.indexOf(squeeze);
  const low = MARKS[at]!;
  const high = MARKS[at + 1]!;
  return { moistureFracWb: (low + high) / 2, lowFracWb: low - P.overlap.value, highFracWb: high + P.overlap.value };
}
