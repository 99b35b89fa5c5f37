import { SEASON_COLUMN_IDS, SEEN_PROBLEMS, type SeasonColumnId } from '@middenry/domain';
import * as z from 'zod';
import { Id, LocalDate } from '../common.ts';
import { everyone, leads, type RouteSpec } from '../route.ts';
import { DESTINATIONS } from './castings.ts';
import { ClimateFactors } from './climate-factors.ts';

/** Totals in whole grams, millilitres and minutes, so that a total is the sum of its rows to the gram. */
export const SeasonFigures = z.object(Object.fromEntries(SEASON_COLUMN_IDS.map((id) => [id, z.int()])) as Record<SeasonColumnId, z.ZodInt>);
export type SeasonFigures = z.infer<typeof SeasonFigures>;
const share = z.number().nullable().describe('0 to 1; null: there is nothing to divide by');
export const SeasonRates = z.object({
  fedPerWeekG: z.number(),
  castingsPerWeekG: z.number(),
  yieldFrac: share.describe('castings over scraps and bedding, as weighed'),
  weighedFrac: share.describe('of the scraps'),
  estimatedFrac: share.describe('of the scraps'),
  moistureNotedFrac: share.describe('of the castings'),
  givenFrac: share.describe('time given, of the time planned'),
  fedPerHourG: z.number().nullable(),
});
export const SeasonRow = z.object({ key: z.string(), label: z.string(), figures: SeasonFigures, rates: SeasonRates });
export const SeasonMaterial = z.object({
  key: z.string(),
  label: z.string(),
  fedWeighedG: z.int(),
  fedEstimatedG: z.int(),
  beddingG: z.int(),
  perWeekG: z.number(),
  percent: z.int().describe('of all that was given; the shown ones add up to 100'),
});
/** Fewer than five young people are told as null, nobody as 0 (criteria D6). */
export const SeasonPeople = z.object({
  adults: z.int().describe('different adults who came to a shift or noted something'),
  young: z.int().nullable().describe('pupils and others under age; null: one to four'),
});
const tally = {
  found: z.int(),
  solved: z.int(),
  daysToSolveMedian: z.number().nullable(),
  daysToSolveLongest: z.int().nullable(),
};
export const SeasonProblems = z.object({ ...tally, byKind: z.array(z.object({ problem: z.enum(SEEN_PROBLEMS), ...tally })) });
export const SeasonLog = z.object({
  binsKept: z.int(),
  binWeeks: z.int().describe('weeks of bins in these days'),
  binWeeksNoted: z.int().describe('those in which somebody noted something'),
});
const whole = z.object({ low: z.int(), mid: z.int(), high: z.int() });
/** Climate gases, in whole grams of carbon dioxide equivalent: two lines and their difference, each with its range. */
export const SeasonClimate = z.object({
  factors: ClimateFactors,
  scrapsG: whole.describe('scraps counted, and how little and how much they may be as they were measured'),
  notScrapsG: z.int().describe('bedding that was logged as food; it never counts'),
  landfillAvoidedG: whole,
  processG: whole.describe('given off by the bins'),
  differenceG: whole.describe('the first less the second'),
});
const expectedSum = {
  harvests: z.int().describe('weighed ones that are counted here'),
  weighedG: z.int(),
  expectedG: whole.describe(
    'in the bins on the evenings before, each the sum over bins: less had one chance in ten, as likely less as more, more had one chance in ten',
  ),
};
/** What was weighed out beside what had been expected; all in whole grams. */
export const SeasonExpected = z.object({
  ...expectedSum,
  bySite: z.array(z.object({ key: z.string(), label: z.string(), ...expectedSum })),
  notExpected: z.int().describe('weighed harvests of which nothing was expected beforehand; they are in no sum'),
});
/** Castings that left the programme's hands, and the balance of its stores; all in whole grams. */
export const SeasonCastings = z.object({
  givenOut: z.array(
    z.object({
      destination: z.enum(DESTINATIONS),
      fromBinG: z.int().describe('of harvests of these days, straight from the bin'),
      fromStoreG: z.int(),
      grams: z.int().describe('both together'),
      ml: z.int(),
      percent: z.int().describe('of all that was given out; the shown ones add up to 100'),
    }),
  ),
  store: z.object({
    beginG: z.int().describe('in store before the first day'),
    harvestedG: z.int().describe('came in of harvests; what cures is in store too'),
    broughtInG: z.int(),
    givenOutG: z.int(),
    writtenOffG: z.int(),
    endG: z.int().describe('in store after the last day'),
    curingG: z.int().describe('of that, not ready yet on the last day'),
  }),
  expected: SeasonExpected.nullable().describe('null: published before this was told'),
});
/** The same days a year before. */
export const SeasonBefore = z.object({
  from: LocalDate,
  to: LocalDate,
  total: SeasonFigures,
  people: SeasonPeople,
  problems: SeasonProblems,
  log: SeasonLog,
});
export const Season = z.object({
  from: LocalDate,
  to: LocalDate,
  days: z.int().describe('that have begun; rates are over these'),
  total: SeasonFigures,
  rates: SeasonRates,
  bySite: z.array(SeasonRow),
  byBin: z.array(SeasonRow),
  byMonth: z.array(SeasonRow),
  byMaterial: z.array(SeasonMaterial),
  destinations: z.array(z.object({ destination: z.enum(DESTINATIONS), grams: z.int(), percent: z.int() })),
  castings: SeasonCastings.nullable().describe('null: published before this was told'),
  people: SeasonPeople,
  problems: SeasonProblems,
  log: SeasonLog,
  climate: SeasonClimate.nullable().describe('null: nobody confirmed factors and their source'),
  before: SeasonBefore,
});
export type Season = z.infer<typeof Season>;
/** Before and after these nobody keeps a log; a span of millennia is a slip of the finger. */
export const SeasonDay = LocalDate.refine((day) => day >= '1970-01-01' && day <= '2199-12-31', 'must lie from 1970 to 2199');
const span = { from: SeasonDay, to: SeasonDay, siteId: Id.optional() };
const inOrder = [(q: { from: string; to: string }) => q.from <= q.to, { error: 'from must not be after to', path: ['from'] }] as [
  (q: { from: string; to: string }) => boolean,
  { error: string; path: PropertyKey[] },
];
export const SeasonQuery = z.object(span).refine(...inOrder);
export const CSV_PROFILES = ['spreadsheet', 'data'] as const;
export const CsvProfileQuery = z.object({ profile: z.enum(CSV_PROFILES).default('spreadsheet') });
/** `spreadsheet`: byte order mark and nothing that could run as a formula; `data`: lossless. */
export const SeasonCsvQuery = z.object({ ...span, profile: z.enum(CSV_PROFILES).default('spreadsheet') }).refine(...inOrder);

