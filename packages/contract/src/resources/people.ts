import * as z from 'zod';
import { ClientId, Id, Instant, Name, Role } from '../common.ts';
import { coordinators, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';

export const Person = z.object({
  id: Id,
  name: z.string(),
  role: Role,
  owner: z.boolean(),
  siteIds: z.array(Id),
  email: z.string().nullable(),
  isAdult: z.boolean().describe('marked 18 or over'),
  cleared: z.boolean().describe('cleared by a coordinator to count as an adult where pupils are'),
  disabled: z.boolean(),
  createdAt: Instant,
});
export type Person = z.infer<typeof Person>;
export const PersonNew = z
  .object({
    id: ClientId,
    name: Name,
    role: Role,
    siteIds: z.array(Id).max(50).default([]),
    email: z.email().max(254).nullable().default(null),
    isAdult: z.boolean().default(true),
    password: z.string().min(15, 'must be at least 15 characters').max(256).optional(),
  })
  .strict();
export const PersonChange = z
  .object({
    name: Name,
    role: Role,
    siteIds: z.array(Id).max(50),
    email: z.email().max(254).nullable(),
    isAdult: z.boolean(),
    cleared: z.boolean(),
    disabled: z.boolean(),
    owner: z.boolean(),
  })
  .partial()
  .strict();

export const peopleRoutes = [
  {
    method: 'GET',
    path: '/api/people',
    name: 'listPeople',
    summary: 'People and their roles',
    tag: 'people',
    access: coordinators,
    own: 'nothing',
    answer: z.object({ items: z.array(Person) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/people',
    name: 'addPerson',
    summary: 'Add a person',
    tag: 'people',
    access: coordinators,
    own: 'nothing',
    body: PersonNew,
    answer: Person,
    status: 201,
  },
  {
    method: 'PATCH',
    path: '/api/people/:id',
    name: 'changePerson',
    summary: 'Change a role, disable',
    tag: 'people',
    access: coordinators,
    own: 'nothing',
    params: IdParams,
    body: PersonChange,
    answer: Person,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
