import { METRES_PER_FOOT } from '@middenry/domain';

/** What somebody said about a screen; it stands in the address, so a bookmark keeps it. */
export interface WallSettings {
  readonly diagonalInch: number;
  readonly distanceM: number;
  /** `fit`: as many a page as can be read from there; `all`: all on one page. */
  readonly show: 'fit' | 'all';
}

const LEAST_INCH = 5;
const MOST_INCH = 150;
const LEAST_M = 0.3;
const MOST_M = 30;

/** A number as people type it, with either decimal mark; null when it is none or out of reach. */
function readNumber(typed: string | null, least: number, most: number): number | null {
  const value = Number((typed ?? '').trim().replace(',', '.') || Number.NaN);
  return value >= least && value <= most ? value : null;
}

/** Null for what is missing or cannot be; the distance is typed in metres or in feet. */
export function readWallSettings(query: URLSearchParams): { [Key in keyof WallSettings]: WallSettings[Key] | null } {
  const feet = readNumber(query.get('ft'), LEAST_M / METRES_PER_FOOT, MOST_M / METRES_PER_FOOT);
  const show = query.get('show');
  return {
    diagonalInch: readNumber(query.get('inch'), LEAST_INCH, MOST_INCH),
    distanceM: feet === null ? readNumber(query.get('m'), LEAST_M, MOST_M) : feet * METRES_PER_FOOT,
    show: show === 'fit' || show === 'all' ? show : null,
  };
}

/** Whether all is said that a wall needs. */
export function isSetUp(said: ReturnType<typeof readWallSettings>): said is WallSettings {
  return said.diagonalInch !== null && said.distanceM !== null && said.show !== null;
}

/** The same screen again, to be set up. */
export function withoutShow(query: URLSearchParams): string {
  const without = new URLSearchParams(query);
  without.delete('show');
  return `?${without}`;
}
