/** Beginning a programme of one's own, with the one-time code from the console. */
import * as z from 'zod';
import { ClientId, Name } from '../common.ts';
import { everyone, type RouteSpec } from '../route.ts';
import { BinNew, SiteNew } from './place.ts';
import { Session, UNIT_SYSTEMS } from './session.ts';

export const Setup = z.object({ open: z.boolean().describe('no programme yet, and a setup code is waiting to be typed in') });
export const Password = z.string().min(15, 'must be at least 15 characters').max(256, 'must be at most 256 characters');
export const SetupUse = z
  .object({
    code: z.string().trim().min(6).max(20).describe('as printed on the console; spaces and small letters are forgiven'),
    programme: z
      .object({
        name: Name,
        timeZone: z.string().max(64),
        units: z.enum(UNIT_SYSTEMS).default('metric'),
        locale: z.string().min(2).max(35).default('en-GB'),
      })
      .strict(),
    coordinator: z.object({ id: ClientId, name: Name, email: z.email().max(254), password: Password }).strict(),
    site: SiteNew.omit({ timeZone: true }).strict().describe("its time zone is the programme's"),
    bins: z
      .array(BinNew.omit({ siteId: true }).strict())
      .max(20)
      .default([]),
  })
  .strict();

export const setupRoutes = [
  {
    method: 'GET',
    path: '/api/setup',
    name: 'readSetup',
    summary: 'Whether a programme may be begun here',
    tag: 'setup',
    access: everyone,
    own: 'nothing',
    answer: Setup,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/setup',
    name: 'beginProgramme',
    summary: 'Begin a programme of your own with the one-time code',
    tag: 'setup',
    access: everyone,
    own: 'nothing',
    body: SetupUse,
    answer: Session,
    status: 201,
  },
] as const satisfies readonly RouteSpec[];
