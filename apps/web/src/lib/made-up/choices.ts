/** What the page needs of the domain without fetching all that steps a bin; a test holds the lists equal. */
import type { MadeUpBed, MadeUpMove, MadeUpSize, MadeUpWorms } from '@middenry/domain';

export type { MadeUpBed, MadeUpMove, MadeUpSize, MadeUpWorms };

export const MADE_UP_SIZES = ['small', 'middle', 'large'] as const satisfies readonly MadeUpSize[];
export const MADE_UP_BEDS = ['card', 'leaves', 'straw', 'thin'] as const satisfies readonly MadeUpBed[];
export const MADE_UP_WORMS = ['few', 'some', 'many'] as const satisfies readonly MadeUpWorms[];
export const MADE_UP_DAYS = 84;
