import type { BoundRoute } from '../../routing/route.ts';
import { putSeasonPhotos } from '../season-photo/put-season-photos.ts';
import { readPublishedSeasonPhotos } from '../season-photo/read-published-season-photos.ts';
import { readSeasonPhotos } from '../season-photo/read-season-photos.ts';
import { listPhotos } from './list-photos.ts';
import { listPhotosOfPeople } from './list-photos-of-people.ts';
import { putPhoto } from './put-photo.ts';
import { putPhotoPeople } from './put-photo-people.ts';
import { readPhoto } from './read-photo.ts';
import { takeOffPhoto } from './take-off-photo.ts';

export const photoHandlers: readonly BoundRoute[] = [
  putPhoto,
  readPhoto,
  listPhotos,
  takeOffPhoto,
  listPhotosOfPeople,
  putPhotoPeople,
  readSeasonPhotos,
  putSeasonPhotos,
  readPublishedSeasonPhotos,
];
