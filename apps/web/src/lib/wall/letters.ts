/** How large a bin's code must be to be read across a room. */
const MM_PER_INCH = 25.4;
const MM_PER_M = 1000;
const RADIANS_PER_ARC_MINUTE = Math.PI / (180 * 60);
/** Half of the 20 arc minutes that a capital should fill in the eye (criteria A9). */
const HALF_ANGLE = 10 * RADIANS_PER_ARC_MINUTE;
/** Height of a capital and widths of letters in our face at its heaviest, as a browser measured them at 1000 px. */
const CAP_EM = 0.672;
const DIGIT_EM = 0.663;
const LETTER_EM = 0.73;
const WIDE_EM = 0.9;

/** A screen: its picture in CSS pixels and its size as it is sold. */
export interface Glass {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly diagonalInch: number;
}

export const mmPerPx = ({ widthPx, heightPx, diagonalInch }: Glass): number => (diagonalInch * MM_PER_INCH) / Math.hypot(widthPx, heightPx);

/** Height of a capital that fills 20 arc minutes at this distance: 2 D tan(10'). */
export const capHeightMm = (distanceM: number): number => 2 * distanceM * Math.tan(HALF_ANGLE) * MM_PER_M;

/** Size of type whose capitals are that high on this screen. */
export const letterPx = (distanceM: number, glass: Glass): number => Math.ceil(capHeightMm(distanceM) / mmPerPx(glass) / CAP_EM);

/** From how far type of this size can be read on this screen. */
export const farthestM = (sizePx: number, glass: Glass): number =>
  (sizePx * CAP_EM * mmPerPx(glass)) / MM_PER_M / (2 * Math.tan(HALF_ANGLE));

/** Width of a code as a multiple of its size, never less than it is. */
export function widthEm(code: string): number {
  return [...code].reduce((sum, letter) => sum + (/\d/.test(letter) ? DIGIT_EM : /[MWmw@]/.test(letter) ? WIDE_EM : LETTER_EM), 0);
}
