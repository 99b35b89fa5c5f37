import { beddingGiven } from './bedding-given.ts';
import { castingsCorrected, castingsMoistureNoted } from './castings-corrected.ts';
import { castingsVolume, castingsVolumeMeasured } from './castings-volume.ts';
import { checks } from './checks.ts';
import { fedEstimated } from './fed-estimated.ts';
import { fedWeighed } from './fed-weighed.ts';
import { feedings } from './feedings.ts';
import { harvested } from './harvested.ts';
import { harvests } from './harvests.ts';
import { minutesGiven } from './minutes-given.ts';
import type { SeasonColumn } from './season-row.ts';
import { minutesPlanned, placesCame, placesPlanned, placesTaken, shiftsPlanned } from './shifts-held.ts';

export const SEASON_COLUMN_IDS = [
  'harvestedG',
  'fedWeighedG',
  'fedEstimatedG',
  'minutes',
  'feedings',
  'checks',
  'harvests',
  'beddingG',
  'castingsMl',
  'castingsMeasuredMl',
  'castingsCorrectedG',
  'castingsMoistureNotedG',
  'shifts',
  'places',
  'placesTaken',
  'placesCame',
  'minutesPlanned',
] as const;
export type SeasonColumnId = (typeof SEASON_COLUMN_IDS)[number];

/** Every column of the season report, in the order it is printed. */
export const SEASON_COLUMNS: Readonly<Record<SeasonColumnId, SeasonColumn>> = {
  harvestedG: harvested,
  fedWeighedG: fedWeighed,
  fedEstimatedG: fedEstimated,
  minutes: minutesGiven,
  feedings,
  checks,
  harvests,
  beddingG: beddingGiven,
  castingsMl: castingsVolume,
  castingsMeasuredMl: castingsVolumeMeasured,
  castingsCorrectedG: castingsCorrected,
  castingsMoistureNotedG: castingsMoistureNoted,
  shifts: shiftsPlanned,
  places: placesPlanned,
  placesTaken,
  placesCame,
  minutesPlanned,
};
