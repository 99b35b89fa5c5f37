/**
 * Small shared shapes of the API. Times: an instant is UTC with `Z`; a day is a local date of the
 * site. Masses are kilograms with at most three decimals at the edge and whole grams in the store.
 */
import * as z from 'zod';

z.config({ jitless: true });

/** Made by the client when a form opens (UUIDv7), so that a retry is the same thing. */
export const ClientId = z.uuidv7({ error: 'must be a UUIDv7 made by the client' });
export const Id = z.uuid({ error: 'must be a UUID' });
export const LocalDate = z.iso.date({ error: 'must be a date like 2026-11-25' });
export const LocalTime = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'must be a time like 09:30');
export const Instant = z.iso.datetime({ error: 'must be an instant like 2026-11-25T08:40:00Z' });
export const Name = z.string().trim().min(1, 'must not be empty').max(80, 'must be at most 80 characters');
export const Note = z.string().trim().max(2000, 'must be at most 2000 characters');
export const BinCode = z
  .string()
  .trim()
  .toUpperCase()
  .regex(/^[A-Z0-9]{2,4}$/, 'must be 2 to 4 letters or digits');

/** 1 g to 500 kg in one go: more than any hand can carry is a slip of the finger. */
export const MassKg = z.number().min(0.001, 'must be at least 0.001 kg').max(500, 'must be at most 500 kg');
export const MassKgOrZero = z.number().min(0, 'must not be negative').max(500, 'must be at most 500 kg');

export const MASS_UNITS = ['kg', 'g', 'lb', 'oz'] as const;
/** The value and unit as typed, kept beside the stored grams. */
export const Typed = z.object({ value: z.number().min(0).max(1_000_000), unit: z.enum([...MASS_UNITS, 'container']) });

export const ROLES = ['pupil', 'volunteer', 'site-lead', 'coordinator'] as const;
export const Role = z.enum(ROLES);
export type Role = z.infer<typeof Role>;

export const SpreadShape = z.object({ p10: z.number(), p50: z.number(), p90: z.number() });
export const Band = z.enum(['settled', 'watch', 'act', 'unknown']);

export const PersonRef = z.object({ id: Id, name: z.string() });
export const Empty = z.object({});
