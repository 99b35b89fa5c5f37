import type { PupilEntry } from '@middenry/contract';
import type * as z from 'zod';
import type { Context, Who } from '../context.ts';
import { type ClassRow, findClassByCode, findPupilByCard, shiftsOn } from '../db/repositories/class.ts';
import { groupsOfShifts } from '../db/repositories/shift-group.ts';
import { clearTries, findTries, noteFailure } from '../db/repositories/sign-in-try.ts';
import { write } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { cardHash } from './classes.ts';
import { addDays, startOf } from './local-time.ts';
import { refuseWithoutAdults } from './pupil-groups.ts';
import { hashOf } from './secret.ts';
import { resolveSession, type StartedSession, startSession } from './session.ts';
import { waitSeconds } from './sign-in.ts';
import { siteOf } from './sites.ts';

const HOUR_MS = 3_600_000;
const MINUTE_MS = 60_000;
/** Small hands tap beside it: a class has more free tries than an account, and the same growing wait after them. */
const FREE_TRIES = 20;
const FORGOTTEN_MS = 2 * HOUR_MS;
const WITHOUT_SHIFT_MS = 2 * HOUR_MS;

/** Signs a pupil in with class code and card; one and the same refusal whether class or card is wrong. */
export function enterAsPupil(context: Context, body: z.output<typeof PupilEntry>): StartedSession & { who: Who } {
  const { store, now } = context;
  const account = hashOf('class', body.classCode);
  refuseTooSoon(context, account);
  const entered = write(store, () => {
    const group = findClassByCode(store, body.classCode);
    const pupil = group === undefined || group.archived ? undefined : findPupilByCard(store, group.id, cardHash(group.id, body.pictures));
    if (group === undefined || pupil === undefined) {
      noteFailure(store, account, now.toISOString());
      context.audit('sign-in-refused', group?.id ?? '', { code: 'card' });
      return null;
    }
    refuseAlone(context, group);
    const session = startSession(store, context.clock, { personId: pupil.id, kind: 'pupil', until: endOfVisit(context, group) });
    context.audit('signed-in', pupil.id, { kind: 'pupil' });
    return { ...session, who: resolveSession(store, now, session.token)! };
  });
  if (entered === null) throw refuse('wrong-sign-in', { detail: 'The class code or the card is not right.' });
  return entered;
}

function refuseTooSoon({ store, now }: Context, account: string): void {
  const tries = findTries(store, account);
  if (tries === undefined) return;
  const passedMs = now.getTime() - Date.parse(tries.lastFailureAt);
  if (passedMs > FORGOTTEN_MS) {
    write(store, () => clearTries(store, account));
    return;
  }
  const left = Math.ceil(waitSeconds(Math.max(0, tries.failures - FREE_TRIES)) - passedMs / 1000);
  if (left > 0) throw refuse('wait', { retryAfterSeconds: left });
}

/** Shifts at the class's site that are on, or begin within the hour, or ended less than an hour ago. */
function shiftsNow({ store, now, today }: Context, group: ClassRow) {
  const day = today(siteOf(store, group.siteId).timeZone);
  return shiftsOn(store, group.siteId, [addDays(day, -1), day])
    .map((shift) => {
      const startMs = startOf(shift).startsAt.getTime();
      return { ...shift, startMs, endMs: startMs + shift.minutes * MINUTE_MS + HOUR_MS };
    })
    .filter(({ startMs, endMs }) => startMs - HOUR_MS <= now.getTime() && now.getTime() < endMs);
}

/** One hour after the shift that is on at the site, or begins within the hour; two hours when there is none. */
function endOfVisit(context: Context, group: ClassRow): Date {
  const running = shiftsNow(context, group);
  return new Date(running.length === 0 ? context.now.getTime() + WITHOUT_SHIFT_MS : Math.max(...running.map(({ endMs }) => endMs)));
}

/** Where the class comes to a shift, nobody of it gets in before enough adults are there (criteria C20). */
function refuseAlone(context: Context, group: ClassRow): void {
  for (const shift of shiftsNow(context, group)) {
    const comes = groupsOfShifts(context.store, [shift.id]).some(({ classId }) => classId === group.id);
    if (comes) refuseWithoutAdults(context, shift);
  }
}
