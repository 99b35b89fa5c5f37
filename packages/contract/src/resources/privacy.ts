/** What is kept, and for how long; the page about it is written from this. */
import * as z from 'zod';
import { everyone, type RouteSpec } from '../route.ts';

export const KEPT_KEYS = [
  'pupils', // after the end of the season in which they were last here
  'sessions',
  'invites',
  'codes',
  'tries',
  'audit',
  'searches',
  'sentIds',
  'messages',
  'mailedCodes',
  'waitingSheets',
  'refusedRows',
  'hiddenPhotos', // of people who withdrew their consent, or whom nobody named
  'consents', // after they were withdrawn
  'backups',
] as const;
export const KeptKey = z.enum(KEPT_KEYS);
export type KeptKey = z.infer<typeof KeptKey>;

export const Privacy = z.object({
  kept: z.array(z.object({ what: KeptKey, days: z.int() })).describe('as the daily clearing away itself reads it'),
  mail: z.boolean().describe('mail goes out from here, so addresses are kept of whoever wants it'),
});

export const privacyRoutes = [
  {
    method: 'GET',
    path: '/api/privacy',
    name: 'readPrivacy',
    summary: 'What is kept for how many days',
    tag: 'system',
    access: everyone,
    own: 'nothing',
    answer: Privacy,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
