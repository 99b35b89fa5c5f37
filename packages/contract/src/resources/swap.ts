/** Handing a place over, or swapping it for another (criteria C5): who offers stays responsible until somebody accepts. */
import * as z from 'zod';
import { ClientId, Id } from '../common.ts';
import { grownUps, owners, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';
import { Shift } from './shift.ts';

export const SwapNew = z
  .object({
    id: ClientId,
    signUpId: Id.describe('my place on this shift'),
    toPersonId: Id.optional().describe('left out: anybody'),
    inReturn: z.array(Id).max(20).default([]).describe('shifts that I would take in return; none: I only hand over'),
  })
  .strict();
export const SwapAccept = z
  .object({
    id: ClientId,
    giveSignUpId: Id.optional().describe('my own place that I give in return, where the offer asks for one'),
  })
  .strict();

export const swapRoutes = [
  {
    method: 'POST',
    path: '/api/shifts/:id/swaps',
    name: 'offerSwap',
    summary: 'Offer a place of mine to somebody or to anybody',
    tag: 'shift',
    access: { ...owners, pupil: 'none' },
    own: 'sign-up',
    params: IdParams,
    body: SwapNew,
    answer: Shift,
    status: 201,
  },
  {
    method: 'POST',
    path: '/api/swaps/:id/accept',
    name: 'acceptSwap',
    summary: 'Take a place that is on offer',
    tag: 'shift',
    access: grownUps,
    own: 'nothing',
    params: IdParams,
    body: SwapAccept,
    answer: Shift,
    status: 201,
  },
  {
    method: 'DELETE',
    path: '/api/swaps/:id',
    name: 'endSwap',
    summary: 'Take an offer back, or say no to one that was made to me',
    tag: 'shift',
    access: { ...owners, pupil: 'none' },
    own: 'sign-up',
    params: IdParams,
    answer: Shift,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
