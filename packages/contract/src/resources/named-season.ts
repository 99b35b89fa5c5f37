/** Seasons of a programme or a site: named spans of days, so that a report is asked for by its name. */
import * as z from 'zod';
import { ClientId, Id, LocalDate, Name } from '../common.ts';
import { leads, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';
import { SeasonDay } from './season.ts';

export const NamedSeason = z.object({
  id: Id,
  siteId: Id.nullable().describe('null: the whole programme'),
  siteName: z.string().nullable(),
  name: z.string(),
  from: LocalDate,
  to: LocalDate,
});
export type NamedSeason = z.infer<typeof NamedSeason>;
const shape = { name: Name, from: SeasonDay, to: SeasonDay };
const inOrder = [(body: { from: string; to: string }) => body.from <= body.to, { error: 'must not be before it begins', path: ['to'] }] as [
  (body: { from: string; to: string }) => boolean,
  { error: string; path: PropertyKey[] },
];
export const NamedSeasonNew = z.strictObject({ id: ClientId, siteId: Id.nullable().default(null), ...shape }).refine(...inOrder);
export const NamedSeasonChange = z.strictObject(shape).refine(...inOrder);

export const namedSeasonRoutes = [
  {
    method: 'GET',
    path: '/api/seasons',
    name: 'listSeasons',
    summary: 'Seasons by name, the latest first',
    tag: 'season',
    access: leads,
    own: 'nothing',
    answer: z.object({ items: z.array(NamedSeason) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/seasons',
    name: 'addSeason',
    summary: 'Give a span of days a name',
    tag: 'season',
    access: leads,
    own: 'site',
    body: NamedSeasonNew,
    answer: NamedSeason,
    status: 201,
  },
  {
    method: 'PUT',
    path: '/api/seasons/:id',
    name: 'changeSeason',
    summary: 'Change its name or its days',
    tag: 'season',
    access: leads,
    own: 'site',
    params: IdParams,
    body: NamedSeasonChange,
    answer: NamedSeason,
    status: 200,
  },
  {
    method: 'DELETE',
    path: '/api/seasons/:id',
    name: 'removeSeason',
    summary: 'Take the name away; what was noted in those days stays',
    tag: 'season',
    access: leads,
    own: 'site',
    params: IdParams,
    status: 204,
  },
] as const satisfies readonly RouteSpec[];
