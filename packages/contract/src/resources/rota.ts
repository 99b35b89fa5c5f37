/** Filling the gaps: who could be asked for what, why, and what they answer. Reasons are for coordinators only. */
import { CONFLICT_RULES, LIKINGS, OBSTACLES, SCORE_PARTS, WHY_CODES } from '@middenry/domain';
import * as z from 'zod';
import { ClientId, Id, Instant, LocalDate, LocalTime, PersonRef } from '../common.ts';
import { coordinators, grownUps, owners, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';
import { Shift } from './shift.ts';
import { Skill } from './shift-parts.ts';

export const ROTA_STATUSES = ['working', 'optimal', 'best-found', 'infeasible', 'stopped'] as const;
export const PROPOSAL_STATES = [
  'proposed',
  'replaced', // a newer run speaks for that shift
  'invited',
  'accepted',
  'declined',
  'withdrawn', // a coordinator took it back
  'run-out', // not answered in time
  'gone', // the place went some other way, or the shift is off
] as const;

export const RotaShiftRef = z.object({
  id: Id,
  title: z.string(),
  siteId: Id,
  siteName: z.string(),
  localDate: LocalDate,
  localTime: LocalTime,
  startsAt: Instant,
  minutes: z.int(),
  places: z.int(),
  taken: z.int(),
  cancelled: z.boolean(),
  over: z.boolean(),
});

export const RotaProposal = z.object({
  id: Id,
  shift: RotaShiftRef,
  person: PersonRef,
  skill: Skill.nullable().describe('asked for by this place'),
  why: z.array(z.enum(WHY_CODES)),
  others: z.int().describe('people who could come instead'),
  wish: z.int(),
  heldBefore: z.int(),
  heldAfter: z.int(),
  liking: z.enum(LIKINGS).nullable(),
  state: z.enum(PROPOSAL_STATES),
  invitedAt: Instant.nullable(),
  goodUntil: Instant.nullable(),
  answeredAt: Instant.nullable(),
});
export type RotaProposal = z.infer<typeof RotaProposal>;

const Hindrance = z.object({
  rule: z.enum(OBSTACLES),
  shifts: z.array(RotaShiftRef).describe('the shifts that fill the time or the cap'),
  proposed: z.boolean().describe('some of them are only proposed'),
});
export const RotaGap = z.object({
  shift: RotaShiftRef,
  uncovered: z.int(),
  adultsMissing: z.int().describe('adults whom the pupils still ask for'),
  people: z.array(z.object({ person: PersonRef, hindrances: z.array(Hindrance) })),
  rules: z.array(z.object({ rule: z.enum(OBSTACLES), count: z.int().describe('people whom it keeps away') })),
});
export type RotaGap = z.infer<typeof RotaGap>;

const FairnessTotals = z.object({ held: z.int(), largestShortfall: z.int(), squaredShortfalls: z.int(), peopleBelow: z.int() });
export const Fairness = z.object({
  from: LocalDate.describe('whole weeks, Monday first'),
  to: LocalDate,
  rows: z.array(
    z.object({
      person: PersonRef,
      wish: z.int(),
      possible: z.int().describe('most places that they could hold'),
      target: z.int().describe('the smaller of the two'),
      heldBefore: z.int(),
      heldAfter: z.int(),
      shortfallBefore: z.int(),
      shortfallAfter: z.int(),
    }),
  ),
  before: FairnessTotals,
  after: FairnessTotals,
});

const runHead = {
  id: Id,
  from: LocalDate,
  to: LocalDate,
  siteIds: z.array(Id).describe('none: every site'),
  by: PersonRef.nullable(),
  madeAt: Instant,
  status: z.enum(ROTA_STATUSES).describe('working: ask again; stopped: it ended without an answer, so begin anew'),
  counts: z.object({ proposed: z.int(), invited: z.int(), accepted: z.int(), declined: z.int(), uncovered: z.int() }),
};
export const RotaRunHead = z.object(runHead);
export const RotaRun = z.object({
  ...runHead,
  gap: z.number().describe('0: nobody can do better; else by how much, at most, a better answer could be'),
  stages: z.array(z.object({ part: z.enum(SCORE_PARTS), value: z.number(), bound: z.number(), proven: z.boolean() })),
  proposals: z.array(RotaProposal),
  gaps: z.array(RotaGap),
  conflicts: z
    .array(z.object({ rule: z.enum(CONFLICT_RULES), shifts: z.array(RotaShiftRef), people: z.array(PersonRef) }))
    .describe('sign-ups that break a rule; their shifts are left out'),
  fairness: Fairness.nullable(),
});
export type RotaRun = z.infer<typeof RotaRun>;

export const RotaRunNew = z
  .object({
    id: ClientId,
    from: LocalDate,
    to: LocalDate,
    siteIds: z.array(Id).max(50).default([]).describe('none: every site'),
    seconds: z.int().min(1).max(60).default(20).describe('time for the search; at its end stands the best found'),
  })
  .strict();
export const InvitationsNew = z
  .object({ id: ClientId, proposalIds: z.array(Id).min(1).max(1000).optional().describe('left out: all that are still only proposed') })
  .strict();

/** What somebody is asked, without why. */
export const Invitation = z.object({
  id: Id,
  shift: RotaShiftRef,
  skill: Skill.nullable(),
  invitedAt: Instant,
  goodUntil: Instant,
  free: z.boolean().describe('there is still a place'),
});
export type Invitation = z.infer<typeof Invitation>;

export const rotaRoutes = [
  {
    method: 'POST',
    path: '/api/rota/runs',
    name: 'fillGaps',
    summary: 'Work out who could be asked for the places that nobody has',
    tag: 'rota',
    access: coordinators,
    own: 'nothing',
    body: RotaRunNew,
    answer: RotaRun,
    status: 201,
  },
  {
    method: 'GET',
    path: '/api/rota/runs',
    name: 'listRotaRuns',
    summary: 'The last runs',
    tag: 'rota',
    access: coordinators,
    own: 'nothing',
    answer: z.object({ items: z.array(RotaRunHead) }),
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/rota/runs/:id',
    name: 'readRotaRun',
    summary: 'Proposals with why, gaps with what stands in the way, and fairness',
    tag: 'rota',
    access: coordinators,
    own: 'nothing',
    params: IdParams,
    answer: RotaRun,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/rota/runs/:id/invitations',
    name: 'sendInvitations',
    summary: 'Ask the people who were proposed, all or some',
    tag: 'rota',
    access: coordinators,
    own: 'nothing',
    params: IdParams,
    body: InvitationsNew,
    answer: RotaRun,
    status: 201,
  },
  {
    method: 'GET',
    path: '/api/invitations',
    name: 'listInvitations',
    summary: 'What I am asked for and may still answer',
    tag: 'rota',
    access: grownUps,
    own: 'nothing',
    answer: z.object({ items: z.array(Invitation) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/invitations/:id/accept',
    name: 'acceptInvitation',
    summary: 'Take the place that I am asked for',
    tag: 'rota',
    access: grownUps,
    own: 'nothing',
    params: IdParams,
    body: z.object({ id: ClientId.describe('of the sign-up') }).strict(),
    answer: Shift,
    status: 201,
  },
  {
    method: 'DELETE',
    path: '/api/invitations/:id',
    name: 'endInvitation',
    summary: 'Say no to what I am asked, or take the question back as coordinator',
    tag: 'rota',
    access: { ...owners, pupil: 'none' },
    own: 'person',
    params: IdParams,
    status: 204,
  },
] as const satisfies readonly RouteSpec[];
