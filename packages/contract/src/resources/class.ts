/** Classes of pupils. A pupil signs in with the class's code and a card of pictures: nothing to remember, no way to reach them kept. */
import { AGE_BANDS } from '@middenry/domain';
import * as z from 'zod';
import { ClientId, Empty, Id, Name } from '../common.ts';
import { everyone, leads, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';
import { Session } from './session.ts';

export { AGE_BANDS };
/** Pictures of a card, each with a word; four in a row make a card. */
export const PICTURES = [
  'acorn',
  'bell',
  'boat',
  'bridge',
  'button',
  'candle',
  'cloud',
  'drum',
  'feather',
  'fish',
  'hat',
  'key',
  'kite',
  'ladder',
  'lamp',
  'leaf',
  'moon',
  'mug',
  'pear',
  'shell',
  'spade',
  'star',
  'tent',
  'wheel',
] as const;
export const CARD_LENGTH = 4;
export const Card = z.array(z.enum(PICTURES)).length(CARD_LENGTH, 'must be four pictures');

export const PupilClass = z.object({
  id: Id,
  siteId: Id,
  name: z.string(),
  code: z.string(),
  ageBand: z.enum(AGE_BANDS),
  archived: z.boolean(),
  pupils: z.array(z.object({ id: Id, name: z.string() })),
});
export const ClassNew = z.object({ id: ClientId, siteId: Id, name: Name, ageBand: z.enum(AGE_BANDS) }).strict();
/** First name and initial, so that nobody types a whole name. */
export const PupilNew = z
  .object({
    id: ClientId,
    name: z
      .string()
      .trim()
      .regex(/^\p{L}[\p{L}'’-]{0,29} \p{Lu}\.?$/u, 'must be a first name and an initial, such as Juno B.'),
  })
  .strict();
export const PupilCard = z.object({
  id: Id,
  name: z.string(),
  classCode: z.string(),
  pictures: Card.describe('shown once; a lost card is made anew'),
});
export const PupilEntry = z
  .object({ classCode: z.string().trim().toUpperCase().length(5, 'must be five letters'), pictures: Card })
  .strict();

export const classRoutes = [
  {
    method: 'GET',
    path: '/api/classes',
    name: 'listClasses',
    summary: 'Classes and their pupils',
    tag: 'class',
    access: leads,
    own: 'nothing',
    answer: z.object({ items: z.array(PupilClass) }),
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/classes',
    name: 'addClass',
    summary: 'Add a class',
    tag: 'class',
    access: leads,
    own: 'site',
    body: ClassNew,
    answer: PupilClass,
    status: 201,
  },
  {
    method: 'POST',
    path: '/api/classes/:id/pupils',
    name: 'addPupil',
    summary: 'Add a pupil and make their card',
    tag: 'class',
    access: leads,
    own: 'site',
    params: IdParams,
    body: PupilNew,
    answer: PupilCard,
    status: 201,
  },
  {
    method: 'POST',
    path: '/api/pupils/:id/card',
    name: 'renewCard',
    summary: 'Make a lost card anew',
    tag: 'class',
    access: leads,
    own: 'site',
    params: IdParams,
    body: Empty,
    answer: PupilCard,
    status: 201,
  },
  {
    method: 'DELETE',
    path: '/api/pupils/:id',
    name: 'erasePupil',
    summary: 'Erase a pupil; what they noted stays without a name',
    tag: 'class',
    access: leads,
    own: 'site',
    params: IdParams,
    status: 204,
  },
  {
    method: 'POST',
    path: '/api/session/pupil',
    name: 'enterAsPupil',
    summary: 'Sign in with class code and picture card',
    tag: 'class',
    access: everyone,
    own: 'nothing',
    body: PupilEntry,
    answer: Session,
    status: 201,
  },
] as const satisfies readonly RouteSpec[];
