/** Programme, sites and bins. */
import { BIN_KINDS, EXPOSURES } from '@middenry/domain';
import * as z from 'zod';
import { BinCode, ClientId, Id, LocalDate, MassKg, MassKgOrZero, Name, Note } from '../common.ts';
import { coordinators, everyone, leads, members, type RouteSpec } from '../route.ts';
import { UNIT_SYSTEMS } from './session.ts';

export const Programme = z.object({
  id: Id,
  name: z.string(),
  isDemo: z.boolean(),
  timeZone: z.string(),
  units: z.enum(UNIT_SYSTEMS),
  locale: z.string(),
  photosOfPeople: z.boolean().describe('photos of people may be shown, of whom each consents; off until somebody switches it on'),
});
export const ProgrammeChange = z
  .object({ name: Name, units: z.enum(UNIT_SYSTEMS), locale: z.string().min(2).max(35), photosOfPeople: z.boolean() })
  .partial()
  .strict();

export const Twelve = z.array(z.number().min(-60).max(60)).length(12, 'must hold twelve months, January first');
export const Site = z.object({
  id: Id,
  name: z.string(),
  timeZone: z.string(),
  note: z.string(),
  minC: Twelve.nullable().describe('monthly mean daily minimum of the air [C]'),
  maxC: Twelve.nullable().describe('monthly mean daily maximum of the air [C]'),
  archived: z.boolean(),
});
export const SiteNew = z
  .object({
    id: ClientId,
    name: Name,
    timeZone: z.string().max(64),
    note: Note.default(''),
    minC: Twelve.nullable().default(null),
    maxC: Twelve.nullable().default(null),
  })
  .strict();
export const SiteChange = SiteNew.omit({ id: true }).extend({ archived: z.boolean() }).partial().strict();

export const BinStart = z.object({
  startedOn: LocalDate,
  wormsKg: MassKgOrZero,
  bed: z.array(z.object({ materialId: z.string().max(80), massKg: MassKg })).max(12),
  bedWaterKg: MassKgOrZero,
});
const binShape = {
  siteId: Id,
  code: BinCode,
  name: Name,
  kind: z.enum(BIN_KINDS),
  areaM2: z.number().min(0.001).max(50),
  depthM: z.number().min(0.02).max(3),
  zones: z.int().min(1).max(12),
  openBase: z.boolean(),
  exposure: z.enum(EXPOSURES),
  checkIntervalDays: z.int().min(1).max(60),
  placeOrder: z.int().min(0).max(9999).describe('order by place on the board; never moves by itself'),
  note: Note,
};
export const BIN_STATES = ['active', 'resting', 'retired'] as const;
export const Bin = z.object({ id: Id, ...binShape, ...BinStart.shape, state: z.enum(BIN_STATES), siteName: z.string(), revision: z.int() });
export type Bin = z.infer<typeof Bin>;
export const BinNew = z
  .object({
    id: ClientId,
    ...binShape,
    ...BinStart.shape,
    openBase: z.boolean().default(false),
    exposure: z.enum(EXPOSURES).default('shade'),
    checkIntervalDays: binShape.checkIntervalDays.default(7),
    placeOrder: binShape.placeOrder.default(0),
    note: Note.default(''),
  })
  .strict();
export const BinChange = z
  .object({ ...binShape, state: z.enum(BIN_STATES) })
  .partial()
  .strict();
/** All that a signed-out scan of a label may see. */
export const BinCard = z.object({ code: z.string(), name: z.string() });

export const IdParams = z.object({ id: Id });
const listOf = <T extends z.ZodType>(item: T) => z.object({ items: z.array(item) });

export const placeRoutes = [
  {
    method: 'GET',
    path: '/api/programme',
    name: 'readProgramme',
    summary: 'The programme',
    tag: 'place',
    access: members,
    own: 'nothing',
    answer: Programme,
    status: 200,
  },
  {
    method: 'PATCH',
    path: '/api/programme',
    name: 'changeProgramme',
    summary: 'Rename, choose units and language',
    tag: 'place',
    access: coordinators,
    own: 'nothing',
    body: ProgrammeChange,
    answer: Programme,
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/sites',
    name: 'listSites',
    summary: 'Sites',
    tag: 'place',
    access: members,
    own: 'nothing',
    answer: listOf(Site),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/sites',
    name: 'addSite',
    summary: 'Add a site',
    tag: 'place',
    access: coordinators,
    own: 'nothing',
    body: SiteNew,
    answer: Site,
    status: 201,
  },
  {
    method: 'PATCH',
    path: '/api/sites/:id',
    name: 'changeSite',
    summary: 'Change a site',
    tag: 'place',
    access: leads,
    own: 'site',
    params: IdParams,
    body: SiteChange,
    answer: Site,
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/bins',
    name: 'listBins',
    summary: 'Bins by place',
    tag: 'place',
    access: members,
    own: 'nothing',
    query: z.object({ siteId: Id.optional() }),
    answer: listOf(Bin),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/bins',
    name: 'addBin',
    summary: 'Add a bin',
    tag: 'place',
    access: leads,
    own: 'site',
    body: BinNew,
    answer: Bin,
    status: 201,
  },
  {
    method: 'GET',
    path: '/api/bins/:id',
    name: 'readBin',
    summary: 'One bin',
    tag: 'place',
    access: members,
    own: 'nothing',
    params: IdParams,
    answer: Bin,
    status: 200,
  },
  {
    method: 'PATCH',
    path: '/api/bins/:id',
    name: 'changeBin',
    summary: 'Change a bin',
    tag: 'place',
    access: leads,
    own: 'site',
    params: IdParams,
    body: BinChange,
    answer: Bin,
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/bin-cards/:code',
    name: 'readBinCard',
    summary: 'What a label shows to anybody',
    tag: 'place',
    access: everyone,
    own: 'nothing',
    params: z.object({ code: BinCode }),
    answer: BinCard,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
