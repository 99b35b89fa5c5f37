/** After a shift: what was done, partly done or missed, and who gave how many minutes. */
import type { Shift, ShiftResults } from '@middenry/contract';
import type * as z from 'zod';
import type { Signed } from '../context.ts';
import { sayResult, takeBackResult } from '../db/repositories/duty-result.ts';
import type { ShiftRow } from '../db/repositories/shift.ts';
import { dutiesOfShifts } from '../db/repositories/shift.ts';
import { noteAttendance, signUpsOfShifts } from '../db/repositories/sign-up.ts';
import { write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { startOf } from './local-time.ts';
import { leadsSite } from './shift-shape.ts';
import { readShift, shiftOrRefuse } from './shifts.ts';

type Body = z.output<typeof ShiftResults>;

/** Said by whoever was on the shift or leads the site; said again it replaces what was said. */
export function sayResults(call: Signed, shiftId: string, body: Body, own: (mine: boolean) => void): Shift {
  return write(call.store, () => {
    const shift = shiftOrRefuse(call, shiftId);
    const signUps = signUpsOfShifts(call.store, [shiftId]);
    const isLead = leadsSite(call.who, shift.siteId);
    own(isLead || signUps.some(({ personId }) => personId === call.who.personId));
    if (shift.cancelledAt !== null) throw refuse('shift-cancelled');
    if (startOf(shift).startsAt > call.now) throw refuse('date-in-future');
    noteResults(call, shift, body.results);
    body.came.forEach(({ signUpId, attended, minutes }, at) => {
      const row = signUps.find(({ id }) => id === signUpId);
      if (row === undefined || !(isLead || row.personId === call.who.personId))
        throw refuseField(`/came/${at}/signUpId`, 'is no place that you may speak of');
      noteAttendance(call.store, { id: row.id, attended: attended === null ? null : Number(attended), minutes });
    });
    return readShift(call, shiftId);
  });
}

function noteResults(call: Signed, shift: ShiftRow, results: Body['results']): void {
  const duties = dutiesOfShifts(call.store, [shift.id]);
  results.forEach(({ binId, kind, result, note }, at) => {
    if (!duties.some((duty) => duty.binId === binId && duty.kind === kind))
      throw refuseField(`/results/${at}/kind`, 'is no duty of this shift');
    const duty = { shiftId: shift.id, binId, kind };
    if (result === null) takeBackResult(call.store, duty);
    else sayResult(call.store, { ...duty, result, note, personId: call.who.personId, saidAt: call.now.toISOString() });
  });
}
