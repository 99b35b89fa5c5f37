import { randomUUID } from 'node:crypto';
import type { Person, PersonChange, PersonNew } from '@middenry/contract';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import { insertCredential } from '../db/repositories/credential.ts';
import {
  countOwners,
  findPerson,
  findPersonByEmail,
  insertPerson,
  listPersons,
  type PersonRow,
  type RoleName,
  setMemberships,
  updatePerson,
} from '../db/repositories/person.ts';
import { endSessionsOf } from '../db/repositories/session.ts';
import { findSite } from '../db/repositories/site.ts';
import { type Store, write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { giveUpAllOf } from './leaving.ts';
import { hashNewPassword } from './new-password.ts';
import { once } from './once.ts';

export function personOf(store: Store, id: string): PersonRow {
  const person = findPerson(store, id);
  if (person === undefined) throw refuse('not-found');
  return person;
}

export const personShape = (row: PersonRow): Person => ({ ...row, siteIds: [...row.siteIds] });

/** Whoever looks at how to reach people leaves a trace. */
export function listPeople(context: Signed): { items: Person[] } {
  write(context.store, () => context.audit('contacts-seen'));
  return { items: listPersons(context.store).map(personShape) };
}

export async function addPerson(context: Signed, body: z.output<typeof PersonNew>): Promise<Person> {
  const { password, ...rest } = body;
  // Hashing waits its turn and so cannot happen inside the transaction.
  const secret = password === undefined ? null : await hashNewPassword(password, [rest.name, rest.email]);
  return once(context, 'addPerson', body, {
    make: () => {
      const person = { ...rest, email: rest.email?.toLowerCase() ?? null, owner: false, disabled: false };
      checkPerson(context.store, person, null);
      if (secret !== null && person.role === 'pupil') throw refuseField('/password', 'a pupil has no password');
      const at = context.now.toISOString();
      insertPerson(context.store, {
        id: person.id,
        name: person.name,
        email: person.email,
        isAdult: person.isAdult,
        owner: false,
        createdAt: at,
      });
      setMemberships(context.store, person.id, person.role, person.siteIds, at);
      if (secret !== null) insertCredential(context.store, { personId: person.id, kind: 'password', secret, createdAt: at });
      context.audit('person-added', person.id, { role: person.role });
      return personShape(personOf(context.store, person.id));
    },
    find: () => personShape(personOf(context.store, body.id)),
  });
}

interface MadePerson {
  readonly name: string;
  readonly role: Exclude<RoleName, 'pupil'>;
  readonly siteIds: readonly string[];
  readonly email: string | null;
  /** Hash of their password. */
  readonly secret: string | null;
}

/** An adult who comes in by an invite; gives their id. */
export function makePerson(context: Context, made: MadePerson): string {
  const { store } = context;
  const id = randomUUID();
  const at = context.now.toISOString();
  checkPerson(store, { ...made, isAdult: true, owner: false, disabled: false }, null);
  insertPerson(store, { id, name: made.name, email: made.email, isAdult: true, owner: false, createdAt: at });
  setMemberships(store, id, made.role, made.siteIds, at);
  if (made.secret !== null) insertCredential(store, { personId: id, kind: 'password', secret: made.secret, createdAt: at });
  context.audit('person-added', id, { role: made.role });
  return id;
}

export function changePerson(context: Signed, id: string, body: z.output<typeof PersonChange>): Person {
  return write(context.store, () => {
    const before = personOf(context.store, id);
    const after = { ...before, ...body, email: body.email === undefined ? before.email : (body.email?.toLowerCase() ?? null) };
    // The mark leaves with the role, so that nobody owns a programme they cannot manage.
    if (after.role !== 'coordinator' && body.owner !== true) after.owner = false;
    refuseOverreach(context, before, after);
    checkPerson(context.store, after, id);
    // Whoever turns out not to be 18 is no longer cleared either.
    after.cleared = after.cleared && after.isAdult;
    const at = context.now.toISOString();
    updatePerson(context.store, id, {
      name: after.name,
      email: after.email,
      isAdult: after.isAdult,
      ...(after.cleared === before.cleared ? {} : { clearedAt: after.cleared ? at : null }),
      owner: after.owner,
      disabled: after.disabled,
    });
    if (countOwners(context.store) === 0) throw refuse('last-owner');
    if (body.role !== undefined || body.siteIds !== undefined) setMemberships(context.store, id, after.role, after.siteIds, at);
    // What a role may do must not hang on a session that was begun in another: they sign in anew, under a new id.
    if (after.disabled || before.role !== after.role) endSessionsOf(context.store, id, at);
    // Pupils come by their group; who may not come at all holds no place that somebody else could fill.
    const mayNotCome = after.disabled || after.role === 'pupil' || !after.isAdult;
    const placesGivenBack = mayNotCome ? giveUpAllOf(context, id) : 0;
    context.audit('person-changed', id, { ...changesOf(before, after), ...(placesGivenBack > 0 ? { placesGivenBack } : {}) });
    return personShape(personOf(context.store, id));
  });
}

type PersonFacts = Pick<PersonRow, 'role' | 'owner' | 'email' | 'isAdult' | 'siteIds' | 'disabled'>;

/** Only an owner gives or takes the owner mark, and only an owner changes another owner. */
function refuseOverreach(context: Signed, before: PersonFacts & { id: string }, after: PersonFacts): void {
  if (context.who.owner) return;
  if (after.owner !== before.owner || (before.owner && before.id !== context.who.personId)) throw refuse('not-allowed');
}

function checkPerson(store: Store, person: PersonFacts, ownId: string | null): void {
  if (person.owner && person.role !== 'coordinator') throw refuseField('/owner', 'must be a coordinator');
  if (person.role === 'pupil' && person.isAdult) throw refuseField('/isAdult', 'a pupil is not an adult');
  if (person.role !== 'pupil' && person.role !== 'volunteer' && !person.isAdult) throw refuseField('/isAdult', 'must be an adult');
  // Of a pupil no way to reach them is kept.
  if (person.role === 'pupil' && person.email !== null) throw refuseField('/email', 'is not kept of a pupil');
  const stray = person.siteIds.findIndex((siteId) => findSite(store, siteId) === undefined);
  if (stray >= 0) throw refuse('not-found');
  if (person.role === 'site-lead' && person.siteIds.length === 0) throw refuseField('/siteIds', 'must name the site');
  if (person.role === 'coordinator' && person.siteIds.length > 0) throw refuseField('/siteIds', 'a coordinator sees every site');
  const sameEmail = person.email === null ? undefined : findPersonByEmail(store, person.email);
  if (sameEmail !== undefined && sameEmail.id !== ownId) throw refuseField('/email', 'belongs to somebody else');
}

/** Which fields changed; roles and marks with their values, since the audit is read for these. */
function changesOf(before: PersonRow, after: PersonRow): Record<string, unknown> {
  const shown = ['role', 'owner', 'disabled', 'isAdult', 'cleared'] as const;
  const told = Object.fromEntries(shown.filter((key) => before[key] !== after[key]).map((key) => [key, after[key]]));
  const quiet = (['name', 'email'] as const).filter((key) => before[key] !== after[key]);
  return quiet.length === 0 ? told : { ...told, fields: quiet };
}
