/** Stored shifts as the API shows them. */
import type { Shift } from '@middenry/contract';
import { adultStanding } from '@middenry/domain';
import type { Context, Who } from '../context.ts';
import { needsOfShifts } from '../db/repositories/availability.ts';
import { binsOfShifts, dutiesOfShifts, type ShiftRow } from '../db/repositories/shift.ts';
import { groupsOfShifts, type ShiftGroupRow } from '../db/repositories/shift-group.ts';
import { type SignUpRow, signUpsOfShifts } from '../db/repositories/sign-up.ts';
import { openSwapsOf } from '../db/repositories/swap.ts';
import { type WaitingRow, waitingOfShifts } from '../db/repositories/waiting.ts';
import { type LocalStart, startOf } from './local-time.ts';
import { FORMER, nameFor } from './names.ts';
import { swapShapes } from './swap-shape.ts';

const MS_PER_MINUTE = 60_000;

export function shiftShapes(call: Context, rows: readonly ShiftRow[]): Shift[] {
  if (rows.length === 0) return [];
  const ids = rows.map((row) => row.id);
  const bins = groupBy(binsOfShifts(call.store, ids), (row) => row.shiftId);
  const duties = groupBy(dutiesOfShifts(call.store, ids), (row) => row.shiftId);
  const needs = groupBy(needsOfShifts(call.store, ids), (row) => row.shiftId);
  const signUps = groupBy(signUpsOfShifts(call.store, ids), (row) => row.shiftId);
  const waiting = groupBy(waitingOfShifts(call.store, ids), (row) => row.shiftId);
  const groups = groupBy(groupsOfShifts(call.store, ids), (row) => row.shiftId);
  const swaps = groupBy(openSwapsOf(call.store, ids), (row) => row.shiftId);
  return rows.map((row) => {
    const { cancelledAt, ...rest } = row;
    const { startsAt, timeMoved } = startOf(row);
    const here = { signUps: signUps.get(row.id) ?? [], groups: groups.get(row.id) ?? [] };
    const isLead = leadsSite(call.who, row.siteId);
    return {
      ...rest,
      startsAt: startsAt.toISOString(),
      timeMoved,
      cancelled: cancelledAt !== null,
      over: endOf(row) <= call.now.getTime(),
      binIds: (bins.get(row.id) ?? []).map(({ binId }) => binId),
      duties: (duties.get(row.id) ?? []).map(({ binId, kind }) => ({ binId, kind })),
      needs: (needs.get(row.id) ?? []).map(({ skill, places }) => ({ skill, places })),
      signUps: here.signUps.map((signUp) => signUpShape(call, signUp)),
      groups: here.groups.map((group) => groupShape(group, isLead)),
      adults: standingOf(row, here),
      leastAdultsReason: isLead ? row.leastAdultsReason : '',
      swaps: swapShapes(call, swaps.get(row.id) ?? []),
      ...waitingShape(call, waiting.get(row.id) ?? []),
    };
  });
}

export const shiftShape = (call: Context, row: ShiftRow): Shift => shiftShapes(call, [row])[0]!;

/** The instant at which a shift is over [ms]. */
export const endOf = (row: LocalStart & { readonly minutes: number }): number =>
  startOf(row).startsAt.getTime() + row.minutes * MS_PER_MINUTE;

/** Whether the adults who come are enough for the pupils who do. */
export function standingOf(
  row: Pick<ShiftRow, 'leastAdults'>,
  { signUps, groups }: { readonly signUps: readonly SignUpRow[]; readonly groups: readonly ShiftGroupRow[] },
): Shift['adults'] {
  const adults = signUps.map(({ isAdult, cleared, disabled, attended }) => ({
    isAdult: isAdult === 1,
    cleared: cleared === 1,
    absent: disabled === 1 || attended === 0,
  }));
  return adultStanding({ groups, adults, leastAdults: row.leastAdults });
}

export const leadsSite = (who: Who | null, siteId: string): boolean =>
  who?.role === 'coordinator' || (who?.role === 'site-lead' && (who.siteIds.length === 0 || who.siteIds.includes(siteId)));

function groupShape(
  { id, classId, className, ageBand, pupils, names, checkedInAt }: ShiftGroupRow,
  isLead: boolean,
): Shift['groups'][number] {
  return { id, classId, className, ageBand, pupils, names: isLead ? (JSON.parse(names) as string[]) : [], checkedInAt };
}

function signUpShape({ who }: Context, row: SignUpRow): Shift['signUps'][number] {
  return {
    id: row.id,
    personId: row.personId,
    name: row.personName === null ? FORMER : nameFor(who, { id: row.personId, name: row.personName }),
    mine: row.personId === who?.personId,
    takenAt: row.takenAt,
    attended: row.attended === null ? null : row.attended === 1,
    minutes: row.minutes,
  };
}

function waitingShape({ who }: Context, rows: readonly WaitingRow[]): Pick<Shift, 'waitingCount' | 'myWait' | 'waiting'> {
  const at = rows.findIndex((row) => row.personId === who?.personId);
  const mine = rows[at];
  return {
    waitingCount: rows.length,
    myWait: mine === undefined ? null : { id: mine.id, position: at + 1, offeredUntil: mine.offerUntil },
    waiting:
      who?.role === 'coordinator'
        ? rows.map(({ id, personId, personName, joinedAt, offerUntil }) => ({
            id,
            personId,
            name: personName ?? FORMER,
            joinedAt,
            offeredUntil: offerUntil,
          }))
        : [],
  };
}

export function groupBy<T>(rows: readonly T[], keyOf: (row: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const group = groups.get(keyOf(row));
    if (group) group.push(row);
    else groups.set(keyOf(row), [row]);
  }
  return groups;
}
