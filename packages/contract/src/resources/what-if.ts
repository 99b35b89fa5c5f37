/** What would happen at a bin: its members for a browser to go on with, and the same worked out here. */
import { type Ensemble, WHAT_IF_QUANTITIES, WHAT_IF_REPEATS, WHAT_IF_SIGNALS } from '@middenry/domain';
import * as z from 'zod';
import { Id, LocalDate, SpreadShape } from '../common.ts';
import { members, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';

const figures = <Names extends readonly string[], Shape extends z.ZodType>(names: Names, shape: Shape) =>
  z.object(Object.fromEntries(names.map((name) => [name, shape])) as Record<Names[number], Shape>);

export const WhatIfFood = z.object({
  id: z.string(),
  name: z.string(),
  composition: z.record(z.string(), z.number()).nullable().describe('of a material of ours; null: the catalogue has its numbers'),
});
export const WhatIfAnswerShape = z.object({
  members: z.int().describe('how many possible bins the answer rests on'),
  days: z.array(figures(WHAT_IF_QUANTITIES, SpreadShape).extend({ ahead: z.int().describe('days from today') })),
  chances: figures(WHAT_IF_SIGNALS, z.number()).describe('that it comes, or is there, within 14 days'),
  trouble: z.number().describe('that any of them does'),
});
export const WhatIfQuery = z.object({
  foodKg: z.coerce.number().min(0).max(100).default(0).describe('each time'),
  food: z.string().min(1).max(80).default('food_scraps_veg').describe('id of a material'),
  zones: z.coerce.number().int().min(1).max(12).default(1).describe('over how many it is spread, longest unfed first'),
  beddingKg: z.coerce.number().min(0).max(100).default(0).describe('of torn card, each time'),
  repeat: z.enum(WHAT_IF_REPEATS).default('once'),
  loosen: z.stringbool().default(false),
  takenOutFrac: z.coerce.number().min(0).max(1).default(0).describe('share of the food in it that is taken out first'),
  waterKg: z.coerce.number().min(0).max(100).default(0),
  warmerC: z.coerce.number().min(-20).max(20).default(0).describe('than expected, each day ahead'),
});
export const WhatIf = z.object({
  binId: Id,
  today: LocalDate,
  answer: WhatIfAnswerShape.describe('under the choice, and nothing else fed'),
  without: WhatIfAnswerShape.describe('when nothing is done'),
});
export type WhatIf = z.infer<typeof WhatIf>;
/** The state is told in text; the rest is as the domain has it. */
export type PackedEnsemble = Omit<Ensemble, 'state'> & { readonly state: string };
export const EnsembleShape = z.object({
  binId: Id,
  today: LocalDate,
  foods: z.array(WhatIfFood),
  ensemble: (z.record(z.string(), z.unknown()) as unknown as z.ZodType<PackedEnsemble>).describe(
    'as the domain packs it, for the same version to open; `state` are doubles, little-endian, as base64',
  ),
});

export const whatIfRoutes = [
  {
    method: 'GET',
    path: '/api/bins/:id/ensemble',
    name: 'readEnsemble',
    summary: 'A bin as it stands, for a browser to try things on',
    tag: 'outlook',
    access: members,
    own: 'nothing',
    params: IdParams,
    answer: EnsembleShape,
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/bins/:id/what-if',
    name: 'readWhatIf',
    summary: 'What would come of a feeding, care or weather',
    tag: 'outlook',
    access: members,
    own: 'nothing',
    params: IdParams,
    query: WhatIfQuery,
    answer: WhatIf,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
