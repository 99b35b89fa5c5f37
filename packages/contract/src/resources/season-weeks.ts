/** A stretch of days week by week, as a strip shows it. */
import * as z from 'zod';
import { LocalDate } from '../common.ts';
import { leads, type RouteSpec } from '../route.ts';
import { SeasonQuery } from './season.ts';

/** Of that week's days inside the stretch. Whole grams and minutes, as in the season. */
export const SeasonWeek = z.object({
  from: LocalDate.describe('its first day, as weeks begin in the programme’s country'),
  fedG: z.int().describe('scraps, weighed and estimated'),
  beddingG: z.int(),
  harvestedG: z.int(),
  minutes: z.int().describe('time given'),
  shifts: z.int().describe('held'),
});
export type SeasonWeek = z.infer<typeof SeasonWeek>;

export const seasonWeekRoutes = [
  {
    method: 'GET',
    path: '/api/season-weeks',
    name: 'readSeasonWeeks',
    summary: 'What went in and out, week by week',
    tag: 'season',
    access: leads,
    own: 'site',
    query: SeasonQuery,
    answer: z.object({ weeks: z.array(SeasonWeek).describe('every week that the stretch touches, the first one first') }),
    sums: true,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
