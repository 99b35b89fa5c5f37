import { GRAMS_PER_KG } from '@middenry/domain';
import type { BodyOf } from '../api/calls.ts';

/** One bucket of a harvest, as the scale showed it. */
export type Bucket = NonNullable<BodyOf<'logHarvest'>['buckets']>[number];

const grams = (massKg: number): number => Math.round(massKg * GRAMS_PER_KG);

/** What buckets held together, each in whole grams as it is stored, so that the sum is the server's. */
export const heldKg = (buckets: readonly Bucket[]): number =>
  buckets.reduce((sum, { grossKg, tareKg = 0 }) => sum + grams(grossKg) - grams(tareKg), 0) / GRAMS_PER_KG;
