/** Care given to a bin, plain notes, and worms that came or went. */
import { EXPOSURES, HOW_MEASURED } from '@middenry/domain';
import * as z from 'zod';
import { Id, MassKg, Note } from '../common.ts';
import { grownUps, type RouteSpec } from '../route.ts';
import { entryBase, entryTail, Zone } from './entry-base.ts';

export const CARE_ACTIONS = [
  'loosened',
  'watered', // massKg
  'bedding', // massKg, materialId
  'inoculated', // massKg when known
  'drained', // massKg when known
  'moved', // exposure
  'covered',
  'taken-out', // share of the uneaten food
  'rested',
  'woken',
  'retired',
] as const;
/** These change what the bin is, so they are for site leads and coordinators. */
export const STATE_ACTIONS = ['rested', 'woken', 'retired'] as const;

const Share = z.number().min(0.01, 'must be more than nothing').max(1, 'must be at most all of it');
const careFields = {
  action: z.enum(CARE_ACTIONS),
  zone: Zone.nullable().default(null).describe('null: the whole bin'),
  massKg: MassKg.nullable().default(null),
  materialId: z.string().min(1).max(80).nullable().default(null),
  exposure: z.enum(EXPOSURES).nullable().default(null).describe('where it stands now'),
  share: Share.nullable().default(null).describe('of the uneaten food'),
};
type CareFields = { action: string; massKg: number | null; materialId: string | null; exposure: string | null; share: number | null };
const needed: Readonly<Record<string, keyof CareFields>> = {
  watered: 'massKg',
  bedding: 'massKg',
  moved: 'exposure',
  'taken-out': 'share',
};
/** Every action has what it can not do without. */
const careIsWhole = (care: CareFields, context: z.RefinementCtx): void => {
  const field = needed[care.action];
  if (field !== undefined && care[field] === null)
    context.addIssue({ code: 'custom', path: [field], message: `must be given when something was ${care.action}` });
};
export const CareNew = z
  .object({ ...entryBase, ...careFields })
  .strict()
  .superRefine(careIsWhole);

export const NoteNew = z.object({ ...entryBase, note: Note.min(1, 'must say something') }).strict();

export const WORM_DIRECTIONS = ['added', 'given-away', 'split-off'] as const;
const wormFields = {
  direction: z.enum(WORM_DIRECTIONS),
  massKg: MassKg.nullable().default(null).describe('of worms that were added'),
  how: z.enum(HOW_MEASURED).default('guessed'),
  share: Share.nullable().default(null).describe("of the bin's worms that left it"),
  otherBinId: Id.nullable().default(null).describe('where they came from or went to, when it is a bin of ours'),
};
type WormFields = { direction: string; massKg: number | null; share: number | null };
const wormsAreWhole = (worms: WormFields, context: z.RefinementCtx): void => {
  const [given, other] = worms.direction === 'added' ? (['massKg', 'share'] as const) : (['share', 'massKg'] as const);
  if (worms[given] === null)
    context.addIssue({ code: 'custom', path: [given], message: `must be given when worms were ${worms.direction}` });
  if (worms[other] !== null) context.addIssue({ code: 'custom', path: [other], message: `does not belong to worms ${worms.direction}` });
};
export const WormsNew = z
  .object({ ...entryBase, ...wormFields })
  .strict()
  .superRefine(wormsAreWhole);

export const Care = z.object({
  ...entryTail,
  kind: z.literal('care'),
  action: z.enum(CARE_ACTIONS),
  zone: z.int().nullable(),
  massKg: z.number().nullable(),
  materialId: z.string().nullable(),
  materialName: z.string().nullable(),
  exposure: z.enum(EXPOSURES).nullable(),
  share: z.number().nullable(),
});
export const NoteEntry = z.object({ ...entryTail, kind: z.literal('note') });
export const Worms = z.object({
  ...entryTail,
  kind: z.literal('worms'),
  direction: z.enum(WORM_DIRECTIONS),
  massKg: z.number().nullable(),
  how: z.enum(HOW_MEASURED),
  share: z.number().nullable(),
  otherBinId: Id.nullable(),
  otherBinCode: z.string().nullable(),
});

export const careRoutes = [
  {
    method: 'POST',
    path: '/api/cares',
    name: 'logCare',
    summary: 'Log care: loosened, watered, bedding, moved and so on',
    tag: 'entry',
    access: grownUps,
    own: 'nothing',
    body: CareNew,
    answer: Care,
    status: 201,
  },
  {
    method: 'POST',
    path: '/api/notes',
    name: 'logNote',
    summary: 'Write a note about a bin',
    tag: 'entry',
    access: grownUps,
    own: 'nothing',
    body: NoteNew,
    answer: NoteEntry,
    status: 201,
  },
  {
    method: 'POST',
    path: '/api/worms',
    name: 'logWorms',
    summary: 'Log worms added, given away or split off',
    tag: 'entry',
    access: grownUps,
    own: 'nothing',
    body: WormsNew,
    answer: Worms,
    status: 201,
  },
] as const satisfies readonly RouteSpec[];
