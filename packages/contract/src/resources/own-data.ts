/** What is known of a person: taken along by them, or erased. */
import * as z from 'zod';
import { coordinators, grownUps, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';

export const ErasureProof = z
  .object({
    password: z.string().max(256).optional().describe('of whoever has one'),
    code: z
      .string()
      .trim()
      .max(40)
      .transform((text) => text.toUpperCase().replace(/[\s-]/g, ''))
      .optional()
      .describe('with a password: of the authenticator, where one is set up; without: from a coordinator or from another device of theirs'),
  })
  .strict();

export const ownDataRoutes = [
  {
    method: 'GET',
    path: '/api/people/:id/data.zip',
    name: 'readPersonData',
    summary: 'All that is known of a person as one zip: CSV and JSON, their photos, an explanation in words; nothing of anybody else',
    tag: 'people',
    access: { ...grownUps, volunteer: 'own', 'site-lead': 'own' },
    own: 'person',
    params: IdParams,
    sends: 'file',
    sums: true,
    contentType: 'application/zip',
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/me/erased',
    name: 'eraseMe',
    summary: 'Erase me; what I noted stays without my name, and cannot be brought back to me',
    tag: 'people',
    access: grownUps,
    own: 'nothing',
    body: ErasureProof,
    status: 204,
  },
  {
    method: 'DELETE',
    path: '/api/people/:id',
    name: 'erasePerson',
    summary: 'Erase somebody who asked for it; what they noted stays without their name',
    tag: 'people',
    access: coordinators,
    own: 'nothing',
    params: IdParams,
    status: 204,
  },
] as const satisfies readonly RouteSpec[];
