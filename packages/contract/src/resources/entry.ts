/** Everything people note at a bin. An entry is made once, corrected with history, never lost. */
import { HOW_MEASURED, LEFTOVERS, PREPARATIONS, SMELLS, SQUEEZES, VISITORS, WORM_SIGHTINGS } from '@middenry/domain';
import * as z from 'zod';
import { Id, Instant, MassKg, MassKgOrZero, PersonRef, Typed } from '../common.ts';
import { grownUps, members, owners, type RouteSpec } from '../route.ts';
import { Care, CareNew, NoteEntry, NoteNew, Worms, WormsNew } from './care.ts';
import { DESTINATIONS, harvestMore, harvestMoreNew } from './castings.ts';
import { entryBase, entryTail, Zone } from './entry-base.ts';
import { IdParams } from './place.ts';

export const FeedingItem = z
  .object({
    materialId: z.string().max(80),
    massKg: MassKg,
    how: z.enum(HOW_MEASURED),
    preparation: z.enum(PREPARATIONS).default('chopped'),
    containerId: Id.nullable().default(null),
    containerCount: z.number().min(0.1).max(100).nullable().default(null),
    typed: Typed.nullable().default(null),
    tareKg: MassKgOrZero.max(100, 'must be at most 100 kg').optional().describe('what it was weighed in, and `massKg` is without'),
  })
  .strict();
export const FeedingNew = z
  .object({
    ...entryBase,
    zone: Zone,
    items: z.array(FeedingItem).min(1, 'must hold at least one food').max(20),
    beddingKg: MassKgOrZero.default(0),
    beddingMaterialId: z.string().max(80).nullable().default(null),
    waterKg: MassKgOrZero.default(0),
  })
  .strict();

export const CheckNew = z
  .object({
    ...entryBase,
    leftover: z
      .array(z.object({ zone: Zone, left: z.enum(LEFTOVERS) }))
      .max(12)
      .default([]),
    squeeze: z.enum(SQUEEZES).nullable().default(null),
    smell: z.enum(SMELLS).nullable().default(null),
    bedTempC: z.number().min(-30).max(80).nullable().default(null),
    worms: z.enum(WORM_SIGHTINGS).nullable().default(null),
    ph: z.number().min(0).max(14).nullable().default(null),
    visitors: z.array(z.enum(VISITORS)).max(VISITORS.length).default([]),
  })
  .strict();

export const HarvestNew = z
  .object({
    ...entryBase,
    massKg: MassKg,
    how: z.enum(HOW_MEASURED).default('weighed'),
    typed: Typed.nullable().default(null),
    destination: z.enum(DESTINATIONS),
    destinationNote: z.string().trim().max(200).default(''),
    ...harvestMoreNew,
  })
  .strict();

export const Feeding = z.object({
  ...entryTail,
  kind: z.literal('feeding'),
  zone: z.int(),
  items: z.array(
    z.object({
      materialId: z.string(),
      materialName: z.string(),
      massKg: z.number(),
      how: z.enum(HOW_MEASURED),
      preparation: z.enum(PREPARATIONS),
      containerId: Id.nullable(),
      containerCount: z.number().nullable(),
      typed: Typed.nullable(),
      tareKg: z.number(),
    }),
  ),
  massKg: z.number(),
  beddingKg: z.number(),
  beddingMaterialId: z.string().nullable(),
  waterKg: z.number(),
});
export const Check = z.object({
  ...entryTail,
  kind: z.literal('check'),
  leftover: z.array(z.object({ zone: z.int(), left: z.enum(LEFTOVERS) })),
  squeeze: z.enum(SQUEEZES).nullable(),
  smell: z.enum(SMELLS).nullable(),
  bedTempC: z.number().nullable(),
  worms: z.enum(WORM_SIGHTINGS).nullable(),
  ph: z.number().nullable(),
  visitors: z.array(z.enum(VISITORS)),
});
export const Harvest = z.object({
  ...entryTail,
  kind: z.literal('harvest'),
  massKg: z.number(),
  how: z.enum(HOW_MEASURED),
  typed: Typed.nullable(),
  destination: z.enum(DESTINATIONS),
  destinationNote: z.string(),
  ...harvestMore,
});

