/** Duties gathered into shifts that could be made: accepted as they are, moved or merged, or dropped until they change. */
import { DUTY_KINDS, DUTY_URGENCIES, UNPLACED_REASONS } from '@middenry/domain';
import * as z from 'zod';
import { ClientId, Id, LocalDate, LocalTime, Name } from '../common.ts';
import { leads, type RouteSpec } from '../route.ts';
import { DueDuty } from './duty.ts';
import { Shift } from './shift.ts';
import { ShiftDuty } from './shift-parts.ts';

export const ShiftProposal = z.object({
  key: z.string().describe('the same as long as site, day and duties are'),
  siteId: Id,
  siteName: z.string(),
  standingId: Id.nullable().describe('the shift that is there already and has room; null: a new one'),
  localDate: LocalDate,
  localTime: LocalTime,
  minutes: z.int(),
  places: z.int(),
  urgency: z.enum(DUTY_URGENCIES),
  duties: z.array(
    z.object({
      binId: Id,
      binCode: z.string(),
      kind: z.enum(DUTY_KINDS),
      dueOn: LocalDate,
      minutes: z.int(),
      urgency: z.enum(DUTY_URGENCIES),
      late: z.boolean().describe('no open day before it is due'),
    }),
  ),
});
export type ShiftProposal = z.infer<typeof ShiftProposal>;
export const ShiftProposals = z.object({
  items: z.array(ShiftProposal),
  unplaced: z.array(z.object({ duty: DueDuty, reason: z.enum(UNPLACED_REASONS) })),
  dropped: z.array(DueDuty).describe('put aside until they change'),
});

const AcceptedShift = z
  .object({
    standingId: Id.nullable().default(null),
    title: Name,
    localDate: LocalDate,
    localTime: LocalTime,
    minutes: z.int().min(10).max(720),
    places: z.int().min(1).max(60),
    duties: z.array(ShiftDuty.strict()).min(1, 'must hold a duty').max(200),
  })
  .strict();
export const ProposalsAccepted = z
  .object({
    id: ClientId,
    siteId: Id,
    shifts: z.array(AcceptedShift).min(1, 'must hold a shift').max(60).describe('as proposed, or moved, or merged'),
  })
  .strict();
export const DutiesDropped = z
  .object({
    siteId: Id,
    duties: z.array(ShiftDuty.strict()).min(1, 'must hold a duty').max(200),
    back: z.boolean().default(false).describe('take them up again'),
  })
  .strict();

export const proposalRoutes = [
  {
    method: 'GET',
    path: '/api/shift-proposals',
    name: 'listProposals',
    summary: 'Shifts that would cover what falls due at my sites',
    tag: 'shift',
    access: leads,
    own: 'nothing',
    query: z.object({ siteId: Id.optional(), weeks: z.coerce.number().int().min(1).max(12).default(4) }),
    answer: ShiftProposals,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/shift-proposals/accepted',
    name: 'acceptProposals',
    summary: 'Make shifts of proposals',
    tag: 'shift',
    access: leads,
    own: 'site',
    body: ProposalsAccepted,
    answer: z.object({ items: z.array(Shift) }),
    status: 201,
  },
  {
    method: 'PUT',
    path: '/api/shift-proposals/dropped',
    name: 'dropDuties',
    summary: 'Put duties aside until they change, or take them up again',
    tag: 'shift',
    access: leads,
    own: 'site',
    body: DutiesDropped,
    answer: ShiftProposals,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
