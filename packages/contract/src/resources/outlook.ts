/** The board and a bin's outlook: what is so, why, what helps, what comes. Days are local dates. */
import {
  CAUTION_IDS,
  DUTY_KINDS,
  DUTY_WHYS,
  FEED_LIMITS,
  HOLD_REASONS,
  LOOKS,
  REASON_CODES,
  REMEDY_IDS,
  ROW_QUANTITIES,
  SEEN_KINDS,
  SIGNAL_IDS,
  SURPRISE_CAUSES,
} from '@middenry/domain';
import * as z from 'zod';
import { Band, Id, Instant, LocalDate, LocalTime, SpreadShape } from '../common.ts';
import { members, type RouteSpec } from '../route.ts';
import { FlagNote } from './flag-note.ts';
import { IdParams } from './place.ts';

export const Reason = z.object({
  code: z.enum(REASON_CODES),
  values: z.record(z.string(), z.union([z.number(), z.string()])).describe('numbers in SI units; a key ending in `On` is a local date'),
  entryIds: z.array(Id),
});
const RemedyStep = z.object({
  id: z.enum(REMEDY_IDS),
  zone: z.int().nullable(),
  massKg: z.number().nullable(),
});
export const Remedy = RemedyStep.extend({
  also: RemedyStep.nullable().describe('a second thing to do with it, where the two help clearly more than either'),
  effortMinutes: z.number().describe('of both'),
  probabilityBefore: z.number(),
  probabilityAfter: z.number(),
  cautions: z.array(z.enum(CAUTION_IDS)),
});
export const Ask = z.object({
  look: z.enum(LOOKS),
  zone: z.int().nullable(),
  narrowedFrac: z.number().describe('share of the doubt that this look takes away on average'),
});
export const Flag = z.object({
  signal: z.enum(SIGNAL_IDS),
  band: Band,
  /** Both have one cause, and that flag speaks for this one. */
  partOf: z.enum(SIGNAL_IDS).nullable(),
  probability: z.number(),
  holdsNow: z.boolean(),
  firstLikelyOn: LocalDate.nullable(),
  /** First day of the present unbroken stretch in this band, as far as the log tells. */
  sinceOn: LocalDate.nullable(),
  zone: z.int().nullable(),
  reasons: z.array(Reason),
  remedies: z.array(Remedy),
  ask: Ask.nullable().describe('the one look that would make this surest'),
});
export type Flag = z.infer<typeof Flag>;

export const FeedAdviceShape = z.object({
  massKg: z.number(),
  lowKg: z.number(),
  highKg: z.number(),
  zones: z.array(z.int()),
  beddingKg: z.number(),
  hold: z.enum(HOLD_REASONS).nullable(),
  limit: z.enum(FEED_LIMITS).nullable().describe('why not more; null when it holds'),
  troubleProbability: z.number().nullable().describe('that food runs out of air or piles up within 14 days if this is fed'),
  estimateValid: z.boolean(),
});
export const Duty = z.object({
  kind: z.enum(DUTY_KINDS),
  fromOn: LocalDate,
  dueOn: LocalDate,
  overdueOn: LocalDate,
  why: z.enum(DUTY_WHYS),
  overdue: z.boolean(),
});
export const Trend = z.object({
  quantity: z.enum(['airlessFrac', 'moistureFracWb', 'foodInHandDays', 'bedTempC', 'castingsKgWb']),
  values: z.array(z.object({ on: LocalDate, value: z.number() })).max(60),
  lowNormal: z.number(),
  highNormal: z.number(),
});

export const BoardBin = z.object({
  id: Id,
  code: z.string(),
  name: z.string(),
  siteId: Id,
  siteName: z.string(),
  kind: z.string(),
  placeOrder: z.int(),
  state: z.enum(['active', 'resting']),
  band: Band,
  /** Flags in `watch` or `act`, worst first; empty when settled. */
  flags: z.array(Flag),
  notes: z.array(FlagNote).describe('what coordinators said of these flags, while it holds'),
  isAside: z.boolean().describe('every flag that gives it its band is put aside; the band stays'),
  lastFedOn: LocalDate.nullable(),
  lastCheckedOn: LocalDate.nullable(),
  foodInHandDays: z.number(),
  castingsKg: z.number(),
  advice: FeedAdviceShape,
  trend: Trend,
  anewSince: Instant.nullable().describe(
    'something was noted then that is not in here yet, as it is being worked out, for five seconds at most; null when all is in',
  ),
});
export type BoardBin = z.infer<typeof BoardBin>;
export const Uncovered = z.object({
  shiftId: Id,
  siteId: Id,
  siteName: z.string(),
  localDate: LocalDate,
  localTime: LocalTime,
  minutes: z.int(),
  places: z.int(),
  taken: z.int(),
  title: z.string(),
});
export const WaitingBin = z.object({ id: Id, code: z.string(), name: z.string(), siteId: Id, siteName: z.string() });
export const Board = z.object({
  asOf: Instant,
  today: LocalDate,
  counts: z.object({ act: z.int(), watch: z.int(), unknown: z.int(), settled: z.int() }),
  aside: z.int().describe('bins that are put aside; they are counted in their band too'),
  bins: z.array(BoardBin),
  waiting: z
    .array(WaitingBin)
    .describe('bins of which nothing is known yet today as they are being worked out; they are in no count; ask again in a few seconds'),
  uncovered: z.array(Uncovered).describe('shifts of the next 14 days with open places, soonest first'),
});
export type Board = z.infer<typeof Board>;