export const Entry = z.discriminatedUnion('kind', [Feeding, Check, Harvest, Care, NoteEntry, Worms]);
export type Entry = z.infer<typeof Entry>;

/** The whole entry as it should have been; its kind stays, its id is in the address. */
export const EntryCorrection = z.discriminatedUnion('kind', [
  z.strictObject({ ...FeedingNew.shape, kind: z.literal('feeding') }).omit({ id: true, deviceAt: true }),
  z.strictObject({ ...CheckNew.shape, kind: z.literal('check') }).omit({ id: true, deviceAt: true }),
  z.strictObject({ ...HarvestNew.shape, kind: z.literal('harvest') }).omit({ id: true, deviceAt: true }),
  z.strictObject({ ...CareNew.shape, kind: z.literal('care') }).omit({ id: true, deviceAt: true }),
  z.strictObject({ ...NoteNew.shape, kind: z.literal('note') }).omit({ id: true, deviceAt: true }),
  z.strictObject({ ...WormsNew.shape, kind: z.literal('worms') }).omit({ id: true, deviceAt: true }),
]);
/** One earlier version of an entry, newest first. */
export const EntryVersion = z.object({ replacedAt: Instant, replacedBy: PersonRef.nullable(), entry: Entry });

export const entryRoutes = [
  {
    method: 'POST',
    path: '/api/feedings',
    name: 'logFeeding',
    summary: 'Log a feeding',
    tag: 'entry',
    access: grownUps,
    own: 'nothing',
    body: FeedingNew,
    answer: Feeding,
    status: 201,
  },
  {
    method: 'POST',
    path: '/api/checks',
    name: 'logCheck',
    summary: 'Log what was seen',
    tag: 'entry',
    access: grownUps,
    own: 'nothing',
    body: CheckNew,
    answer: Check,
    status: 201,
  },
  {
    method: 'POST',
    path: '/api/harvests',
    name: 'logHarvest',
    summary: 'Log a harvest',
    tag: 'entry',
    access: grownUps,
    own: 'nothing',
    body: HarvestNew,
    answer: Harvest,
    status: 201,
  },
  {
    method: 'GET',
    path: '/api/bins/:id/entries',
    name: 'listEntries',
    summary: "A bin's log, newest first",
    tag: 'entry',
    access: members,
    own: 'nothing',
    params: IdParams,
    query: z.object({ before: Instant.optional(), limit: z.coerce.number().int().min(1).max(200).default(50) }),
    answer: z.object({ items: z.array(Entry), more: z.boolean() }),
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/entries/:id',
    name: 'readEntry',
    summary: 'One entry',
    tag: 'entry',
    access: members,
    own: 'nothing',
    params: IdParams,
    answer: Entry,
    status: 200,
  },
  {
    method: 'DELETE',
    path: '/api/entries/:id',
    name: 'undoEntry',
    summary: 'Undo an entry; its history stays',
    tag: 'entry',
    access: owners,
    own: 'entry',
    params: IdParams,
    answer: Entry,
    status: 200,
  },
  {
    method: 'PUT',
    path: '/api/entries/:id',
    name: 'correctEntry',
    summary: 'Correct an entry (If-Match: its revision); what it said before is kept',
    tag: 'entry',
    access: owners,
    own: 'entry',
    params: IdParams,
    body: EntryCorrection,
    answer: Entry,
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/entries/:id/history',
    name: 'readEntryHistory',
    summary: 'What an entry said before it was corrected or undone',
    tag: 'entry',
    access: members,
    own: 'nothing',
    params: IdParams,
    answer: z.object({ items: z.array(EntryVersion) }),
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
