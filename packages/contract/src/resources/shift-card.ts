/** One shift on the day: what to do at which bin with today's amounts, what to bring, who comes; afterwards what became of it. */
import { CAUTION_IDS, DUTY_KINDS, DUTY_RESULTS, DUTY_URGENCIES, DUTY_WHYS, HOLD_REASONS } from '@middenry/domain';
import * as z from 'zod';
import { Band, Id, LocalDate } from '../common.ts';
import { members, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';
import { Shift } from './shift.ts';

const Part = z.object({ materialId: z.string(), name: z.string(), massKg: z.number() });
const ContainerCount = z.object({ containerId: Id, name: z.string(), count: z.number().describe('in half containers') });

export const CardFeed = z.object({
  from: z.enum(['advice', 'intake']).describe('the advice of today, or a plan of scraps on offer that was accepted'),
  massKg: z.number(),
  lowKg: z.number(),
  highKg: z.number(),
  zones: z.array(z.int()).describe('first is next'),
  hold: z.enum(HOLD_REASONS).nullable().describe('why nothing goes in today'),
  scraps: z.array(Part).describe('what goes in, where a plan says so'),
  bedding: z.array(Part),
  containers: z.array(ContainerCount).describe('the same mass in the containers of the site'),
});
export const CardDuty = z.object({
  kind: z.enum(DUTY_KINDS),
  minutes: z.int(),
  why: z.enum(DUTY_WHYS).nullable(),
  urgency: z.enum(DUTY_URGENCIES).nullable().describe('null: not due by the model, put on the shift by hand'),
  feed: CardFeed.nullable(),
  massKg: z.number().nullable().describe('bedding or water to add, castings to expect; null where no amount is known'),
  cautions: z.array(z.enum(CAUTION_IDS)),
  result: z.enum(DUTY_RESULTS).nullable(),
  note: z.string(),
  noted: z.boolean().describe('the log has such an entry of that day'),
});
export const ShiftCard = z.object({
  shift: Shift,
  amountsOn: LocalDate.describe('the day for which the amounts were worked out'),
  bins: z.array(z.object({ id: Id, code: z.string(), name: z.string(), band: Band, duties: z.array(CardDuty) })),
  bring: z.object({
    bedding: z.array(Part.extend({ inStoreKg: z.number() })),
    waterKg: z.number(),
  }),
  cautions: z.array(z.enum(CAUTION_IDS)),
  minutes: z.int().describe('of all duties together'),
});

export const ShiftResults = z
  .object({
    results: z
      .array(
        z
          .object({
            binId: Id,
            kind: z.enum(DUTY_KINDS),
            result: z.enum(DUTY_RESULTS).nullable().describe('null takes it back'),
            note: z.string().trim().max(500, 'must be at most 500 characters').default(''),
          })
          .strict(),
      )
      .max(200)
      .default([]),
    came: z
      .array(z.object({ signUpId: Id, attended: z.boolean().nullable(), minutes: z.int().min(0).max(1440).nullable() }).strict())
      .max(60)
      .default([])
      .describe('of oneself; leads of the site say it of everybody'),
  })
  .strict();

export const shiftCardRoutes = [
  {
    method: 'GET',
    path: '/api/shifts/:id/card',
    name: 'readShiftCard',
    summary: 'What to do on a shift, with amounts of today',
    tag: 'shift',
    access: members,
    own: 'nothing',
    params: IdParams,
    answer: ShiftCard,
    status: 200,
  },
  {
    method: 'PUT',
    path: '/api/shifts/:id/results',
    name: 'sayResults',
    summary: 'Say what was done, partly done or missed, and who gave how many minutes',
    tag: 'shift',
    access: { anonymous: 'none', pupil: 'none', volunteer: 'own', 'site-lead': 'own', coordinator: 'any' },
    own: 'sign-up',
    params: IdParams,
    body: ShiftResults,
    answer: Shift,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
