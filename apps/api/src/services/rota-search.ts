/** A run of filling gaps: the search beside the requests, and what is kept of its answer. */
import {
  type Conflict,
  explainRota,
  type FairnessReport,
  type FoundRota,
  fairnessOf,
  type Gap,
  type ProposalReason,
  type RotaSpec,
  type Solver,
  type StageReport,
  solveRota,
  withoutConflicts,
} from '@middenry/domain';
import type { Frame } from '../context.ts';
import type { SkillName } from '../db/repositories/availability.ts';
import { endRotaRun, insertProposal, type RotaRunRow, type RunStatus, replaceProposals } from '../db/repositories/rota.ts';
import { write } from '../db/store.ts';
import { withinTime } from '../solver/desk.ts';
import { derivedId } from './id.ts';
import { type RotaScene, rotaScene } from './rota-scene.ts';

/** What a run says beside its proposals; people by id, so that names are looked up for whoever reads. */
export interface RotaReport {
  readonly gap: number;
  readonly stages: readonly StageReport[];
  readonly gaps: readonly Gap[];
  readonly conflicts: readonly Conflict[];
  readonly fairness: FairnessReport;
  readonly weeks: RotaScene['weeks'];
}

export type ProposalFacts = Pick<ProposalReason, 'why' | 'others' | 'wish' | 'heldBefore' | 'heldAfter' | 'liking'>;

export interface FoundRun {
  readonly status: RunStatus;
  readonly report: RotaReport;
  readonly proposals: readonly (ProposalFacts & {
    readonly personId: string;
    readonly shiftId: string;
    readonly skill: SkillName | null;
  })[];
}

/** Starts the search; whoever wants to may wait for it. */
export function startSearch(frame: Frame, run: RotaRunRow): void {
  const { searches } = frame.solver;
  const search = searchAndKeep(frame, run).finally(() => searches.delete(run.id));
  searches.set(run.id, search);
}

async function searchAndKeep({ store, clock, solver }: Frame, run: RotaRunRow): Promise<void> {
  const question = { from: run.from, to: run.to, siteIds: JSON.parse(run.siteIds) as string[] };
  try {
    const scene = rotaScene(store, clock, question);
    const found = await solveScene(scene, withinTime(solver.solve, run.seconds), run.seconds);
    write(store, () => {
      replaceProposals(store, scene.openIds);
      for (const { personId, shiftId, skill, ...reason } of found.proposals) {
        const id = derivedId(run.id, `${shiftId} ${personId}`);
        insertProposal(store, { id, runId: run.id, shiftId, personId, skill, reason: JSON.stringify(reason) });
      }
      endRotaRun(store, run.id, { status: found.status, at: clock.now().toISOString(), report: JSON.stringify(found.report) });
    });
  } catch {
    // The thread ended under it, or a shift went away in between: nothing is kept, and whoever reads is told to begin anew.
    write(store, () => endRotaRun(store, run.id, { status: 'stopped', at: clock.now().toISOString(), report: null }));
  }
}

/** Sign-ups that break a rule are named, and the rest is filled without their shifts. */
export async function solveScene(scene: RotaScene, solve: Solver, seconds: number): Promise<FoundRun> {
  const limits = { nodes: null, seconds, gap: 0 };
  const first = await solveRota(scene.spec, solve, limits);
  const conflicts = first.status === 'infeasible' ? first.conflicts : [];
  const spec = conflicts.length === 0 ? scene.spec : withoutConflicts(scene.spec, conflicts);
  const rota = first.status === 'infeasible' ? await solveRota(spec, solve, limits) : first;
  if (rota.status === 'infeasible') throw new Error('Cannot fill gaps as sign-ups still break a rule without the shifts that broke one');
  const reasons = explainRota(spec, rota);
  const skillOf = new Map(rota.proposals.map(({ personId, shiftId, group }) => [`${personId} ${shiftId}`, skillAt(spec, shiftId, group)]));
  return {
    status: conflicts.length > 0 ? 'infeasible' : rota.status,
    report: {
      gap: rota.gap,
      stages: rota.stages,
      gaps: reasons.gaps.filter(({ shiftId }) => scene.openIds.includes(shiftId)).map((gap) => shownGap(gap, scene.hiddenIds)),
      conflicts: conflicts.map((conflict) => ({ ...conflict, personIds: conflict.personIds.filter((id) => !scene.hiddenIds.has(id)) })),
      fairness: shownFairness(spec, rota, scene.hiddenIds),
      weeks: scene.weeks,
    },
    proposals: reasons.proposals.map((reason) => ({ ...reason, skill: skillOf.get(`${reason.personId} ${reason.shiftId}`) ?? null })),
  };
}

function skillAt(spec: RotaSpec, shiftId: string, group: number): SkillName | null {
  const [skill] = spec.shifts.find(({ id }) => id === shiftId)?.places[group]?.skills ?? [];
  return (skill as SkillName | undefined) ?? null;
}

function shownGap(gap: Gap, hiddenIds: ReadonlySet<string>): Gap {
  const people = gap.people.filter(({ personId }) => !hiddenIds.has(personId));
  const countOf = (rule: Gap['rules'][number]['rule']): number =>
    people.filter(({ hindrances }) => hindrances.some((one) => one.rule === rule)).length;
  const rules = gap.rules.map(({ rule }) => ({ rule, count: countOf(rule) })).filter(({ count }) => count > 0);
  return { ...gap, people, rules: rules.sort((one, other) => other.count - one.count) };
}

/** Stand-ins wish for nothing, so only what is held together changes without them. */
function shownFairness(spec: RotaSpec, rota: FoundRota, hiddenIds: ReadonlySet<string>): FairnessReport {
  const { rows: all, before, after } = fairnessOf(spec, rota);
  const rows = all.filter(({ personId }) => !hiddenIds.has(personId));
  const sum = (heldOf: (row: (typeof rows)[number]) => number): number => rows.reduce((total, row) => total + heldOf(row), 0);
  return {
    rows,
    before: { ...before, held: sum(({ heldBefore }) => heldBefore) },
    after: { ...after, held: sum(({ heldAfter }) => heldAfter) },
  };
}
