/** Seasons of a programme or a site: named spans of days, so that a report is asked for by its name. */
import * as z from 'zod';
import { ClientId, Id, LocalDate, Name } from '../common.ts';
import { leads, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';
import { SeasonDay } from './season.ts';

/** Sections of a report that a coordinator may say something to, in the order they are read. */
export const SEASON_PARTS = ['opening', 'figures', 'materials', 'castings', 'problems', 'months', 'sites', 'bins', 'climate'] as const;
export type SeasonPart = (typeof SEASON_PARTS)[number];
const MOST_LETTERS = 2000;
/** Plain text, a paragraph for each section that has one; it is shown as it stands and never as markup. */
export const SeasonTexts = z.partialRecord(z.enum(SEASON_PARTS), z.string().trim().max(MOST_LETTERS));
export type SeasonTexts = z.infer<typeof SeasonTexts>;

export const NamedSeason = z.object({
  id: Id,
  siteId: Id.nullable().describe('null: the whole programme'),
  siteName: z.string().nullable(),
  name: z.string(),
  from: LocalDate,
  to: LocalDate,
  texts: SeasonTexts,
  revision: z.int().describe('how many times it was written; goes into If-Match of a change'),
});
export type NamedSeason = z.infer<typeof NamedSeason>;
const shape = { name: Name, from: SeasonDay, to: SeasonDay };
const inOrder = [(body: { from: string; to: string }) => body.from <= body.to, { error: 'must not be before it begins', path: ['to'] }] as [
  (body: { from: string; to: string }) => boolean,
  { error: string; path: PropertyKey[] },
];
export const NamedSeasonNew = z.strictObject({ id: ClientId, siteId: Id.nullable().default(null), ...shape }).refine(...inOrder);
export const NamedSeasonChange = z
  .strictObject({ ...shape, texts: SeasonTexts.optional().describe('left out: they stay') })
  .refine(...inOrder);

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
    summary: 'Change its name, its days or what is said to them; If-Match bears the revision that was read',
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
