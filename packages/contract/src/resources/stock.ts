/** What a site knows for itself: weighed containers, figures it filled in, bedding in store, air readings. */
import * as z from 'zod';
import { ClientId, Id, Instant, LocalDate, MassKg, Note, PersonRef } from '../common.ts';
import { coordinators, grownUps, leads, members, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';
import { Container, Material } from './stuff.ts';

export const WeighingNew = z
  .object({
    id: ClientId,
    massKg: MassKg.describe('what it weighed, container and all'),
    filled: z.number().min(0.1).max(1).default(1).describe('how full it was'),
  })
  .strict();

const Frac = z.number().min(0).max(1);
export const MaterialFigures = z
  .object({
    moistureFracWb: Frac,
    carbonFracDb: Frac,
    nitrogenFracDb: Frac,
    bulkDensityKgM3: z.number().min(5).max(3000),
  })
  .partial()
  .extend({ source: z.string().trim().min(1, 'must say where the figures are from').max(200) })
  .strict();
const MaterialParams = z.object({ id: z.string().min(1).max(80) });

export const BEDDING_MOVE_KINDS = ['brought', 'counted', 'thrown-away'] as const;
export const BeddingStock = z.object({
  siteId: Id,
  materialId: z.string(),
  materialName: z.string(),
  massKg: z.number().describe('in store now, never below 0'),
  usedPerWeekKg: z.number().describe('of the last four weeks'),
  missingKg: z.number().describe('what bins used beyond what was ever brought or counted'),
  countedAt: Instant.nullable(),
  plannedKg: z.number().describe('that accepted plans of scraps will take on shifts to come'),
  runsOutOn: LocalDate.nullable().describe('by the use of the last four weeks and those plans; null: nobody uses any'),
});
export const BeddingMove = z.object({
  id: Id,
  siteId: Id,
  materialId: z.string(),
  materialName: z.string(),
  kind: z.enum(BEDDING_MOVE_KINDS),
  massKg: z.number(),
  note: z.string(),
  by: PersonRef.nullable(),
  movedAt: Instant,
});
export const BeddingMoveNew = z
  .object({
    id: ClientId,
    siteId: Id,
    materialId: z.string().min(1).max(80),
    kind: z.enum(BEDDING_MOVE_KINDS),
    massKg: z.number().min(0, 'must not be negative').max(5000, 'must be at most 5000 kg'),
    note: Note.default(''),
  })
  .strict();

export const AirReading = z.object({ on: LocalDate, meanC: z.number().min(-60).max(60) });
export const AirReadingsNew = z
  .object({
    items: z.array(AirReading).max(800).optional(),
    csv: z.string().max(60_000).optional().describe('rows of date and mean temperature in C, with or without a heading'),
  })
  .strict()
  .refine((body) => (body.items === undefined) !== (body.csv === undefined), { error: 'must hold either items or csv', path: ['items'] });
export const AirReadings = z.object({ items: z.array(AirReading) });

export const stockRoutes = [
  {
    method: 'POST',
    path: '/api/containers/:id/weighings',
    name: 'weighContainer',
    summary: 'Say what a full container weighed',
    tag: 'stuff',
    access: grownUps,
    own: 'nothing',
    params: IdParams,
    body: WeighingNew,
    answer: Container,
    status: 201,
  },
  {
    method: 'PUT',
    path: '/api/materials/:id/figures',
    name: 'fillMaterial',
    summary: 'Fill in figures that the catalogue lacks',
    tag: 'stuff',
    access: coordinators,
    own: 'nothing',
    params: MaterialParams,
    body: MaterialFigures,
    answer: Material,
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/bedding-stock',
    name: 'readBeddingStock',
    summary: 'Bedding in store, by site and material',
    tag: 'stuff',
    access: members,
    own: 'nothing',
    query: z.object({ siteId: Id.optional() }),
    answer: z.object({ items: z.array(BeddingStock) }),
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/bedding-moves',
    name: 'listBeddingMoves',
    summary: 'What was brought, counted and thrown away',
    tag: 'stuff',
    access: members,
    own: 'nothing',
    query: z.object({ siteId: Id.optional() }),
    answer: z.object({ items: z.array(BeddingMove) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/bedding-moves',
    name: 'moveBedding',
    summary: 'Bring bedding, count it, throw it away',
    tag: 'stuff',
    access: grownUps,
    own: 'nothing',
    body: BeddingMoveNew,
    answer: BeddingMove,
    status: 201,
  },
  {
    method: 'GET',
    path: '/api/sites/:id/air-readings',
    name: 'listAirReadings',
    summary: 'Air temperatures read at a site',
    tag: 'place',
    access: members,
    own: 'nothing',
    params: IdParams,
    query: z.object({ from: LocalDate.optional(), to: LocalDate.optional() }),
    answer: AirReadings,
    status: 200,
  },
  {
    method: 'PUT',
    path: '/api/sites/:id/air-readings',
    name: 'putAirReadings',
    summary: 'Type air temperatures or bring them as CSV; a day given again is replaced',
    tag: 'place',
    access: leads,
    own: 'site',
    params: IdParams,
    body: AirReadingsNew,
    answer: AirReadings,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
