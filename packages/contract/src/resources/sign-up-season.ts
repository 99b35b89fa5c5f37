/** A term of sign-up at a site: first come with a cap at first, or wishes and a seeded draw (criteria C4). */
import { SIGN_UP_WAYS } from '@middenry/domain';
import * as z from 'zod';
import { ClientId, Empty, Id, Instant, LocalDate, Name } from '../common.ts';
import { grownUps, leads, members, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';

export const SignUpSeason = z.object({
  id: Id,
  siteId: Id,
  siteName: z.string(),
  name: z.string(),
  from: LocalDate,
  to: LocalDate,
  way: z.enum(SIGN_UP_WAYS),
  opensAt: Instant.describe('places can be taken from then on; where they are drawn, wishes are taken until then'),
  cap: z.int().describe('open shifts that one person may hold in the first 48 hours'),
  capUntil: Instant,
  seedHash: z.string().describe('SHA-256 of the seed in hex: known before the draw, so that nobody could choose another'),
  wishLists: z.int().describe('people who said what they wish'),
  myWishes: z.object({ most: z.int(), shiftIds: z.array(Id).describe('the most wanted first') }).nullable(),
  draw: z
    .object({
      at: Instant,
      seed: z.string(),
      places: z.int().describe('places given'),
      mine: z.array(Id).describe('shifts that I won'),
      same: z.boolean().describe('drawn again from the same seed and wishes it gives the same places'),
    })
    .nullable(),
});
export type SignUpSeason = z.infer<typeof SignUpSeason>;
export const SignUpSeasonNew = z
  .object({
    id: ClientId,
    siteId: Id,
    name: Name,
    from: LocalDate,
    to: LocalDate,
    way: z.enum(SIGN_UP_WAYS),
    opensAt: Instant,
    cap: z.int().min(1).max(20).default(2),
  })
  .strict();
export const SignUpSeasonChange = z
  .object({ name: Name, to: LocalDate, way: z.enum(SIGN_UP_WAYS), opensAt: Instant, cap: z.int().min(1).max(20) })
  .partial()
  .strict();
export const WishesNew = z
  .object({
    most: z.int().min(1).max(60).describe('places that I want at most'),
    shiftIds: z.array(Id).max(100).describe('the most wanted first; none: I wish nothing'),
  })
  .strict();

export const signUpSeasonRoutes = [
  {
    method: 'GET',
    path: '/api/sign-up-seasons',
    name: 'listSignUpSeasons',
    summary: 'How places are shared out, term by term',
    tag: 'shift',
    access: members,
    own: 'nothing',
    query: z.object({ siteId: Id.optional() }),
    answer: z.object({ items: z.array(SignUpSeason) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/sign-up-seasons',
    name: 'addSignUpSeason',
    summary: 'Say how places of a term are shared out',
    tag: 'shift',
    access: leads,
    own: 'site',
    body: SignUpSeasonNew,
    answer: SignUpSeason,
    status: 201,
  },
  {
    method: 'PATCH',
    path: '/api/sign-up-seasons/:id',
    name: 'changeSignUpSeason',
    summary: 'Change a term of sign-up that was not drawn yet',
    tag: 'shift',
    access: leads,
    own: 'site',
    params: IdParams,
    body: SignUpSeasonChange,
    answer: SignUpSeason,
    status: 200,
  },
  {
    method: 'PUT',
    path: '/api/sign-up-seasons/:id/wishes',
    name: 'putWishes',
    summary: 'Say which shifts I wish for',
    tag: 'shift',
    access: grownUps,
    own: 'nothing',
    params: IdParams,
    body: WishesNew,
    answer: SignUpSeason,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/sign-up-seasons/:id/draw',
    name: 'drawPlaces',
    summary: 'Draw places by wishes, once',
    tag: 'shift',
    access: leads,
    own: 'site',
    params: IdParams,
    body: Empty,
    answer: SignUpSeason,
    status: 201,
  },
] as const satisfies readonly RouteSpec[];
