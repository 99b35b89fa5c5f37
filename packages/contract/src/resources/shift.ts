/** Shifts are a local date, a local time, an IANA zone and a length; the instant is worked out, never stored. */
import * as z from 'zod';
import { ClientId, Id, Instant, LocalDate, LocalTime, Name, Note } from '../common.ts';
import { grownUps, leads, members, owners, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';
import { AdultStandingShape, PupilGroup, ShiftDuty, ShiftNeed, SignUp, Swap, Waiting } from './shift-parts.ts';

export const Shift = z.object({
  id: Id,
  seriesId: Id.nullable(),
  siteId: Id,
  siteName: z.string(),
  title: z.string(),
  localDate: LocalDate,
  localTime: LocalTime,
  timeZone: z.string(),
  minutes: z.int(),
  startsAt: Instant,
  /** A local time that the clocks skipped: moved forward and said so. */
  timeMoved: z.boolean(),
  places: z.int(),
  taken: z.int(),
  pupilPlaces: z.int().describe('places for pupils, beside those of the adults'),
  leastAdults: z.int().describe('2, or 1 where a coordinator wrote down why'),
  leastAdultsReason: z.string().describe('for leads of the site and coordinators'),
  cancelled: z.boolean(),
  over: z.boolean(),
  note: z.string(),
  binIds: z.array(Id),
  duties: z.array(ShiftDuty),
  needs: z.array(ShiftNeed).describe('how many of the places ask for a skill'),
  signUps: z.array(SignUp),
  groups: z.array(PupilGroup),
  adults: AdultStandingShape,
  swaps: z.array(Swap).describe('places on offer that I made or may take'),
  waitingCount: z.int(),
  myWait: z
    .object({
      id: Id,
      position: z.int().describe('1 = next'),
      offeredUntil: Instant.nullable().describe('a place is kept for me until then'),
    })
    .nullable(),
  waiting: z.array(Waiting).describe('in order; only coordinators see it'),
  revision: z.int(),
});
export type Shift = z.infer<typeof Shift>;

const shiftShape = {
  siteId: Id,
  title: Name,
  localDate: LocalDate,
  localTime: LocalTime,
  minutes: z.int().min(10).max(720),
  places: z.int().min(1).max(60),
  pupilPlaces: z.int().min(0).max(60).default(0),
  note: Note.default(''),
  binIds: z.array(Id).max(60).default([]),
  duties: z.array(ShiftDuty).max(200).default([]),
};
export const ShiftNew = z
  .object({
    id: ClientId,
    ...shiftShape,
    weeks: z.int().min(1).max(53).default(1).describe('1 = single; n = the same weekday and local time for n weeks'),
    weekdays: z
      .array(z.int().min(1).max(7))
      .max(7)
      .default([])
      .describe('on these weekdays of each week, Monday is 1; none: the weekday of the first date'),
    skipClosed: z.boolean().default(false).describe('none on days on which the site is closed'),
  })
  .strict();
export const SHIFT_SCOPES = ['this', 'this-and-later'] as const;
const Scope = z.enum(SHIFT_SCOPES).describe('left out: this one; or this and all later ones of its weekly row');
export const ShiftChange = z
  .object({
    title: Name,
    localDate: LocalDate,
    localTime: LocalTime,
    minutes: shiftShape.minutes,
    places: shiftShape.places,
    pupilPlaces: z.int().min(0).max(60),
    leastAdults: z.int().min(1).max(2).describe('1 instead of 2 only with a written reason'),
    leastAdultsReason: z.string().trim().min(10, 'must say why, in ten letters or more').max(500),
    note: Note,
    binIds: z.array(Id).max(60),
    duties: z.array(ShiftDuty).max(200),
    scope: Scope,
    askFirst: z.boolean().describe('name whoever has a place on a later shift that would move, and change nothing'),
  })
  .partial()
  .strict();
export const SignUpNew = z.object({ id: ClientId, personId: Id.optional().describe('left out: myself') }).strict();
export const WaitingNew = z.object({ id: ClientId }).strict();
export const ShiftCancelQuery = z.object({
  scope: Scope.optional(),
  anyway: z.stringbool().optional().describe('cancel later shifts although people have places on them'),
});
export const SignUpChange = z
  .object({ attended: z.boolean().nullable(), minutes: z.int().min(0).max(1440).nullable() })
  .partial()
  .strict();
const WaitingParams = z.object({ id: Id, waitingId: Id });
const SignUpParams = z.object({ id: Id, signUpId: Id });

export const shiftRoutes = [
  {
    method: 'GET',
    path: '/api/shifts',
    name: 'listShifts',
    summary: 'Shifts between two days',
    tag: 'shift',
    access: members,
    own: 'nothing',
    query: z.object({
      from: LocalDate.optional(),
      to: LocalDate.optional(),
      siteId: Id.optional(),
      open: z.stringbool().optional(),
      mine: z.stringbool().optional(),
    }),
    answer: z.object({ items: z.array(Shift) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/shifts',
    name: 'addShifts',
    summary: 'Make one shift or a weekly row of them',
    tag: 'shift',
    access: leads,
    own: 'site',
    body: ShiftNew,
    answer: z.object({ items: z.array(Shift) }),
    status: 201,
  },
  {
    method: 'GET',
    path: '/api/shifts/:id',
    name: 'readShift',
    summary: 'One shift',
    tag: 'shift',
    access: members,
    own: 'nothing',
    params: IdParams,
    answer: Shift,
    status: 200,
  },
  {
    method: 'PATCH',
    path: '/api/shifts/:id',
    name: 'changeShift',
    summary: 'Change a shift',
    tag: 'shift',
    access: leads,
    own: 'site',
    params: IdParams,
    body: ShiftChange,
    answer: Shift,
    status: 200,
  },
  {
    method: 'DELETE',
    path: '/api/shifts/:id',
    name: 'cancelShift',
    summary: 'Cancel a shift',
    tag: 'shift',
    access: leads,
    own: 'site',
    params: IdParams,
    query: ShiftCancelQuery,
    answer: Shift,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/shifts/:id/sign-ups',
    name: 'takePlace',
    summary: 'Take a place',
    tag: 'shift',
    access: grownUps,
    own: 'nothing',
    params: IdParams,
    body: SignUpNew,
    answer: Shift,
    status: 201,
  },
  {
    method: 'PATCH',
    path: '/api/shifts/:id/sign-ups/:signUpId',
    name: 'changeSignUp',
    summary: 'Say who came and for how long',
    tag: 'shift',
    access: owners,
    own: 'sign-up',
    params: SignUpParams,
    body: SignUpChange,
    answer: Shift,
    status: 200,
  },
  {
    method: 'DELETE',
    path: '/api/shifts/:id/sign-ups/:signUpId',
    name: 'giveBackPlace',
    summary: 'Give a place back',
    tag: 'shift',
    access: owners,
    own: 'sign-up',
    params: SignUpParams,
    answer: Shift,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/shifts/:id/waiting',
    name: 'joinWaiting',
    summary: 'Wait for a place on a full shift',
    tag: 'shift',
    access: grownUps,
    own: 'nothing',
    params: IdParams,
    body: WaitingNew,
    answer: Shift,
    status: 201,
  },
  {
    method: 'DELETE',
    path: '/api/shifts/:id/waiting/:waitingId',
    name: 'leaveWaiting',
    summary: 'Wait no longer',
    tag: 'shift',
    access: owners,
    own: 'sign-up',
    params: WaitingParams,
    answer: Shift,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
