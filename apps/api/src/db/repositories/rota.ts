import { all, one, run } from '../rows.ts';
import type { Store } from '../store.ts';
import type { SkillName } from './availability.ts';

export type RunStatus = 'working' | 'optimal' | 'best-found' | 'infeasible' | 'stopped';
export type ProposalState = 'proposed' | 'replaced' | 'invited' | 'accepted' | 'declined' | 'withdrawn';

export interface RotaRunRow {
  readonly id: string;
  readonly madeBy: string | null;
  readonly madeAt: string;
  readonly from: string;
  readonly to: string;
  /** JSON; an empty list means every site. */
  readonly siteIds: string;
  readonly seconds: number;
  readonly status: RunStatus;
  readonly endedAt: string | null;
  /** JSON; null while there is none. */
  readonly report: string | null;
}

const RUN = `SELECT id, made_by AS madeBy, made_at AS madeAt, from_date AS "from", to_date AS "to", site_ids AS siteIds, seconds, status,
    ended_at AS endedAt, report FROM rota_run`;

export const rotaRunById = (store: Store, id: string): RotaRunRow | null => one<RotaRunRow>(store, `${RUN} WHERE id = ?`, id);

/** Newest first. */
export const rotaRuns = (store: Store, limit: number): RotaRunRow[] =>
  all<RotaRunRow>(store, `${RUN} ORDER BY made_at DESC, rowid DESC LIMIT ?`, limit);

export function insertRotaRun(store: Store, row: Omit<RotaRunRow, 'status' | 'endedAt' | 'report'>): void {
  run(
    store,
    `INSERT INTO rota_run (id, made_by, made_at, from_date, to_date, site_ids, seconds)
     VALUES (@id, @madeBy, @madeAt, @from, @to, @siteIds, @seconds)`,
    row,
  );
}

export function endRotaRun(store: Store, id: string, end: { status: RunStatus; at: string; report: string | null }): void {
  run(store, "UPDATE rota_run SET status = @status, ended_at = @at, report = @report WHERE id = @id AND status = 'working'", {
    ...end,
    id,
  });
}

export interface RotaProposalRow {
  readonly id: string;
  readonly runId: string;
  readonly shiftId: string;
  readonly personId: string;
  readonly skill: SkillName | null;
  /** JSON */
  readonly reason: string;
  readonly state: ProposalState;
  readonly invitedAt: string | null;
  readonly goodUntil: string | null;
  readonly answeredAt: string | null;
}

const PROPOSAL = `SELECT p.id, p.run_id AS runId, p.shift_id AS shiftId, p.person_id AS personId, p.skill, p.reason, p.state,
    p.invited_at AS invitedAt, p.good_until AS goodUntil, p.answered_at AS answeredAt FROM rota_proposal p`;

export const rotaProposalById = (store: Store, id: string): RotaProposalRow | null =>
  one<RotaProposalRow>(store, `${PROPOSAL} WHERE p.id = ?`, id);

export const proposalsOfRun = (store: Store, runId: string): RotaProposalRow[] =>
  all<RotaProposalRow>(
    store,
    `${PROPOSAL} JOIN shift s ON s.id = p.shift_id WHERE p.run_id = ? ORDER BY s.local_date, s.local_time, p.shift_id, p.rowid`,
    runId,
  );

/** Proposals of any run for these shifts, first made first. */
export const proposalsForShifts = (store: Store, shiftIds: readonly string[], states: readonly ProposalState[]): RotaProposalRow[] =>
  all<RotaProposalRow>(
    store,
    `${PROPOSAL} WHERE p.shift_id IN (SELECT value FROM json_each(?)) AND p.state IN (SELECT value FROM json_each(?)) ORDER BY p.rowid`,
    JSON.stringify(shiftIds),
    JSON.stringify(states),
  );

/** What somebody was asked and may still answer, the soonest shift first. */
export const invitationsOf = (store: Store, personId: string, at: string): RotaProposalRow[] =>
  all<RotaProposalRow>(
    store,
    `${PROPOSAL} JOIN shift s ON s.id = p.shift_id WHERE p.person_id = ? AND p.state = 'invited' AND p.good_until > ?
     ORDER BY s.local_date, s.local_time, p.rowid`,
    personId,
    at,
  );

export function insertProposal(
  store: Store,
  row: Pick<RotaProposalRow, 'id' | 'runId' | 'shiftId' | 'personId' | 'skill' | 'reason'>,
): void {
  run(
    store,
    'INSERT INTO rota_proposal (id, run_id, shift_id, person_id, skill, reason) VALUES (@id, @runId, @shiftId, @personId, @skill, @reason)',
    row,
  );
}

/** A newer run speaks for these shifts now; what was sent stays sent. */
export function replaceProposals(store: Store, shiftIds: readonly string[]): void {
  run(
    store,
    "UPDATE rota_proposal SET state = 'replaced' WHERE state = 'proposed' AND shift_id IN (SELECT value FROM json_each(?))",
    JSON.stringify(shiftIds),
  );
}

export const inviteProposal = (store: Store, id: string, sent: { at: string; until: string }): boolean =>
  run(store, "UPDATE rota_proposal SET state = 'invited', invited_at = @at, good_until = @until WHERE id = @id AND state = 'proposed'", {
    ...sent,
    id,
  }) > 0;

/** Of many answers exactly one changes the row; one that has run out takes none. */
export const answerInvitation = (store: Store, id: string, answer: { at: string; state: 'accepted' | 'declined' | 'withdrawn' }): boolean =>
  run(store, "UPDATE rota_proposal SET state = @state, answered_at = @at WHERE id = @id AND state = 'invited' AND good_until > @at", {
    ...answer,
    id,
  }) > 0;
