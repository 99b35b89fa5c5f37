/** Filling gaps: runs are started, read, and sent out as invitations. */
import { setTimeout as delay } from 'node:timers/promises';
import type { InvitationsNew, RotaRun, RotaRunHead, RotaRunNew } from '@middenry/contract';
import type * as z from 'zod';
import type { Signed } from '../context.ts';
import {
  insertRotaRun,
  inviteProposal,
  proposalsOfRun,
  type RotaProposalRow,
  type RotaRunRow,
  rotaRunById,
  rotaRuns,
} from '../db/repositories/rota.ts';
import { shiftById } from '../db/repositories/shift.ts';
import { findSite } from '../db/repositories/site.ts';
import { refuse, refuseField } from '../refusal.ts';
import { daysBetween, startOf } from './local-time.ts';
import { tellInvitation } from './messages/occasions.ts';
import { once } from './once.ts';
import { startSearch } from './rota-search.ts';
import { lookupsFor, runHead, runShape, shiftRefOf, stateOf } from './rota-shape.ts';

/** A small rota is done by then, so that one call is enough. */
const WAITED_MS = 4000;
/** Half a year: more than anybody plans, and as much as a search can hold. */
const MOST_DAYS = 190;
const RUNS_LISTED = 20;
const MINUTE_MS = 60_000;
/** Time to answer: three days, or half of what is left before the shift, but never less than half an hour. */
const ANSWER_MOST_MS = 72 * 60 * MINUTE_MS;
const ANSWER_LEAST_MS = 30 * MINUTE_MS;

export async function fillGaps(call: Signed, body: z.output<typeof RotaRunNew>): Promise<RotaRun> {
  const { store, who, now, solver } = call;
  const { id, from, to, siteIds, seconds } = body;
  let made: RotaRunRow | null = null;
  const find = (): RotaRunRow => runOrRefuse(call, id);
  const make = (): RotaRunRow => {
    if (from > to) throw refuseField('/to', 'must not be before the first day');
    if (daysBetween(from, to) >= MOST_DAYS) throw refuseField('/to', `must be within ${MOST_DAYS} days of the first`);
    const strange = siteIds.findIndex((siteId) => findSite(store, siteId) === undefined);
    if (strange >= 0) throw refuseField(`/siteIds/${strange}`, 'is no site');
    insertRotaRun(store, { id, from, to, seconds, siteIds: JSON.stringify(siteIds), madeBy: who.personId, madeAt: now.toISOString() });
    call.audit('rota.gaps-filled', id, { from, to, sites: siteIds.length });
    made = find();
    return made;
  };
  once(call, 'fillGaps', body, { make, find });
  if (made !== null) startSearch(call, made);
  const waited = new AbortController();
  await Promise.race([solver.searches.get(id), delay(WAITED_MS, undefined, { signal: waited.signal, ref: false }).catch(() => undefined)]);
  waited.abort();
  return readRotaRun(call, id);
}

export function listRotaRuns(call: Signed): z.output<typeof RotaRunHead>[] {
  const lookups = lookupsFor(call);
  return rotaRuns(call.store, RUNS_LISTED).map((run) => runHead(call, run, lookups));
}

export const readRotaRun = (call: Signed, id: string): RotaRun => runShape(call, runOrRefuse(call, id));

function runOrRefuse(call: Signed, id: string): RotaRunRow {
  const run = rotaRunById(call.store, id);
  if (run === null) throw refuse('not-found');
  return run;
}

/** Sends all that are only proposed, or those named; what went some other way in between is left out. */
export function sendInvitations(call: Signed, runId: string, body: z.output<typeof InvitationsNew>): RotaRun {
  const make = (): RotaRun => {
    runOrRefuse(call, runId);
    const rows = proposalsOfRun(call.store, runId);
    const known = new Set(rows.map(({ id }) => id));
    const strange = (body.proposalIds ?? []).findIndex((id) => !known.has(id));
    if (strange >= 0) throw refuseField(`/proposalIds/${strange}`, 'is not a proposal of this run');
    const sent = rows.filter(({ id }) => body.proposalIds?.includes(id) ?? true).filter((row) => invite(call, row));
    call.audit('rota.invited', runId, { people: sent.length });
    return readRotaRun(call, runId);
  };
  return once(call, 'sendInvitations', { ...body, runId }, { make, find: () => readRotaRun(call, runId) });
}

function invite(call: Signed, row: RotaProposalRow): boolean {
  const shift = shiftById(call.store, row.shiftId)!;
  if (stateOf(call, row, shiftRefOf(call, shift)) !== 'proposed') return false;
  const until = answerUntil(call.now, startOf(shift).startsAt);
  if (until <= call.now) return false;
  inviteProposal(call.store, row.id, { at: call.now.toISOString(), until: until.toISOString() });
  tellInvitation(call, { id: row.id, personId: row.personId, shift, until });
  return true;
}

export function answerUntil(now: Date, startsAt: Date): Date {
  const leftMs = startsAt.getTime() - now.getTime();
  const givenMs = Math.max(ANSWER_LEAST_MS, Math.min(ANSWER_MOST_MS, leftMs / 2));
  return new Date(now.getTime() + Math.min(leftMs, Math.floor(givenMs)));
}
