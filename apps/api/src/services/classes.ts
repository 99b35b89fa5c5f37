import { randomInt } from 'node:crypto';
import { CARD_LENGTH, type ClassNew, PICTURES, type PupilCard, type PupilClass, type PupilNew } from '@middenry/contract';
import type * as z from 'zod';
import type { Signed } from '../context.ts';
import {
  type ClassRow,
  classNameTaken,
  findClass,
  findClassByCode,
  findPupil,
  findPupilByCard,
  insertClass,
  insertPupil,
  listClasses,
  listPupils,
} from '../db/repositories/class.ts';
import { deleteCredentials, insertCredential } from '../db/repositories/credential.ts';
import { findPerson, insertPerson, setMemberships } from '../db/repositories/person.ts';
import { endSessionsOf } from '../db/repositories/session.ts';
import { type Store, write } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { erase } from './erasure/erase.ts';
import { once } from './once.ts';
import { hashOf, newCode } from './secret.ts';
import { siteOf } from './sites.ts';

const CODE_LENGTH = 5;

type Card = z.output<typeof PupilCard>;

export function classShape(store: Store, row: ClassRow): z.output<typeof PupilClass> {
  return { ...row, pupils: listPupils(store, row.id).map(({ id, name }) => ({ id, name })) };
}

/** Classes of the sites that this person leads. */
export function classesFor({ store, who }: Signed): z.output<typeof PupilClass>[] {
  const mine = listClasses(store).filter(({ siteId }) => who.role === 'coordinator' || who.siteIds.includes(siteId));
  return mine.map((row) => classShape(store, row));
}

export function classOf(store: Store, id: string): ClassRow {
  const found = findClass(store, id);
  if (found === undefined) throw refuse('not-found');
  return found;
}

export function addClass(context: Signed, body: z.output<typeof ClassNew>): z.output<typeof PupilClass> {
  const { store } = context;
  return once(context, 'addClass', body, {
    make: () => {
      siteOf(store, body.siteId);
      if (classNameTaken(store, body.siteId, body.name)) throw refuse('name-taken');
      insertClass(store, { ...body, code: freshClassCode(store) }, context.now.toISOString());
      context.audit('class-added', body.id);
      return classShape(store, classOf(store, body.id));
    },
    find: () => classShape(store, classOf(store, body.id)),
  });
}

function freshClassCode(store: Store): string {
  const code = newCode(CODE_LENGTH);
  return findClassByCode(store, code) === undefined ? code : freshClassCode(store);
}

/** The class of a pupil, which says which site they belong to. */
export function classOfPupil(store: Store, pupilId: string): ClassRow {
  const pupil = findPupil(store, pupilId);
  if (pupil === undefined) throw refuse('not-found');
  return classOf(store, pupil.classId);
}

/** The card is in this answer only, so sending the same id again cannot give the same answer; a lost card is made anew. */
export function addPupil(context: Signed, group: ClassRow, body: z.output<typeof PupilNew>): Card {
  const { store } = context;
  return write(store, () => {
    if (findPerson(store, body.id) !== undefined) throw refuse('same-id-other-content');
    const at = context.now.toISOString();
    insertPerson(store, { id: body.id, name: body.name, email: null, isAdult: false, owner: false, createdAt: at });
    setMemberships(store, body.id, 'pupil', [group.siteId], at);
    insertPupil(store, body.id, group.id);
    context.audit('pupil-added', body.id, { classId: group.id });
    return newCard(context, group, body.id);
  });
}

export function renewCard(context: Signed, group: ClassRow, pupilId: string): Card {
  return write(context.store, () => {
    endSessionsOf(context.store, pupilId, context.now.toISOString());
    context.audit('card-renewed', pupilId);
    return newCard(context, group, pupilId);
  });
}

function newCard(context: Signed, group: ClassRow, pupilId: string): Card {
  const { store, now } = context;
  const pictures = Array.from({ length: CARD_LENGTH }, () => PICTURES[randomInt(PICTURES.length)]!);
  const secret = cardHash(group.id, pictures);
  // Two cards alike in one class would sign one pupil in as the other.
  if (findPupilByCard(store, group.id, secret) !== undefined) return newCard(context, group, pupilId);
  deleteCredentials(store, pupilId, 'picture');
  insertCredential(store, { personId: pupilId, kind: 'picture', secret, createdAt: now.toISOString() });
  return { id: pupilId, name: findPupil(store, pupilId)!.name, classCode: group.code, pictures };
}

export const cardHash = (classId: string, pictures: readonly string[]): string => hashOf('card', classId, ...pictures);

export const erasePupil = (context: Signed, pupilId: string): void => erase(context, pupilId, 'pupil-erased');
