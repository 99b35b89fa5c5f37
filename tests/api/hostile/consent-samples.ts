import type { RouteName } from '@middenry/contract';
import { insertConsent } from '../../../apps/api/src/db/repositories/consent.ts';
import { type Cast, freshId, PEOPLE } from '../../cast.ts';
import { changed, type Make } from './sample.ts';

export const consent = (id: string, personId: string, more: Record<string, unknown> = {}): Record<string, unknown> => ({
  ...{ id, personId, purpose: 'photo', givenBy: 'self', wording: 1 },
  ...more,
});

/** The volunteer's, for reports; there before any request. */
export function makeConsent({ store }: Cast, id: string): void {
  const personId = PEOPLE.volunteer.id;
  const givenAt = '2026-11-25T09:00:00.000Z';
  insertConsent(store, { id, personId, givenBy: 'self', purpose: 'report', wording: 1, givenAt, enteredBy: personId });
}

export const consentSamples = {
  listConsents: () => ({ who: 'coordinator', url: '/api/consents' }),
  listConsentWordings: () => ({ who: 'pupil', url: '/api/consent-wordings' }),
  listConsentsOf: () => ({
    who: 'volunteer',
    url: `/api/people/${PEOPLE.volunteer.id}/consents`,
    params: { id: PEOPLE.volunteer.id },
    notTheirs: [{ who: 'volunteer', url: `/api/people/${PEOPLE.otherVolunteer.id}/consents` }],
  }),
  giveConsent: () => {
    const body = consent(freshId(), PEOPLE.pupil.id, { givenBy: 'guardian' });
    return {
      who: 'coordinator',
      url: '/api/consents',
      body,
      notTheirs: [{ who: 'siteLead', url: '/api/consents', body }],
      also: changed(body, {
        'a pupil alone': { givenBy: 'self' },
        'words that nobody has published': { wording: 99 },
      }),
    };
  },
  withdrawConsent: ({ consentId }) => ({
    who: 'volunteer',
    url: `/api/consents/${consentId}`,
    params: { id: consentId },
    notTheirs: [{ who: 'otherVolunteer', url: `/api/consents/${consentId}` }],
  }),
  listPhotosOfPeople: () => ({ who: 'coordinator', url: '/api/photos-of-people' }),
  putPhotoPeople: ({ photoId, schoolPhotoId }) => {
    const body = { people: 'some', personIds: [] };
    return {
      who: 'volunteer',
      url: `/api/photos/${photoId}/people`,
      params: { id: photoId },
      body,
      notTheirs: [{ who: 'siteLead', url: `/api/photos/${schoolPhotoId}/people`, body }],
    };
  },
  readSeasonPhotos: ({ namedSeasonId, schoolNamedSeasonId }) => ({
    who: 'siteLead',
    url: `/api/seasons/${namedSeasonId}/photos`,
    params: { id: namedSeasonId },
    notTheirs: [{ who: 'siteLead', url: `/api/seasons/${schoolNamedSeasonId}/photos` }],
  }),
  putSeasonPhotos: ({ namedSeasonId, schoolNamedSeasonId, photoId, schoolPhotoId }) => {
    const body = { photos: [{ photoId, alt: 'Castings on top' }] };
    return {
      who: 'siteLead',
      url: `/api/seasons/${namedSeasonId}/photos`,
      params: { id: namedSeasonId },
      body,
      notTheirs: [{ who: 'siteLead', url: `/api/seasons/${schoolNamedSeasonId}/photos`, body }],
      also: changed(body, {
        'a photo of another site': { photos: [{ photoId: schoolPhotoId, alt: 'Castings' }] },
        'a photo twice': { photos: [1, 2].map(() => ({ photoId, alt: 'Castings' })) },
        'a photo without words': { photos: [{ photoId, alt: ' ' }] },
      }),
    };
  },
  readPublishedSeasonPhotos: ({ publishedSeasonId, schoolPublishedSeasonId }) => ({
    who: 'siteLead',
    url: `/api/published-seasons/${publishedSeasonId}/photos`,
    params: { id: publishedSeasonId },
    notTheirs: [{ who: 'siteLead', url: `/api/published-seasons/${schoolPublishedSeasonId}/photos` }],
  }),
} satisfies Partial<Record<RouteName, Make>>;
