import * as z from 'zod';
import { Id, LocalDate } from '../common.ts';
import { leads, type RouteSpec } from '../route.ts';

/** Totals in whole grams and minutes, so that a total is the sum of its rows to the gram. */
export const SeasonFigures = z.object({
  harvestedG: z.int(),
  fedWeighedG: z.int(),
  fedEstimatedG: z.int(),
  minutes: z.int(),
  feedings: z.int(),
  checks: z.int(),
  harvests: z.int(),
});
export type SeasonFigures = z.infer<typeof SeasonFigures>;
export const SeasonRow = z.object({ key: z.string(), label: z.string(), figures: SeasonFigures });
export const Season = z.object({
  from: LocalDate,
  to: LocalDate,
  total: SeasonFigures,
  bySite: z.array(SeasonRow),
  byBin: z.array(SeasonRow),
  byMonth: z.array(SeasonRow),
  people: z.int().describe('different people who came to a shift or noted something'),
});
export type Season = z.infer<typeof Season>;
const span = { from: LocalDate, to: LocalDate, siteId: Id.optional() };
const inOrder = [(q: { from: string; to: string }) => q.from <= q.to, { error: 'from must not be after to', path: ['from'] }] as [
  (q: { from: string; to: string }) => boolean,
  { error: string; path: PropertyKey[] },
];
export const SeasonQuery = z.object(span).refine(...inOrder);
export const CSV_PROFILES = ['spreadsheet', 'data'] as const;
/** `spreadsheet`: byte order mark and nothing that could run as a formula; `data`: lossless. */
export const SeasonCsvQuery = z.object({ ...span, profile: z.enum(CSV_PROFILES).default('spreadsheet') }).refine(...inOrder);

export const seasonRoutes = [
  {
    method: 'GET',
    path: '/api/season',
    name: 'readSeason',
    summary: 'What the season adds up to',
    tag: 'season',
    access: leads,
    own: 'site',
    query: SeasonQuery,
    answer: Season,
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/season.csv',
    name: 'readSeasonCsv',
    summary: 'The same as CSV (RFC 4180, formula-safe)',
    tag: 'season',
    access: leads,
    own: 'site',
    query: SeasonCsvQuery,
    status: 200,
    contentType: 'text/csv; charset=utf-8',
  },
] as const satisfies readonly RouteSpec[];
