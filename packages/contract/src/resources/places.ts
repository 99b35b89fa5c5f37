/** The page on which somebody finds a place: mine first, then what fits me, then all that is open. One call for all of it. */
import { DUTY_KINDS, OBSTACLES } from '@middenry/domain';
import * as z from 'zod';
import { Id, Instant, LocalDate, LocalTime } from '../common.ts';
import { members, type RouteSpec } from '../route.ts';
import { Shift } from './shift.ts';
import { AdultStandingShape, Swap } from './shift-parts.ts';
import { SignUpSeason } from './sign-up-season.ts';

export const PLACE_OBSTACLES = ['not-open-yet', 'wishes-first', 'cap-reached'] as const;

/** A shift in one line of a list. */
export const PlaceCard = z.object({
  id: Id,
  siteId: Id,
  siteName: z.string(),
  title: z.string(),
  localDate: LocalDate,
  localTime: LocalTime,
  startsAt: Instant,
  timeMoved: z.boolean(),
  minutes: z.int(),
  places: z.int(),
  taken: z.int(),
  duties: z.array(z.object({ kind: z.enum(DUTY_KINDS), bins: z.int() })),
  adults: AdultStandingShape,
  waitingCount: z.int(),
  offeredUntil: Instant.nullable().describe('a place is kept for me until then'),
  seasonId: Id.nullable(),
  inTheWay: z
    .enum([...PLACE_OBSTACLES, ...OBSTACLES])
    .nullable()
    .describe('why it does not fit me; I may take it all the same unless the season says no'),
});
export type PlaceCard = z.infer<typeof PlaceCard>;

export const Places = z.object({
  mine: z.array(Shift).describe('shifts to come that I have a place on, the next first'),
  waits: z.array(PlaceCard).describe('shifts that I wait for'),
  fits: z.array(Id).describe('of the open ones the next three that fit me'),
  open: z.array(PlaceCard).describe('with a free place, the soonest first'),
  handOvers: z.array(z.object({ swap: Swap, place: PlaceCard })).describe('places that I may take over'),
  seasons: z.array(SignUpSeason).describe('terms that are not over'),
});
export type Places = z.infer<typeof Places>;

export const placesRoutes = [
  {
    method: 'GET',
    path: '/api/places',
    name: 'readPlaces',
    summary: 'My shifts, and open places of my sites',
    tag: 'shift',
    access: members,
    own: 'nothing',
    query: z.object({ days: z.coerce.number().int().min(1).max(180).default(60), siteId: Id.optional() }),
    answer: Places,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
