/** Photos in a report: a few, each with words, and none in which somebody does not consent to that (criteria D15). */
import * as z from 'zod';
import { Id, Instant } from '../common.ts';
import { leads, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';

export const SEASON_PHOTOS_MOST = 8;
const ALT_LENGTH = 200;

export const SeasonPhoto = z.object({
  photoId: Id,
  alt: z.string().describe('what it shows, for who cannot see it'),
  takenAt: Instant,
  binCode: z.string(),
  width: z.int(),
  height: z.int(),
});
export type SeasonPhoto = z.infer<typeof SeasonPhoto>;
export const SeasonPhotos = z.object({
  items: z.array(SeasonPhoto),
  gone: z.int().describe('photos that were chosen and may no longer be shown'),
});
export type SeasonPhotos = z.infer<typeof SeasonPhotos>;
const Alt = z
  .string()
  .trim()
  .min(1, 'say in words what the photo shows, for who cannot see it')
  .max(ALT_LENGTH, `must be at most ${ALT_LENGTH} characters`);
export const SeasonPhotosChosen = z.strictObject({
  photos: z
    .array(z.strictObject({ photoId: Id, alt: Alt }))
    .max(SEASON_PHOTOS_MOST, `a report shows at most ${SEASON_PHOTOS_MOST} photos; leave some out`)
    .refine((photos) => new Set(photos.map(({ photoId }) => photoId)).size === photos.length, 'holds a photo twice'),
});

export const seasonPhotoRoutes = [
  {
    method: 'GET',
    path: '/api/seasons/:id/photos',
    name: 'readSeasonPhotos',
    summary: "The photos of a season's report, and those that may be chosen",
    tag: 'season',
    access: leads,
    own: 'site',
    params: IdParams,
    answer: SeasonPhotos.extend({ choice: z.array(SeasonPhoto).describe('of its days and its site, the newest first') }),
    status: 200,
  },
  {
    method: 'PUT',
    path: '/api/seasons/:id/photos',
    name: 'putSeasonPhotos',
    summary: `Choose the photos of a season's report, at most ${SEASON_PHOTOS_MOST}, each with words`,
    tag: 'season',
    access: leads,
    own: 'site',
    params: IdParams,
    body: SeasonPhotosChosen,
    answer: SeasonPhotos,
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/published-seasons/:id/photos',
    name: 'readPublishedSeasonPhotos',
    summary: 'The photos of a published report that may still be shown, and how many are gone',
    tag: 'season',
    access: leads,
    own: 'site',
    params: IdParams,
    answer: SeasonPhotos,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