const dayRow = z.object({
  on: LocalDate,
  ...(Object.fromEntries(ROW_QUANTITIES.map((q) => [q, SpreadShape])) as Record<(typeof ROW_QUANTITIES)[number], typeof SpreadShape>),
});
export const ZoneNow = z.object({
  zone: z.int(),
  foodLeftKg: SpreadShape,
  leftFrac: SpreadShape,
  layerDepthM: SpreadShape,
  airDepthM: SpreadShape,
  airlessFrac: SpreadShape,
  lastFedOn: LocalDate.nullable(),
  lastFedKg: z.number(),
  isNext: z.boolean(),
});
export const Surprise = z.object({
  on: LocalDate,
  entryId: Id.nullable(),
  kind: z.enum(SEEN_KINDS),
  zone: z.int().nullable(),
  probability: z.number().describe('what it had been given beforehand'),
  causes: z.array(z.enum(SURPRISE_CAUSES)),
});
export const PlannedFeeding = z.object({
  on: LocalDate,
  zone: z.int(),
  massKg: z.number(),
  from: z.enum(['shift', 'habit']).describe('a duty on a shift, or what this bin is usually given'),
});
export const LaidZone = z.object({
  zone: z.int(),
  materials: z.array(z.object({ materialId: z.string(), name: z.string() })).describe('what was fed there last, the most of it first'),
});
export const NOTED_KINDS = ['fed', 'seen', 'taken', 'cared'] as const;
export const NotedDay = z.object({
  on: LocalDate,
  kind: z.enum(NOTED_KINDS).describe('fed: a feeding; seen: a check or note; taken: a harvest; cared: care, or worms that came or went'),
  times: z.int(),
});
export const BinOutlook = z.object({
  binId: Id,
  today: LocalDate,
  band: Band,
  flags: z.array(Flag).describe('every signal, worst first, settled ones too'),
  zones: z.array(ZoneNow),
  now: z.object({
    foodInHandDays: SpreadShape,
    wormsKg: SpreadShape,
    moistureFracWb: SpreadShape,
    airFilledPorosity: SpreadShape,
    bedTempC: SpreadShape,
    ph: SpreadShape,
    cnRatio: SpreadShape,
    castingsKg: SpreadShape,
    levelM: SpreadShape,
  }),
  lastFedOn: LocalDate.nullable(),
  lastCheckedOn: LocalDate.nullable(),
  lastHarvestOn: LocalDate.nullable(),
  advice: FeedAdviceShape,
  duties: z.array(Duty),
  surprises: z.array(Surprise).describe('what was seen of late against all expectation, oldest first'),
  planned: z.array(PlannedFeeding).describe('feedings that the forecast counts on, soonest first'),
  notes: z.array(FlagNote).describe('what coordinators and site leads said of its flags, while it holds'),
  laid: z.array(LaidZone).describe('zones that were ever fed'),
  noted: z.array(NotedDay).describe('what the log holds of the days of the history, each kind once a day'),
  history: z.array(dayRow),
  forecast: z.array(dayRow),
});
export type BinOutlook = z.infer<typeof BinOutlook>;

export const outlookRoutes = [
  {
    method: 'GET',
    path: '/api/board',
    name: 'readBoard',
    summary: 'Every bin at a glance',
    tag: 'outlook',
    access: members,
    own: 'nothing',
    query: z.object({ siteId: Id.optional() }),
    answer: Board,
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/bins/:id/outlook',
    name: 'readOutlook',
    summary: 'One bin: state, why, what helps, what comes',
    tag: 'outlook',
    access: members,
    own: 'nothing',
    params: IdParams,
    query: z.object({ historyDays: z.coerce.number().int().min(1).max(800).default(84) }),
    answer: BinOutlook,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
