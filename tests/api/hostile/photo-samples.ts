import { createHash } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { RouteName } from '@middenry/contract';
import { insertPhoto } from '../../../apps/api/src/db/repositories/photo.ts';
import { photoDirOf } from '../../../apps/api/src/photos/shelf.ts';
import { BINS, type Cast, freshId, PEOPLE } from '../../cast.ts';
import type { Make } from './sample.ts';

/** Sixteen by twelve pixels of brown. */
export const SMALL_JPEG = Buffer.from(
  '/9j/2wBDABQODxIPDRQSEBIXFRQYHjIhHhwcHj0sLiQySUBMS0dARkVQWnNiUFVtVkVGZIhlbXd7gYKBTmCNl4x9lnN+gXz/2wBDARUXFx4aHjshITt8U0ZTfHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHz/wAARCAAMABADASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAT/xAAUEAEAAAAAAAAAAAAAAAAAAAAA/8QAFQEBAQAAAAAAAAAAAAAAAAAAAwT/xAAUEQEAAAAAAAAAAAAAAAAAAAAA/9oADAMBAAIRAxEAPwCMBOd//9k=',
  'base64',
);

/** As it is kept; to send one for every stage would take longer than the test. */
export function makePhoto({ store, app }: Cast, id: string, binId: string): void {
  const dir = photoDirOf(app.middenry.config);
  const file = `${id.replaceAll('-', '')}.jpg`;
  mkdirSync(dir, { recursive: true });
  writeFileSync(join(dir, file), SMALL_JPEG);
  const at = '2026-11-25T09:30:00.000Z';
  const sha256 = createHash('sha256').update(SMALL_JPEG).digest('hex');
  const size = { bytes: SMALL_JPEG.length, width: 16, height: 12, sha256 };
  const whose = { id, binId, entryId: null, personId: PEOPLE.volunteer.id };
  insertPhoto(store, { ...whose, kind: 'bin', alt: 'Castings on top', takenAt: at, receivedAt: at, file, ...size });
}

export const photoSamples = {
  putPhoto: () => {
    const id = freshId();
    const query = new URLSearchParams({ binId: BINS.tote, takenAt: '2026-11-25T09:59:00Z', kind: 'visitor', people: 'none' });
    return {
      who: 'volunteer',
      url: `/api/photos/${id}?${query}`,
      params: { id },
      body: SMALL_JPEG,
      headers: { 'content-type': 'image/jpeg' },
    };
  },
  readPhoto: ({ photoId, schoolPhotoId }) => ({
    who: 'pupil',
    url: `/api/photos/${photoId}`,
    params: { id: photoId },
    notTheirs: [{ who: 'pupil', url: `/api/photos/${schoolPhotoId}` }],
  }),
  listPhotos: () => ({
    who: 'pupil',
    url: `/api/bins/${BINS.tote}/photos?limit=5`,
    params: { id: BINS.tote },
    notTheirs: [{ who: 'pupil', url: `/api/bins/${BINS.school}/photos` }],
  }),
  takeOffPhoto: ({ photoId, schoolPhotoId }) => ({
    who: 'volunteer',
    url: `/api/photos/${photoId}`,
    params: { id: photoId },
    notTheirs: [
      { who: 'otherVolunteer', url: `/api/photos/${photoId}` },
      { who: 'siteLead', url: `/api/photos/${schoolPhotoId}` },
    ],
  }),
} satisfies Partial<Record<RouteName, Make>>;
