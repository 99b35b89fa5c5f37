/** Scraps on offer for a day: how much each bin takes, with which bedding, on which shift, and what is left over. */
import * as z from 'zod';
import { ClientId, Id, Instant, LocalDate, MassKg, PersonRef } from '../common.ts';
import { leads, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';
import { Shift } from './shift.ts';

const Part = z.object({ materialId: z.string(), name: z.string(), massKg: z.number() });
const Stream = z.object({ source: z.string(), materialId: z.string(), name: z.string(), massKg: z.number() });

export const IntakePlanShape = z.object({
  id: Id,
  siteId: Id,
  siteName: z.string(),
  on: LocalDate,
  madeAt: Instant,
  by: PersonRef.nullable(),
  acceptedAt: Instant.nullable(),
  shiftId: Id.nullable().describe('the shift that feeds it, once accepted'),
  suggestedShiftId: Id.nullable().describe('the soonest shift from that day on; null: one must be made'),
  streams: z.array(Stream),
  feedings: z
    .array(
      z.object({
        binId: Id,
        binCode: z.string(),
        massKg: z.number(),
        adviceKg: z.number().describe('what the bin may be given that day, in mixed scraps'),
        scraps: z.array(Stream),
        bedding: z.array(Part),
        zones: z.array(z.int()),
        containers: z.array(z.object({ containerId: Id, name: z.string(), count: z.number() })),
        fillFrac: z.number().describe('oxygen that it asks for in its first week, as a share of what the advice allows'),
        troubleProbability: z
          .number()
          .nullable()
          .describe('that it runs short of air or piles up within two weeks; null: there was no time to try it out'),
      }),
    )
    .describe('bins that get nothing are left out'),
  leftOver: z.array(
    Stream.extend({
      forBeddingKg: z.number().describe('would go in if there were more bedding'),
      forRoomKg: z.number().describe('for which no bin has room'),
    }),
  ),
  bedding: z.array(Part.extend({ inStoreKg: z.number() })).describe('of all bins together'),
  beddingMissing: z.array(Part).describe('to get, so that all of forBeddingKg could go in'),
  unlooked: z.array(z.string()).describe('codes of bins that there was no time to look at, so they get nothing; a later plan knows them'),
});
export type IntakePlanShape = z.infer<typeof IntakePlanShape>;
export const IntakePlanNew = z
  .object({
    id: ClientId,
    siteId: Id,
    on: LocalDate,
    streams: z
      .array(
        z
          .object({
            source: z.string().trim().min(1, 'must not be empty').max(80).describe('a place such as a cafe; never a person'),
            materialId: z.string().min(1).max(80),
            massKg: MassKg,
          })
          .strict(),
      )
      .min(1, 'must hold something')
      .max(20),
  })
  .strict();
export const IntakeAccept = z.object({ id: ClientId, shiftId: Id }).strict();

export const intakeRoutes = [
  {
    method: 'GET',
    path: '/api/intake-plans',
    name: 'listIntakePlans',
    summary: 'Plans for scraps on offer at my sites, the newest day first',
    tag: 'plan',
    access: leads,
    own: 'nothing',
    query: z.object({ siteId: Id.optional() }),
    answer: z.object({ items: z.array(IntakePlanShape) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/intake-plans',
    name: 'planIntake',
    // Bins are forecast for ten seconds and feedings tried out for eight more; what is left is said.
    mostSeconds: 30,
    summary: 'Share scraps on offer among the bins of a site',
    tag: 'plan',
    access: leads,
    own: 'site',
    body: IntakePlanNew,
    answer: IntakePlanShape,
    status: 201,
  },
  {
    method: 'POST',
    path: '/api/intake-plans/:id/accept',
    name: 'acceptIntake',
    summary: 'Put the amounts of a plan on the card of a shift',
    tag: 'plan',
    access: leads,
    own: 'site',
    params: IdParams,
    body: IntakeAccept,
    answer: z.object({ plan: IntakePlanShape, shift: Shift }),
    status: 201,
  },
] as const satisfies readonly RouteSpec[];
