/** Castings: how wet they were and what they were weighed in, what is in store, and who was given them. */
import { HOW_MEASURED, SQUEEZES } from '@middenry/domain';
import * as z from 'zod';
import { ClientId, Id, Instant, LocalDate, MassKg, MassKgOrZero, Note, PersonRef, Typed } from '../common.ts';
import { grownUps, leads, members, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';

/** Who may have castings. A harvest may also go into the store, ready or to cure. */
export const RECEIVERS = ['plots', 'beds', 'class', 'sale', 'given-away', 'other'] as const;
export const DESTINATIONS = ['plots', 'beds', 'class', 'sale', 'given-away', 'stock', 'curing', 'other'] as const;

/** One bucket as the scale showed it. */
export const BucketNew = z
  .object({
    grossKg: MassKg.describe('container and all'),
    tareKg: MassKgOrZero.max(100, 'must be at most 100 kg').optional().describe('what the container weighs empty'),
    containerId: Id.nullable().optional(),
    typed: Typed.nullable().optional(),
  })
  .strict();
export const Bucket = z.object({
  grossKg: z.number(),
  tareKg: z.number(),
  massKg: z.number().describe('what was in it'),
  containerId: Id.nullable(),
  typed: Typed.nullable(),
});

/** Castings in the bin as the model had it on the evening before, when it had not seen the weight. */
export const HarvestExpected = z.object({
  lowKg: z.number().describe('less had one chance in ten'),
  midKg: z.number().describe('as likely less as more'),
  highKg: z.number().describe('more had one chance in ten'),
});
export type HarvestExpected = z.infer<typeof HarvestExpected>;

const SampleG = z.number().min(0.001, 'must be at least 0.001 g').max(5000, 'must be at most 5000 g');
/** A guess by hand, or a sample dried in a dish and weighed before and after. */
export const MoistureNew = z.discriminatedUnion('how', [
  z.strictObject({ how: z.literal('squeeze'), squeeze: z.enum(SQUEEZES) }),
  z.strictObject({
    how: z.literal('oven'),
    dishG: z.number().min(0).max(5000).describe('the empty dish; 0 when the scale was set to nought with it'),
    wetG: SampleG.describe('dish and wet castings'),
    dryG: SampleG.describe('dish and dry castings'),
  }),
]);
export const Moisture = z.object({
  how: z.enum(['squeeze', 'oven']),
  squeeze: z.enum(SQUEEZES).nullable(),
  dishG: z.number().nullable(),
  wetG: z.number().nullable(),
  dryG: z.number().nullable(),
  moistureFracWb: z.number(),
  lowFracWb: z.number().describe('of a squeeze, which is a guess, the driest it may be; else the same'),
  highFracWb: z.number(),
});
export type Moisture = z.infer<typeof Moisture>;

/** What a harvest says beside its weight; all of it may be left out. */
export const harvestMoreNew = {
  buckets: z.array(BucketNew).max(40, 'must be at most 40 buckets').optional().describe('together they hold `massKg`'),
  moisture: MoistureNew.nullable().optional(),
  screened: z.boolean().optional(),
  volumeL: z.number().min(0.001).max(2000).nullable().optional().describe('measured by the bucket'),
  readyOn: LocalDate.nullable().optional().describe('of castings that cure; left out: three weeks later'),
};
export const harvestMore = {
  buckets: z.array(Bucket),
  moisture: Moisture.nullable(),
  screened: z.boolean().nullable(),
  volumeL: z.number().nullable(),
  readyOn: LocalDate.nullable(),
  correctedKg: z.number().nullable().describe('at 65 % moisture; null where nobody said how wet they were'),
  expected: HarvestExpected.nullable().describe('castings in the bin as expected beforehand; null where the model was not asked in time'),
};

export const CASTINGS_MOVE_KINDS = ['given-out', 'brought-in', 'written-off'] as const;
export const CastingsMove = z.object({
  id: Id,
  siteId: Id,
  kind: z.enum(CASTINGS_MOVE_KINDS),
  massKg: z.number(),
  how: z.enum(HOW_MEASURED),
  typed: Typed.nullable(),
  destination: z.enum(RECEIVERS).nullable().describe('null unless given out'),
  destinationNote: z.string(),
  receiver: z.string().nullable().describe('who took it, for whoever wrote it down and those who lead the site; null for others'),
  note: z.string(),
  by: PersonRef.nullable(),
  mine: z.boolean(),
  on: LocalDate,
  movedAt: Instant,
  undoneAt: Instant.nullable(),
});
export type CastingsMove = z.infer<typeof CastingsMove>;
export const CastingsMoveNew = z
  .object({
    id: ClientId,
    siteId: Id,
    kind: z.enum(CASTINGS_MOVE_KINDS),
    massKg: MassKg,
    how: z.enum(HOW_MEASURED).default('weighed'),
    typed: Typed.nullable().default(null),
    destination: z.enum(RECEIVERS).nullable().default(null),
    destinationNote: z.string().trim().max(200).default(''),
    receiver: z.string().trim().min(1, 'must not be empty').max(80, 'must be at most 80 characters').nullable().default(null),
    note: Note.default(''),
    on: LocalDate.optional().describe('left out: today'),
  })
  .strict()
  .refine((move) => (move.kind === 'given-out') === (move.destination !== null), {
    error: 'must say to whom, and only of what was given out',
    path: ['destination'],
  })
  .refine((move) => move.kind === 'given-out' || move.receiver === null, {
    error: 'belongs to what was given out',
    path: ['receiver'],
  });

/** Castings of one harvest that are not ready yet. */
export const Curing = z.object({
  entryId: Id,
  binId: Id,
  binCode: z.string(),
  massKg: z.number(),
  harvestedOn: LocalDate,
  readyOn: LocalDate,
});
export const CastingsStock = z.object({
  siteId: Id,
  siteName: z.string(),
  readyKg: z.number().describe('to be given out today'),
  curingKg: z.number(),
  curing: z.array(Curing).describe('soonest first'),
});

export const castingsRoutes = [
  {
    method: 'GET',
    path: '/api/castings-stock',
    name: 'readCastingsStock',
    summary: 'Castings in store by site: ready, and curing until when',
    tag: 'castings',
    access: members,
    own: 'nothing',
    query: z.object({ siteId: Id.optional() }),
    answer: z.object({ items: z.array(CastingsStock) }),
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/castings-moves',
    name: 'listCastingsMoves',
    summary: 'What was given out, brought in and written off, newest first',
    tag: 'castings',
    access: members,
    own: 'nothing',
    query: z.object({ siteId: Id.optional() }),
    answer: z.object({ items: z.array(CastingsMove) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/castings-moves',
    name: 'moveCastings',
    summary: 'Give castings out of the store, bring some in, write some off',
    tag: 'castings',
    access: grownUps,
    own: 'nothing',
    body: CastingsMoveNew,
    answer: CastingsMove,
    status: 201,
  },
  {
    method: 'DELETE',
    path: '/api/castings-moves/:id',
    name: 'undoCastingsMove',
    summary: 'Undo what was given out, brought in or written off',
    tag: 'castings',
    access: { anonymous: 'none', pupil: 'none', volunteer: 'own', 'site-lead': 'own', coordinator: 'any' },
    own: 'person',
    params: IdParams,
    answer: CastingsMove,
    status: 200,
  },
  {
    method: 'DELETE',
    path: '/api/castings-moves/:id/receiver',
    name: 'eraseReceiver',
    summary: 'Erase who took castings; how much and what for stay',
    tag: 'castings',
    access: leads,
    own: 'site',
    params: IdParams,
    answer: CastingsMove,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
