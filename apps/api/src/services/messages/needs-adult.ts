/** Tells coordinators and the site's leads when pupils come and too few adults do, whatever caused it (criteria C20). */
import { isBelievable } from '../../db/clock-sense.ts';
import { endMessages, openMessageShifts, timesOver } from '../../db/repositories/message.ts';
import { listPersons, type PersonRow } from '../../db/repositories/person.ts';
import { type ShiftRow, shiftById } from '../../db/repositories/shift.ts';
import { groupsOfShifts, shiftsWithGroups } from '../../db/repositories/shift-group.ts';
import { signUpsOfShifts } from '../../db/repositories/sign-up.ts';
import { type Store, write } from '../../db/store.ts';
import { addDays, localDateAt } from '../local-time.ts';
import { endOf, standingOf } from '../shift-shape.ts';
import { tell } from './tell.ts';

const KIND = 'needs-adult';

/** Looks at every shift to come with pupils; says how many messages are new. */
export function watchAdults(store: Store, now: Date): number {
  if (!isBelievable(now)) return 0;
  const ids = new Set([...shiftsWithGroups(store, addDays(localDateAt(now, 'UTC'), -1)), ...openMessageShifts(store, KIND)]);
  if (ids.size === 0) return 0;
  return write(store, () => [...ids].reduce((sum, id) => sum + watchOne(store, id, now), 0));
}

function watchOne(store: Store, shiftId: string, now: Date): number {
  const shift = shiftById(store, shiftId);
  if (shift === null) return 0;
  if (!isMissing(store, shift, now)) {
    endMessages(store, { kind: KIND, shiftId, at: now.toISOString() });
    return 0;
  }
  // Mended and broken again is another occasion; broken all along is the same one.
  const occasion = String(timesOver(store, KIND, shiftId));
  const goodUntil = new Date(endOf(shift));
  return leadsOf(store, shift).filter(({ id }) =>
    tell(store, { personId: id, kind: KIND, shiftId, occasion, now, urgent: true, goodUntil }),
  ).length;
}

function isMissing(store: Store, shift: ShiftRow, now: Date): boolean {
  if (shift.cancelledAt !== null || endOf(shift) <= now.getTime()) return false;
  const standing = standingOf(shift, { signUps: signUpsOfShifts(store, [shift.id]), groups: groupsOfShifts(store, [shift.id]) });
  return standing.state === 'needs-adult';
}

const leadsOf = (store: Store, { siteId }: ShiftRow): PersonRow[] =>
  listPersons(store).filter(
    ({ role, siteIds, disabled }) =>
      !disabled && (role === 'coordinator' || (role === 'site-lead' && (siteIds.length === 0 || siteIds.includes(siteId)))),
  );
