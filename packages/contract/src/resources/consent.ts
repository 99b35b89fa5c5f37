/** Consents to photos: who gave one, for whom, to what, by which words, since when and until when (criteria C25). */
import * as z from 'zod';
import { ClientId, Id, Instant, LocalDate, PersonRef } from '../common.ts';
import { coordinators, grownUps, members, owners, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';

export const CONSENT_PURPOSES = ['photo', 'report'] as const;
export type ConsentPurpose = (typeof CONSENT_PURPOSES)[number];
/** An adult for themselves; for a pupil a guardian or the school, of whom no name is kept. */
export const CONSENT_GIVERS = ['self', 'guardian', 'school'] as const;
export type ConsentGiver = (typeof CONSENT_GIVERS)[number];
const Purpose = z.enum(CONSENT_PURPOSES).describe('photo: shown to members of the programme; report: shown in reports');
const Giver = z.enum(CONSENT_GIVERS);

export const Consent = z.object({
  id: Id,
  person: PersonRef.nullable().describe('for whom; null when the person has been erased'),
  givenBy: Giver,
  purpose: Purpose,
  wording: z.int().describe('number of the words that were read; see consent-wordings'),
  givenAt: Instant,
  enteredBy: PersonRef.nullable().describe('null when the person has been erased'),
  withdrawnAt: Instant.nullable(),
});
export type Consent = z.infer<typeof Consent>;
export const ConsentNew = z.strictObject({
  id: ClientId,
  personId: Id,
  purpose: Purpose,
  givenBy: Giver,
  wording: z.int().min(1).describe('of the words that whoever gave it has read: the newest'),
});
const words = z.object({ photo: z.string(), report: z.string() });
export const ConsentWording = z.object({
  version: z.int(),
  publishedOn: LocalDate,
  self: words.describe('for whoever speaks for themselves'),
  pupil: words.describe('for a guardian or a school'),
});
export type ConsentWording = z.infer<typeof ConsentWording>;

const own = { ...grownUps, volunteer: 'own', 'site-lead': 'own' } as const;

export const consentRoutes = [
  {
    method: 'GET',
    path: '/api/consents',
    name: 'listConsents',
    summary: 'Consents of everybody, those that hold first',
    tag: 'consent',
    access: coordinators,
    own: 'nothing',
    answer: z.object({ items: z.array(Consent) }),
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/consent-wordings',
    name: 'listConsentWordings',
    summary: 'The words of consents, the newest first; older ones stay readable',
    tag: 'consent',
    access: members,
    own: 'nothing',
    answer: z.object({ items: z.array(ConsentWording) }),
    status: 200,
  },
  {
    method: 'GET',
    path: '/api/people/:id/consents',
    name: 'listConsentsOf',
    summary: "One person's consents",
    tag: 'consent',
    access: owners,
    own: 'person',
    params: IdParams,
    answer: z.object({ items: z.array(Consent) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/consents',
    name: 'giveConsent',
    summary: 'Consent for oneself, or as a coordinator note what the guardian or the school of a pupil consented to',
    tag: 'consent',
    access: own,
    own: 'person',
    body: ConsentNew,
    answer: Consent,
    status: 201,
  },
  {
    method: 'DELETE',
    path: '/api/consents/:id',
    name: 'withdrawConsent',
    summary: 'Withdraw: photos are hidden at once and deleted within 30 days; the record stays a year',
    tag: 'consent',
    access: own,
    own: 'person',
    params: IdParams,
    status: 204,
  },
] as const satisfies readonly RouteSpec[];
