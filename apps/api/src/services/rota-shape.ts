/** Runs of the rota as coordinators see them, and shifts in one line. */
import type { RotaProposal, RotaRun, RotaRunHead, RotaShiftRef } from '@middenry/contract';
import type * as z from 'zod';
import type { Context } from '../context.ts';
import { listPersons } from '../db/repositories/person.ts';
import { proposalsOfRun, type RotaProposalRow, type RotaRunRow } from '../db/repositories/rota.ts';
import { type ShiftRow, shiftById } from '../db/repositories/shift.ts';
import { isSignedUp } from '../db/repositories/sign-up.ts';
import { startOf } from './local-time.ts';
import { FORMER, nameFor } from './names.ts';
import type { ProposalFacts, RotaReport } from './rota-search.ts';
import { endOf } from './shift-shape.ts';

type ShiftRef = z.output<typeof RotaShiftRef>;
type PersonRef = RotaProposal['person'];

export function shiftRefOf(call: Context, row: ShiftRow): ShiftRef {
  const { id, title, siteId, siteName, localDate, localTime, minutes, places, taken, cancelledAt } = row;
  return {
    ...{ id, title, siteId, siteName, localDate, localTime, minutes, places, taken },
    startsAt: startOf(row).startsAt.toISOString(),
    cancelled: cancelledAt !== null,
    over: endOf(row) <= call.now.getTime(),
  };
}

/** Somebody could still take a place on it. */
export const isFree = ({ places, taken, cancelled, over }: Pick<ShiftRef, 'places' | 'taken' | 'cancelled' | 'over'>): boolean =>
  taken < places && !cancelled && !over;

/** As stored, or what the clock and other people have made of it. */
export function stateOf(call: Context, row: RotaProposalRow, shift: ShiftRef): RotaProposal['state'] {
  if (row.state === 'invited' && row.goodUntil !== null && Date.parse(row.goodUntil) <= call.now.getTime()) return 'run-out';
  const isWaiting = row.state === 'invited' || row.state === 'proposed';
  return isWaiting && (!isFree(shift) || isSignedUp(call.store, row.shiftId, row.personId)) ? 'gone' : row.state;
}

/** Each shift and person is looked up once for all lines that name it. */
interface Lookups {
  shift(id: string): ShiftRef;
  person(id: string): PersonRef;
}

export function lookupsFor(call: Context): Lookups {
  const names = new Map(listPersons(call.store).map(({ id, name }) => [id, name]));
  const shifts = new Map<string, ShiftRef>();
  return {
    shift: (id) => {
      const kept = shifts.get(id) ?? shiftRefOf(call, shiftById(call.store, id)!);
      shifts.set(id, kept);
      return kept;
    },
    person: (id) => {
      const name = names.get(id);
      return { id, name: name === undefined ? FORMER : nameFor(call.who, { id, name }) };
    },
  };
}

export function proposalShapes(call: Context, rows: readonly RotaProposalRow[], { shift, person }: Lookups): RotaProposal[] {
  return rows.map((row) => {
    const { why, ...facts } = JSON.parse(row.reason) as ProposalFacts;
    const { id, shiftId, personId, skill, invitedAt, goodUntil, answeredAt } = row;
    return {
      ...{ id, skill, invitedAt, goodUntil, answeredAt },
      ...facts,
      why: [...why],
      shift: shift(shiftId),
      person: person(personId),
      state: stateOf(call, row, shift(shiftId)),
    };
  });
}

export function runHead(call: Context, run: RotaRunRow, lookups: Lookups): z.output<typeof RotaRunHead> {
  const rows = proposalsOfRun(call.store, run.id);
  const states = rows.map((row) => stateOf(call, row, lookups.shift(row.shiftId)));
  const count = (wanted: RotaProposal['state']): number => states.filter((state) => state === wanted).length;
  const { id, from, to, madeBy, madeAt } = run;
  return {
    ...{ id, from, to, madeAt },
    siteIds: JSON.parse(run.siteIds) as string[],
    by: madeBy === null ? null : lookups.person(madeBy),
    // A restart ends a search without a word.
    status: run.status === 'working' && !call.solver.searches.has(id) ? 'stopped' : run.status,
    counts: {
      proposed: count('proposed'),
      invited: count('invited'),
      accepted: count('accepted'),
      declined: count('declined'),
      uncovered: (reportOf(run)?.gaps ?? []).reduce((sum, { uncovered }) => sum + uncovered, 0),
    },
  };
}

export function runShape(call: Context, run: RotaRunRow): RotaRun {
  const lookups = lookupsFor(call);
  const head = runHead(call, run, lookups);
  const proposals = proposalShapes(call, proposalsOfRun(call.store, run.id), lookups);
  const report = reportOf(run);
  if (report === null) return { ...head, gap: 0, stages: [], proposals, gaps: [], conflicts: [], fairness: null };
  const { shift, person } = lookups;
  const { rows, before, after } = report.fairness;
  return {
    ...head,
    gap: report.gap,
    stages: [...report.stages],
    proposals,
    gaps: report.gaps.map(({ shiftId, uncovered, adultsMissing, people, rules }) => ({
      ...{ uncovered, adultsMissing },
      shift: shift(shiftId),
      rules: [...rules],
      people: people.map(({ personId, hindrances }) => ({
        person: person(personId),
        hindrances: hindrances.map(({ rule, shiftIds, proposals: asked }) => ({
          rule,
          shifts: shiftIds.map(shift),
          proposed: asked.length > 0,
        })),
      })),
    })),
    conflicts: report.conflicts.map(({ rule, shiftIds, personIds }) => ({
      rule,
      shifts: shiftIds.map(shift),
      people: personIds.map(person),
    })),
    fairness: {
      ...report.weeks,
      rows: rows.map(({ personId, ...row }) => ({ ...row, person: person(personId) })),
      ...{ before, after },
    },
  };
}

const reportOf = ({ report }: RotaRunRow): RotaReport | null => (report === null ? null : (JSON.parse(report) as RotaReport));
