/** What stands on a shift: its duties, who has a place, who waits, which pupils come and what is on offer. */
import { ADULT_STATES, AGE_BANDS, DUTY_KINDS } from '@middenry/domain';
import * as z from 'zod';
import { Id, Instant } from '../common.ts';

/** What a place may ask for beyond two hands; a closed list of ours. */
export const SKILLS = ['lifting', 'harvest', 'keys', 'guiding'] as const;
export const Skill = z
  .enum(SKILLS)
  .describe('lifting: heavy loads; harvest: has taken castings out before; keys: can open the site; guiding: shows newcomers how');
export type Skill = z.infer<typeof Skill>;
export const ShiftNeed = z.object({ skill: Skill, places: z.int().min(1).max(60) }).strict();
export const ShiftDuty = z.object({ binId: Id, kind: z.enum(DUTY_KINDS) });
export const SignUp = z.object({
  id: Id,
  personId: Id,
  name: z.string().describe('first name and initial unless a coordinator reads'),
  mine: z.boolean(),
  takenAt: Instant,
  attended: z.boolean().nullable(),
  minutes: z.int().nullable(),
});
export const Waiting = z.object({ id: Id, personId: Id, name: z.string(), joinedAt: Instant, offeredUntil: Instant.nullable() });

/** Whether enough adults come for the pupils (criteria C19). */
export const AdultStandingShape = z.object({
  state: z.enum(ADULT_STATES),
  pupils: z.int(),
  needed: z.int().describe('adults that so many pupils ask for'),
  counted: z.int().describe('adults who count: 18 or over and cleared by a coordinator'),
});
export const PupilGroup = z.object({
  id: Id,
  classId: Id,
  className: z.string(),
  ageBand: z.enum(AGE_BANDS),
  pupils: z.int(),
  names: z.array(z.string()).describe('first name and initial, for leads of the site and coordinators; empty where nobody was named'),
  checkedInAt: Instant.nullable(),
});

/** A place that somebody would hand over, seen by whoever made it and whoever may take it. */
export const Swap = z.object({
  id: Id,
  shiftId: Id,
  signUpId: Id,
  from: z.object({ id: Id, name: z.string() }),
  to: z.object({ id: Id, name: z.string() }).nullable().describe('null: anybody'),
  inReturn: z.array(Id).describe('shifts that would be taken in return; empty: a hand-over'),
  mine: z.boolean().describe('I offer it'),
  returnable: z.array(Id).describe('my own places that would be taken in return, as sign-up ids'),
  madeAt: Instant,
});
