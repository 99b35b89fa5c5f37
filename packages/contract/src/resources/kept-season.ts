/** A season as a published report keeps it: whatever is counted only since then is not told as a number (criteria D14). */
import * as z from 'zod';
import { Season } from './season.ts';

/** Every number may be null, which says that it was not counted yet. Climate gases are told as a whole or not at all. */
export type Kept<T> = T extends number
  ? number | null
  : T extends readonly (infer Row)[]
    ? Kept<Row>[]
    : T extends object
      ? { [K in keyof T]: K extends 'climate' ? T[K] : Kept<T[K]> }
      : T;

export const KeptSeason = keptOf(Season) as unknown as z.ZodType<Kept<z.infer<typeof Season>>>;
export type KeptSeason = z.infer<typeof KeptSeason>;

function saidAs(before: z.ZodType, after: z.ZodType): z.ZodType {
  return before.description === undefined ? after : after.describe(before.description);
}

function keptOf(schema: z.ZodType): z.ZodType {
  if (schema instanceof z.ZodObject)
    return saidAs(
      schema,
      z.object(
        Object.fromEntries(
          Object.entries(schema.shape as Record<string, z.ZodType>).map(([key, part]) => [key, key === 'climate' ? part : keptOf(part)]),
        ),
      ),
    );
  if (schema instanceof z.ZodArray) return saidAs(schema, z.array(keptOf(schema.element as z.ZodType)));
  if (schema instanceof z.ZodNullable) return saidAs(schema, keptOf(schema.unwrap() as z.ZodType).nullable());
  if (schema instanceof z.ZodNumber) return saidAs(schema, schema.nullable());
  return schema;
}

/** What an older report lacks, filled in: null where that is allowed; what is there stays as it was. */
export const filledSeason = (kept: unknown): KeptSeason => filled(KeptSeason, kept) as KeptSeason;

function filled(schema: z.ZodType, kept: unknown): unknown {
  if (schema instanceof z.ZodNullable) return kept === undefined || kept === null ? null : filled(schema.unwrap() as z.ZodType, kept);
  if (schema instanceof z.ZodArray) return ((kept ?? []) as unknown[]).map((row) => filled(schema.element as z.ZodType, row));
  if (!(schema instanceof z.ZodObject)) return kept;
  const fields = (kept ?? {}) as Record<string, unknown>;
  return Object.fromEntries(
    Object.entries(schema.shape as Record<string, z.ZodType>).map(([key, part]) => [key, filled(part, fields[key])]),
  );
}
