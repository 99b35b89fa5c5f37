/** A bin's life in a few figures, and what changed about it. */
import { EXPOSURES, HOW_MEASURED } from '@middenry/domain';
import * as z from 'zod';
import { Id, LocalDate, PersonRef } from '../common.ts';
import { members, type RouteSpec } from '../route.ts';
import { HarvestExpected } from './castings.ts';
import { IdParams } from './place.ts';

export const LIFE_CHANGES = ['moved', 'rested', 'woken', 'retired', 'added', 'given-away', 'split-off'] as const;
export const LifeChange = z.object({
  on: LocalDate,
  entryId: Id,
  what: z.enum(LIFE_CHANGES),
  exposure: z.enum(EXPOSURES).nullable().describe('where it stood from then on'),
  massKg: z.number().nullable().describe('of worms that were added'),
  share: z.number().nullable().describe('of the worms that left it'),
  otherBinCode: z.string().nullable().describe('the bin of ours that they came from or went to'),
});
export const HarvestOfLife = z.object({
  on: LocalDate,
  entryId: Id,
  massKg: z.number(),
  how: z.enum(HOW_MEASURED),
  expected: HarvestExpected.nullable().describe('castings in the bin as expected beforehand; null where the model was not asked in time'),
});
export const Keeping = z.object({
  by: PersonRef.nullable().describe('null when the person has been erased'),
  firstOn: LocalDate,
  lastOn: LocalDate,
  times: z.int().describe('entries of theirs that stand'),
});
export const BinLife = z.object({
  binId: Id,
  startedOn: LocalDate,
  ageDays: z.int(),
  fedKg: z.number(),
  feedings: z.int(),
  harvestedKg: z.number(),
  harvests: z.int(),
  checks: z.int(),
  wormsThenKg: z.number().describe('what it was started with'),
  keepers: z.int().describe('different people who noted something'),
  keeping: z
    .array(Keeping)
    .max(12)
    .describe('who cared for it from when to when, the latest first; those who noted most where there are more'),
  lastHarvests: z.array(HarvestOfLife).max(12).describe('newest first'),
  changes: z.array(LifeChange).describe('newest first'),
});
export type BinLife = z.infer<typeof BinLife>;

export const binLifeRoutes = [
  {
    method: 'GET',
    path: '/api/bins/:id/life',
    name: 'readLife',
    summary: 'What a bin was given and gave since it was started, and what changed about it',
    tag: 'place',
    access: members,
    own: 'nothing',
    params: IdParams,
    answer: BinLife,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
