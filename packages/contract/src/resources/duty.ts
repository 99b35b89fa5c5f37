/** Duties that fall due, and what a site says about its times. */
import { DUTY_KINDS, DUTY_RESULTS, DUTY_URGENCIES, DUTY_WHYS, IF_MISSED } from '@middenry/domain';
import * as z from 'zod';
import { Id, LocalDate, LocalTime } from '../common.ts';
import { leads, members, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';

export const DueDuty = z.object({
  binId: Id,
  binCode: z.string(),
  binName: z.string(),
  siteId: Id,
  siteName: z.string(),
  kind: z.enum(DUTY_KINDS),
  fromOn: LocalDate,
  dueOn: LocalDate,
  overdueOn: LocalDate,
  why: z.enum(DUTY_WHYS),
  ifMissed: z.enum(IF_MISSED).describe('what is likely when nobody does it'),
  minutes: z.int().describe('how long it takes at this site'),
  urgency: z.enum(DUTY_URGENCIES),
  actNow: z.boolean().describe('a signal in act asks for it'),
  plannedOn: z.object({ shiftId: Id, localDate: LocalDate }).nullable().describe('the shift to come that has it'),
  last: z
    .object({ shiftId: Id, localDate: LocalDate, result: z.enum(DUTY_RESULTS) })
    .nullable()
    .describe('what became of it on the last shift, until the log has it or its next window begins'),
});
export type DueDuty = z.infer<typeof DueDuty>;

const Weekday = z.int().min(1).max(7).describe('Monday is 1');
export const SiteOpening = z.object({ weekday: Weekday, from: LocalTime, to: LocalTime }).strict();
export const SiteClosed = z
  .object({ from: LocalDate, to: LocalDate, label: z.string().trim().max(80, 'must be at most 80 characters').default('') })
  .strict();
const DutyMinutes = z.object({ kind: z.enum(DUTY_KINDS), minutes: z.int().min(0).max(480) }).strict();
export const SiteTimes = z.object({
  siteId: Id,
  usual: z.boolean().describe('nobody has said when it is open: every day in usual hours'),
  open: z.array(SiteOpening),
  closed: z.array(SiteClosed.extend({ label: z.string() })),
  minutes: z.array(DutyMinutes.extend({ own: z.boolean().describe('set by the site') })),
});
export const SiteTimesChange = z
  .object({
    open: z.array(SiteOpening).max(7).describe('a weekday that is left out is closed; none: usual hours'),
    closed: z.array(SiteClosed).max(100),
    minutes: z.array(DutyMinutes).max(8).describe('a duty that is left out takes its usual minutes'),
  })
  .partial()
  .strict();

export const dutyRoutes = [
  {
    method: 'GET',
    path: '/api/duties',
    name: 'listDuties',
    summary: 'What falls due, the most pressing first',
    tag: 'duty',
    access: members,
    own: 'nothing',
    query: z.object({
      siteId: Id.optional(),
      binId: Id.optional(),
      days: z.coerce.number().int().min(0).max(90).default(14).describe('how far ahead a window may begin'),
    }),
    answer: z.object({ items: z.array(DueDuty) }),
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/sites/:id/times',
    name: 'readSiteTimes',
    summary: 'Opening hours, closed days and minutes of duties',
    tag: 'place',
    access: members,
    own: 'nothing',
    params: IdParams,
    answer: SiteTimes,
    status: 200,
  },
  {
    method: 'PUT',
    path: '/api/sites/:id/times',
    name: 'putSiteTimes',
    summary: 'Say when a site is open or closed and how long duties take there',
    tag: 'place',
    access: leads,
    own: 'site',
    params: IdParams,
    body: SiteTimesChange,
    answer: SiteTimes,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
