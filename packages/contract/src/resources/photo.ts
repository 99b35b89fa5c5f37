/** Photos of a bin or of a visitor in it. A photo is sent by itself, before or after its entry. */
import * as z from 'zod';
import { ClientId, Id, Instant, PersonRef } from '../common.ts';
import { grownUps, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';

export const PHOTO_KINDS = ['bin', 'visitor'] as const;
export const PHOTO_MOST_BYTES = 8 * 1024 * 1024;
/** Longer edge of what is kept, in pixels. */
export const PHOTO_EDGE = 1600;
const ALT_LENGTH = 200;

const PhotoParams = z.object({ id: ClientId });
export const PhotoQuery = z
  .object({
    binId: Id,
    entryId: Id.optional().describe('the entry that it belongs to; it may not have arrived yet'),
    takenAt: Instant,
    deviceAt: Instant.optional().describe(
      'what the clock of the phone says as it sends this: only so can the server tell by how much it is wrong',
    ),
    personId: Id.optional().describe('who took it, where it waited on a phone: it is taken from nobody else'),
    kind: z.enum(PHOTO_KINDS),
    people: z
      .enum(['none', 'some'])
      .describe('whether anybody can be seen in it; with some it is hidden until a coordinator has said who, each with a consent'),
    personIds: z
      .string()
      .transform((text) => text.split(','))
      .pipe(z.array(Id).max(40))
      .optional()
      .describe('by a coordinator: who is in it, parted by commas'),
    alt: z
      .string()
      .trim()
      .max(ALT_LENGTH, `must be at most ${ALT_LENGTH} characters`)
      .default('')
      .describe('what it shows, in words, for who cannot see it'),
  })
  .strict();

export const Photo = z.object({
  id: Id,
  binId: Id,
  entryId: Id.nullable(),
  kind: z.enum(PHOTO_KINDS),
  alt: z.string(),
  takenAt: Instant,
  by: PersonRef.nullable().describe('null when the person has been erased'),
  people: z.enum(['none', 'some']).describe('some: people can be seen in it, each with a consent'),
  mine: z.boolean(),
  mayTakeOff: z.boolean(),
  width: z.int(),
  height: z.int(),
  bytes: z.int(),
});
export type Photo = z.infer<typeof Photo>;

/** Pupils see photos of bins at their own group's site. */
const viewers = { anonymous: 'none', pupil: 'own', volunteer: 'any', 'site-lead': 'any', coordinator: 'any' } as const;

export const photoRoutes = [
  {
    method: 'PUT',
    path: '/api/photos/:id',
    name: 'putPhoto',
    summary: 'Send a photo: JPEG, PNG or WebP of at most 8 MB as the body; it is kept upright, at most 1600 px, without metadata',
    tag: 'photo',
    access: grownUps,
    own: 'nothing',
    params: PhotoParams,
    query: PhotoQuery,
    takes: 'image',
    answer: Photo,
    status: 201,
  },
  {
    method: 'GET',
    path: '/api/photos/:id',
    name: 'readPhoto',
    summary: 'A photo as JPEG',
    tag: 'photo',
    access: viewers,
    own: 'site',
    params: IdParams,
    contentType: 'image/jpeg',
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/bins/:id/photos',
    name: 'listPhotos',
    summary: "A bin's photos, newest first",
    tag: 'photo',
    access: viewers,
    own: 'site',
    params: IdParams,
    query: z.object({ limit: z.coerce.number().int().min(1).max(100).default(12) }),
    answer: z.object({ items: z.array(Photo) }),
    status: 200,
  },
  {
    method: 'DELETE',
    path: '/api/photos/:id',
    name: 'takeOffPhoto',
    summary: 'Take a photo off: file and row are gone at once',
    tag: 'photo',
    access: { anonymous: 'none', pupil: 'none', volunteer: 'own', 'site-lead': 'own', coordinator: 'any' },
    own: 'photo',
    params: IdParams,
    status: 204,
  },
] as const satisfies readonly RouteSpec[];
