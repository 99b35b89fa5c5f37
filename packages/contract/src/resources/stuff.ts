/** Materials and containers. */
import * as z from 'zod';
import { ClientId, Id, MassKg, Name } from '../common.ts';
import { coordinators, leads, members, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';

export const MATERIAL_KINDS = ['food', 'bedding', 'amendment', 'never'] as const;
export const Material = z.object({
  id: z.string(),
  name: z.string(),
  kind: z.enum(MATERIAL_KINDS),
  moistureFracWb: z.number().nullable(),
  carbonFracDb: z.number().nullable(),
  nitrogenFracDb: z.number().nullable(),
  cnRatio: z.number().nullable().describe('derived from carbon and nitrogen'),
  bulkDensityKgM3: z.number().nullable(),
  keepBack: z.boolean().describe('feed only a little of it'),
  hidden: z.boolean().describe('a figure is missing; a site fills it'),
  own: z.boolean(),
  source: z.string(),
});
const Frac = z.number().min(0).max(1);
export const MaterialNew = z
  .object({
    id: ClientId,
    name: Name,
    kind: z.enum(['food', 'bedding', 'amendment']),
    moistureFracWb: Frac,
    carbonFracDb: Frac,
    nitrogenFracDb: Frac,
    bulkDensityKgM3: z.number().min(5).max(3000),
    like: z.string().max(80).describe('catalogue material whose rates it borrows'),
  })
  .strict();

export const Container = z.object({
  id: Id,
  siteId: Id,
  name: z.string(),
  litres: z.number(),
  tareKg: z.number(),
  fullKg: z.number().describe('usual net mass when full [kg]'),
  kgPerLitre: z.number(),
  weighings: z.int(),
  archived: z.boolean(),
});
export const ContainerNew = z
  .object({
    id: ClientId,
    siteId: Id,
    name: Name,
    litres: z.number().min(0.1).max(1000),
    tareKg: z.number().min(0).max(100).default(0),
    fullKg: MassKg.optional().describe('left out: litres x 0.425 kg/L until it is weighed'),
  })
  .strict();
export const ContainerChange = ContainerNew.omit({ id: true, siteId: true }).extend({ archived: z.boolean() }).partial().strict();
const listOf = <T extends z.ZodType>(item: T) => z.object({ items: z.array(item) });

export const stuffRoutes = [
  {
    method: 'GET',
    path: '/api/materials',
    name: 'listMaterials',
    summary: 'What may go in, and what never',
    tag: 'stuff',
    access: members,
    own: 'nothing',
    answer: listOf(Material),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/materials',
    name: 'addMaterial',
    summary: 'Add an own material',
    tag: 'stuff',
    access: coordinators,
    own: 'nothing',
    body: MaterialNew,
    answer: Material,
    status: 201,
  },
  {
    method: 'GET',
    path: '/api/containers',
    name: 'listContainers',
    summary: "A site's buckets and caddies",
    tag: 'stuff',
    access: members,
    own: 'nothing',
    query: z.object({ siteId: Id.optional() }),
    answer: listOf(Container),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/containers',
    name: 'addContainer',
    summary: 'Add a container',
    tag: 'stuff',
    access: leads,
    own: 'site',
    body: ContainerNew,
    answer: Container,
    status: 201,
  },
  {
    method: 'PATCH',
    path: '/api/containers/:id',
    name: 'changeContainer',
    summary: 'Change a container',
    tag: 'stuff',
    access: leads,
    own: 'site',
    params: IdParams,
    body: ContainerChange,
    answer: Container,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
