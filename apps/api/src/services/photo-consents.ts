/** Whether photos of people may be taken in at all, and of whom (criteria C25). */
import type { Signed } from '../context.ts';
import { hasConsent } from '../db/repositories/consent.ts';
import { findPerson } from '../db/repositories/person.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import { refuse } from '../refusal.ts';

export const areOn = ({ store }: Pick<Signed, 'store'>): boolean => findProgramme(store)?.photosOfPeople === true;

/** Everybody named must consent now; nobody named only hides it. */
export function refuseUnconsented(call: Signed, personIds: readonly string[]): void {
  if (personIds.length === 0) return;
  if (!areOn(call)) throw refuse('photos-of-people-off');
  const missing = personIds.filter((id) => findPerson(call.store, id) === undefined || !hasConsent(call.store, id, 'photo'));
  if (missing.length > 0) throw refuse('consent-missing', { help: { personIds: missing } });
}
