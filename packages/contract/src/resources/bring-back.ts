/** An export brought back where no programme has begun: sent in pieces, looked at, then taken whole or not at all (criteria G1, G11). */
import * as z from 'zod';
import { ClientId, Instant } from '../common.ts';
import { everyone, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';
import { Session } from './session.ts';
import { Password } from './setup.ts';

export const EXPORT_MOST_BYTES = 2 * 1024 ** 3;
/** Small enough to be through in two minutes on a slow line. */
export const PIECE_MOST_BYTES = 16 * 1024 * 1024;

const Code = z.string().trim().min(6).max(20).describe('as printed on the console; spaces and small letters are forgiven');
export const BringBackNew = z
  .object({
    id: ClientId,
    code: Code,
    bytes: z.int().min(1).max(EXPORT_MOST_BYTES, 'must be at most 2 GB').describe('how long the zip is'),
  })
  .strict();
export const BringBack = z.object({ id: z.string(), bytes: z.int(), received: z.int().describe('the next piece begins here') });
export const BringBackFound = z.object({
  programme: z.string(),
  madeAt: Instant,
  schema: z.int(),
  entries: z.int(),
  people: z.int(),
  sites: z.int(),
  bins: z.int(),
  shifts: z.int(),
  photos: z.int(),
  photosLost: z.int().describe('photos whose file was lost before the export was made'),
});
export const BringBackUse = z
  .object({
    code: Code,
    email: z.email().max(254).describe('of an owner in the export'),
    password: Password.describe('a new one for that owner, as no export holds passwords'),
  })
  .strict();

const PieceQuery = z
  .object({ at: z.coerce.number().int().min(0).max(EXPORT_MOST_BYTES).describe('where in the zip this piece begins') })
  .strict();
const usual = { tag: 'setup', access: everyone, own: 'nothing', params: IdParams } as const;

export const bringBackRoutes = [
  {
    ...{ tag: 'setup', access: everyone, own: 'nothing' },
    method: 'POST',
    path: '/api/setup/exports',
    name: 'beginBringBack',
    summary: 'Begin to send an export back, with the one-time code; what was sent before is forgotten',
    body: BringBackNew,
    answer: BringBack,
    status: 201,
  },
  {
    ...usual,
    method: 'PUT',
    path: '/api/setup/exports/:id',
    name: 'putBringBackPiece',
    summary: 'Send the next piece of the zip, at most 16 MB as the body; a piece that came before, or is not the next, is not taken',
    query: PieceQuery,
    takes: 'zip',
    answer: BringBack,
    status: 200,
  },
  {
    ...usual,
    method: 'POST',
    path: '/api/setup/exports/:id/checked',
    name: 'checkBringBack',
    summary: 'Check the whole zip, and say what is in it; nothing is taken yet',
    // Two gigabytes are read through.
    mostSeconds: 1800,
    answer: BringBackFound,
    status: 200,
  },
  {
    ...usual,
    method: 'POST',
    path: '/api/setup/exports/:id/taken',
    name: 'takeBringBack',
    summary: 'Take the export, all or nothing; its owner gets a new password and is signed in',
    body: BringBackUse,
    // Two gigabytes are read through, and every row is put in.
    mostSeconds: 3600,
    answer: Session,
    status: 201,
  },
] as const satisfies readonly RouteSpec[];
