/** Pupils come to a shift in groups, signed up and checked in by an adult of the site (criteria C19, C20, C22). */
import * as z from 'zod';
import { ClientId, Id } from '../common.ts';
import { leads, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';
import { Shift } from './shift.ts';

export const PupilGroupNew = z
  .object({
    id: ClientId,
    classId: Id,
    pupils: z.int().min(1).max(60).optional().describe('how many come; left out where they are named'),
    pupilIds: z.array(Id).max(60).default([]).describe('which pupils of the class; none: only how many'),
  })
  .strict();
export const PupilGroupChange = z.object({ checkedIn: z.boolean() }).strict();
const GroupParams = z.object({ id: Id, groupId: Id });

export const pupilGroupRoutes = [
  {
    method: 'POST',
    path: '/api/shifts/:id/groups',
    name: 'addPupilGroup',
    summary: 'Sign up a group of pupils',
    tag: 'shift',
    access: leads,
    own: 'site',
    params: IdParams,
    body: PupilGroupNew,
    answer: Shift,
    status: 201,
  },
  {
    method: 'PATCH',
    path: '/api/shifts/:id/groups/:groupId',
    name: 'checkInPupils',
    summary: 'Check a group in when enough adults are there',
    tag: 'shift',
    access: leads,
    own: 'site',
    params: GroupParams,
    body: PupilGroupChange,
    answer: Shift,
    status: 200,
  },
  {
    method: 'DELETE',
    path: '/api/shifts/:id/groups/:groupId',
    name: 'takeOffPupilGroup',
    summary: 'Take a group of pupils off a shift',
    tag: 'shift',
    access: leads,
    own: 'site',
    params: GroupParams,
    answer: Shift,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
