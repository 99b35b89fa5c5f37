import type { SeasonPart } from '@middenry/contract';

/** Sections of the report that may be said something to, in the order they are read. */
export const SEASON_PARTS = [
  'opening',
  'figures',
  'materials',
  'castings',
  'problems',
  'months',
  'sites',
  'bins',
  'climate',
] as const satisfies readonly SeasonPart[];
