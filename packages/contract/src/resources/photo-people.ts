/** Who can be seen in a photo. It is shown only while the programme shows people and everybody in it consents (criteria C25). */
import * as z from 'zod';
import { Id, Instant, PersonRef } from '../common.ts';
import { coordinators, grownUps, type RouteSpec } from '../route.ts';
import { Photo } from './photo.ts';
import { IdParams } from './place.ts';

const MOST_PEOPLE = 40;
export const PhotoPeople = z
  .strictObject({ people: z.enum(['none', 'some']), personIds: z.array(Id).max(MOST_PEOPLE).default([]) })
  .refine((body) => body.people === 'some' || body.personIds.length === 0, { error: 'nobody is in it', path: ['personIds'] });

export const PhotoOfPeople = z.object({
  ...Photo.shape,
  state: z.enum(['shown', 'waiting', 'hidden']).describe('waiting: for a coordinator to name who is in it; hidden: from everybody'),
  named: z.array(PersonRef),
  deletedOn: Instant.nullable().describe('when it is deleted at the latest if nothing changes'),
});
export type PhotoOfPeople = z.infer<typeof PhotoOfPeople>;

export const photoPeopleRoutes = [
  {
    method: 'GET',
    path: '/api/photos-of-people',
    name: 'listPhotosOfPeople',
    summary: 'Photos with people in them: shown, waiting for names, or hidden',
    tag: 'photo',
    access: coordinators,
    own: 'nothing',
    answer: z.object({ on: z.boolean().describe('the programme shows photos of people'), items: z.array(PhotoOfPeople) }),
    status: 200,
  },
  {
    method: 'PUT',
    path: '/api/photos/:id/people',
    name: 'putPhotoPeople',
    summary: 'Say that people are in a photo, which hides it at once, and as a coordinator who they are, each with a consent',
    tag: 'photo',
    access: { ...grownUps, volunteer: 'own', 'site-lead': 'own' },
    own: 'photo',
    params: IdParams,
    body: PhotoPeople,
    answer: PhotoOfPeople,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