export const SEASON_PDF_LANGUAGES = ['en', 'es'] as const;
export type SeasonPdfLanguage = (typeof SEASON_PDF_LANGUAGES)[number];
export const SeasonPdfLanguageQuery = z.object({ language: z.enum(SEASON_PDF_LANGUAGES).default('en') });
export const SeasonPdfQuery = z.object({ ...span, ...SeasonPdfLanguageQuery.shape }).refine(...inOrder);
const LinkFileParams = z.object({ file: z.string().regex(/^[\w-]{22,64}\.csv$/) });
/** Left out: from the first of January until today. */
const SeasonLinkQuery = z
  .object({ from: SeasonDay.optional(), to: SeasonDay.optional(), profile: z.enum(CSV_PROFILES).default('spreadsheet') })
  .refine(({ from, to }) => from === undefined || to === undefined || from <= to, { error: 'from must not be after to', path: ['from'] });
/** As ISO 32000 has it. */
export const PDF = 'application/pdf';

/** A workbook as ISO/IEC 29500 has it. */
export const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** The published schema of a season as JSON (draft 2020-12): inside a major version fields are only added (criteria D10). */
export const seasonJsonSchema = (): object => ({
  title: 'Season of a programme of worm bins',
  ...z.toJSONSchema(Season, { target: 'draft-2020-12' }),
});

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
    sums: true,
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
    sums: true,
    status: 200,
    contentType: 'text/csv; charset=utf-8',
  },
  {
    method: 'GET',
    path: '/api/season-report.csv',
    name: 'readSeasonReportCsv',
    summary: 'Every figure of the report, one a row: section, name, figure, value, unit',
    tag: 'season',
    access: leads,
    own: 'site',
    query: SeasonCsvQuery,
    sums: true,
    status: 200,
    contentType: 'text/csv; charset=utf-8',
  },
  {
    method: 'GET',
    path: '/api/season.xlsx',
    name: 'readSeasonXlsx',
    summary: 'The same as a workbook, in the units of the programme, with true dates and no formulas',
    tag: 'season',
    access: leads,
    own: 'site',
    query: SeasonQuery,
    sums: true,
    status: 200,
    contentType: XLSX,
  },
  {
    method: 'GET',
    path: '/api/season.pdf',
    name: 'readSeasonPdf',
    summary: 'The same to print: tagged, with a title and a language',
    tag: 'season',
    access: leads,
    own: 'site',
    query: SeasonPdfQuery,
    sums: true,
    status: 200,
    contentType: PDF,
  },
  {
    method: 'GET',
    path: '/season-link/:file',
    name: 'readSeasonLink',
    summary: 'The totals of a link as CSV, for a spreadsheet that asks again and again; no names',
    tag: 'season',
    access: everyone,
    own: 'nothing',
    params: LinkFileParams,
    query: SeasonLinkQuery,
    sums: true,
    status: 200,
    contentType: 'text/csv; charset=utf-8',
  },
  {
    method: 'GET',
    path: '/api/season.schema.json',
    name: 'readSeasonSchema',
    summary: 'The JSON Schema of the season',
    tag: 'season',
    access: everyone,
    own: 'nothing',
    status: 200,
    contentType: 'application/schema+json; charset=utf-8',
  },
] as const satisfies readonly RouteSpec[];
