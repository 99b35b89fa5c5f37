/** Entries that waited long on a phone are told to the coordinators: until then nobody else knew of them (criteria B18). */
import type { Signed } from '../context.ts';
import { listPersons } from '../db/repositories/person.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import { tell } from './messages/tell.ts';

const KIND = 'late-entries';
const LATE_HOURS = 72;
/** A phone's clock that stood still for years says nothing of how long they waited. */
const MOST_HOURS = 8760;
const HOUR_MS = 3_600_000;

/**
 * Call it inside the write that took the entries. Both times are the phone's own, so a clock that is wrong does no harm; a phone is
 * told of once a day, and nobody is told of their own.
 *
 * @returns How many were told
 */
export function tellLateEntries(call: Signed, kept: readonly (string | undefined)[], deviceAt: string): number {
  const { store, who, now } = call;
  const waited = kept.map((keptAt) => (keptAt === undefined ? 0 : (Date.parse(deviceAt) - Date.parse(keptAt)) / HOUR_MS));
  const hours = Math.min(MOST_HOURS, Math.floor(Math.max(0, ...waited)));
  if (hours <= LATE_HOURS) return 0;
  const today = call.today(findProgramme(store)?.timeZone ?? 'UTC');
  const facts = { hours, byPersonId: who.personId };
  return listPersons(store)
    .filter(({ id, role, disabled }) => role === 'coordinator' && !disabled && id !== who.personId)
    .filter(({ id }) => tell(store, { personId: id, kind: KIND, occasion: `${who.sessionId} ${today}`, facts, now })).length;
}
