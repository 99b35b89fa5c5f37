/** Factors of the climate figure: none until a coordinator looked them up and confirmed them (criteria D5). */
import { CLIMATE_FACTOR_SETS } from '@middenry/domain';
import * as z from 'zod';
import { Instant, Name } from '../common.ts';
import { coordinators, leads, type RouteSpec } from '../route.ts';

const MOST_KG_PER_TONNE = 10_000;
const MOST_LETTERS = 500;
const kg = z.number().min(0).max(MOST_KG_PER_TONNE);
const KgPerTonne = z
  .strictObject({ low: kg, mid: kg, high: kg })
  .refine(({ low, mid, high }) => low <= mid && mid <= high, { error: 'low, mid and high must rise' })
  .describe('kg of carbon dioxide equivalent for 1000 kg of scraps as they are');
const shape = {
  name: Name.describe('of the set of factors'),
  edition: Name,
  region: Name,
  basis: Name.describe('over which time the gases are brought to carbon dioxide, and by which report'),
  source: z.string().trim().min(1).max(MOST_LETTERS).describe('where the figures stand; it is printed beside them'),
  landfillPercent: z.int().min(1).max(100).describe('how much of the scraps would have gone to a landfill'),
  landfill: KgPerTonne,
  process: KgPerTonne.describe('what the bins give off themselves, kg of carbon dioxide equivalent for 1000 kg of scraps'),
};
export const ClimateFactors = z.object({ ...shape, confirmedAt: Instant });
export type ClimateFactors = z.infer<typeof ClimateFactors>;
export const ClimateFactorsNew = z.strictObject({
  ...shape,
  confirmed: z.literal(true).describe('somebody looked the figures up in the source itself'),
});
export const ClimateFactorSet = z.object({
  id: z.enum(CLIMATE_FACTOR_SETS.map(({ id }) => id)),
  ...{ name: Name, edition: Name, region: Name, basis: Name, source: shape.source, landfill: KgPerTonne, process: KgPerTonne },
});

export const climateFactorsRoutes = [
  {
    method: 'GET',
    path: '/api/climate-factors',
    name: 'readClimateFactors',
    summary: 'By which factors climate gases are counted, if at all; sets to look up, each read second-hand',
    tag: 'season',
    access: leads,
    own: 'nothing',
    answer: z.object({ factors: ClimateFactors.nullable().describe('null: climate gases are left out'), sets: z.array(ClimateFactorSet) }),
    status: 200,
  },
  {
    method: 'PUT',
    path: '/api/climate-factors',
    name: 'confirmClimateFactors',
    summary: 'Count climate gases from now on, by factors that somebody looked up',
    tag: 'season',
    access: coordinators,
    own: 'nothing',
    body: ClimateFactorsNew,
    answer: ClimateFactors,
    status: 200,
  },
  {
    method: 'DELETE',
    path: '/api/climate-factors',
    name: 'removeClimateFactors',
    summary: 'Leave climate gases out again; published reports keep theirs',
    tag: 'season',
    access: coordinators,
    own: 'nothing',
    status: 204,
  },
] as const satisfies readonly RouteSpec[];
