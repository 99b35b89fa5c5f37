/** When somebody can come, what they can do, and how often they would like to. */
import { LIKINGS } from '@middenry/domain';
import * as z from 'zod';
import { Id, Instant, LocalDate, LocalTime } from '../common.ts';
import { leads, owners, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';
import { Shift } from './shift.ts';
import { ShiftNeed, SKILLS, Skill } from './shift-parts.ts';

/** Parts of the day that a form can offer instead of times. */
export const DAY_PARTS = [
  { part: 'morning', from: '08:00', to: '12:00' },
  { part: 'midday', from: '11:30', to: '14:00' },
  { part: 'afternoon', from: '12:00', to: '17:00' },
  { part: 'evening', from: '17:00', to: '21:00' },
] as const;
export const WISH_PERIODS = ['week', 'month'] as const;

const CanCome = z
  .object({
    weekday: z.int().min(1).max(7).describe('Monday is 1'),
    from: LocalTime,
    to: LocalTime,
    liking: z.enum(LIKINGS).default('can'),
  })
  .strict();
const Away = z.object({ from: LocalDate, to: LocalDate.describe('last day away') }).strict();
const Wish = z.object({ count: z.int().min(0).max(14), per: z.enum(WISH_PERIODS) }).strict();

export const Availability = z.object({
  personId: Id,
  weekly: z.array(CanCome.extend({ liking: z.enum(LIKINGS) })).describe('none: any time'),
  away: z.array(Away),
  skills: z.array(Skill),
  siteIds: z.array(Id).describe('sites where they would come; none: all of theirs'),
  wish: Wish.nullable().describe('shifts they would like; null: not said, which counts as two a month'),
  capPerWeek: z.int().nullable().describe('most places in a week, Monday to Sunday; null: no limit'),
  capPerDay: z.int().nullable(),
  saidAt: Instant.nullable().describe('when this was last said; null: never'),
});
export type Availability = z.infer<typeof Availability>;
export const AvailabilityChange = z
  .object({
    weekly: z.array(CanCome).max(50),
    away: z.array(Away).max(50),
    skills: z.array(Skill).max(SKILLS.length),
    siteIds: z.array(Id).max(50),
    wish: Wish.nullable(),
    capPerWeek: z.int().min(0).max(14).nullable(),
    capPerDay: z.int().min(0).max(5).nullable(),
  })
  .partial()
  .strict();
export const ShiftNeedsChange = z.object({ needs: z.array(ShiftNeed).max(SKILLS.length) }).strict();

const ownPage = { ...owners, pupil: 'none' } as const;

export const availabilityRoutes = [
  {
    method: 'GET',
    path: '/api/people/:id/availability',
    name: 'readAvailability',
    summary: 'When somebody can come and how often they would like to',
    tag: 'people',
    access: ownPage,
    own: 'person',
    params: IdParams,
    answer: Availability,
    status: 200,
  },
  {
    method: 'PUT',
    path: '/api/people/:id/availability',
    name: 'putAvailability',
    summary: 'Say when one can come; what is left out stays',
    tag: 'people',
    access: ownPage,
    own: 'person',
    params: IdParams,
    body: AvailabilityChange,
    answer: Availability,
    status: 200,
  },
  {
    method: 'PUT',
    path: '/api/shifts/:id/needs',
    name: 'putShiftNeeds',
    summary: 'Say how many places of a shift ask for a skill',
    tag: 'shift',
    access: leads,
    own: 'site',
    params: IdParams,
    body: ShiftNeedsChange,
    answer: Shift,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
