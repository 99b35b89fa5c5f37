/** Reports that were published: frozen, with what changed since (criteria D14). */
import { SEASON_COLUMN_IDS } from '@middenry/domain';
import * as z from 'zod';
import { ClientId, Id, Instant, LocalDate, Name } from '../common.ts';
import { leads, type RouteSpec } from '../route.ts';
import { KeptSeason } from './kept-season.ts';
import { SeasonTexts } from './named-season.ts';
import { IdParams } from './place.ts';
import { CsvProfileQuery, PDF, SeasonDay, SeasonPdfLanguageQuery, XLSX } from './season.ts';

const head = {
  id: Id,
  siteId: Id.nullable().describe('null: the whole programme'),
  siteName: z.string().nullable(),
  name: z.string(),
  from: LocalDate,
  to: LocalDate,
  publishedAt: Instant,
};
export const PublishedSeasonHead = z.object(head);
export const PublishedSeason = z.object({
  ...head,
  season: KeptSeason.describe('as it was when it was published; a number is null where it was not counted yet'),
  texts: SeasonTexts.describe('what the coordinator said then'),
  changed: z
    .array(z.object({ column: z.enum(SEASON_COLUMN_IDS), before: z.int(), now: z.int(), difference: z.int() }))
    .describe('totals that are another today, since entries were added, corrected or undone'),
});
export type PublishedSeason = z.infer<typeof PublishedSeason>;
export const PublishedSeasonNew = z
  .strictObject({
    id: ClientId,
    siteId: Id.nullable().default(null),
    name: Name,
    from: SeasonDay,
    to: SeasonDay,
    texts: SeasonTexts.default({}),
  })
  .refine((body) => body.from <= body.to, { error: 'must not be before it begins', path: ['to'] });

export const publishedSeasonRoutes = [
  {
    method: 'GET',
    path: '/api/published-seasons',
    name: 'listPublishedSeasons',
    summary: 'Published reports, the newest first',
    tag: 'season',
    access: leads,
    own: 'nothing',
    answer: z.object({ items: z.array(PublishedSeasonHead) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/published-seasons',
    name: 'publishSeason',
    summary: 'Publish a report: from now on it keeps its numbers',
    tag: 'season',
    access: leads,
    own: 'site',
    body: PublishedSeasonNew,
    answer: PublishedSeason,
    sums: true,
    status: 201,
  },
  {
    method: 'GET',
    path: '/api/published-seasons/:id',
    name: 'readPublishedSeason',
    summary: 'A published report, and what changed since',
    tag: 'season',
    access: leads,
    own: 'site',
    params: IdParams,
    answer: PublishedSeason,
    sums: true,
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/published-seasons/:id/report.pdf',
    name: 'readPublishedSeasonPdf',
    summary: 'A published report to print, as it was when it was published',
    tag: 'season',
    access: leads,
    own: 'site',
    params: IdParams,
    query: SeasonPdfLanguageQuery,
    sums: true,
    status: 200,
    contentType: PDF,
  },
  {
    method: 'GET',
    path: '/api/published-seasons/:id/report.csv',
    name: 'readPublishedSeasonCsv',
    summary: 'Every figure of a published report, one a row',
    tag: 'season',
    access: leads,
    own: 'site',
    params: IdParams,
    query: CsvProfileQuery,
    sums: true,
    status: 200,
    contentType: 'text/csv; charset=utf-8',
  },
  {
    method: 'GET',
    path: '/api/published-seasons/:id/report.xlsx',
    name: 'readPublishedSeasonXlsx',
    summary: 'A published report as a workbook, in the units of the programme',
    tag: 'season',
    access: leads,
    own: 'site',
    params: IdParams,
    sums: true,
    status: 200,
    contentType: XLSX,
  },
] as const satisfies readonly RouteSpec[];
