import { addPersonRows, buildRota, candidatesOf, type RotaModel } from './build.ts';
import { conflictsOf } from './conflicts.ts';
import { type LinearModel, ModelBuilder, type Solver, type SolverLimits, type Term } from './linear-model.ts';
import { scoreOf } from './score.ts';
import { seatedBest } from './seats.ts';
import { type RotaTable, shiftsByPerson, tableOf } from './table.ts';
import { type FoundRota, type Proposal, type RotaAnswer, type RotaSpec, SCORE_PARTS, type StageReport } from './types.ts';

/** A solver's bound is a little below the whole number that it stands for. */
const BOUND_SLACK = 1e-6;

const NO_LIMITS: SolverLimits = { nodes: null, seconds: null, gap: 0 };

/**
 * Fills the gaps of a rota: never moves a sign-up, covers what is urgent, shares fairly, asks people for what they like, and changes
 * little. One integer programme for each score part, each keeping what the parts before it reached.
 *
 * @shape spec, solver, limits of each stage -> answer
 * @returns `infeasible` only where the sign-ups themselves break a rule; `best-found` with its gap where a limit ended the search
 * @throws {RangeError} when the spec names somebody or something unknown
 * @source none: lexicographic integer programming, textbook method
 */
export async function solveRota(spec: RotaSpec, solver: Solver, limits: SolverLimits = NO_LIMITS): Promise<RotaAnswer> {
  const table = tableOf(spec);
  const conflicts = conflictsOf(table);
  if (conflicts.length > 0) return { status: 'infeasible', conflicts };
  const possible = await possiblePlaces(table, solver);
  const model = buildRota(table, possible);
  const { values, stages } = await solveStages(model, solver, limits);
  const proposals = seatedBest(table, proposalsOf(model, values));
  const score = scoreOf(table, proposals, possible);
  const reports = stages.map(({ part, bound }): StageReport => ({ part, value: score[part], bound, proven: bound >= score[part] }));
  const unproven = reports.find(({ proven }) => !proven);
  return {
    status: unproven ? 'best-found' : 'optimal',
    proposals,
    score,
    gap: unproven ? gapOf(unproven) : 0,
    stages: reports,
    possible,
  } satisfies FoundRota;
}

/**
 * Most places each person could hold if nobody else were asked, sign-ups included.
 *
 * @shape table -> places by person
 */
export async function possiblePlaces(table: RotaTable, solver: Solver): Promise<Readonly<Record<string, number>>> {
  const builder = new ModelBuilder();
  const candidates = candidatesOf(table, builder);
  addPersonRows(table, builder, candidates);
  const answer = await solver(
    modelOf(
      builder,
      candidates.map(({ column }): Term => [column, -1]),
      NO_LIMITS,
    ),
  );
  if (answer.status !== 'optimal')
    throw new Error(`Cannot count possible places as the solver must reach an optimum: it said ${answer.status}`);
  const held = shiftsByPerson(table, table.spec.signUps);
  const found: Record<string, number> = Object.fromEntries(table.people.map(({ id }) => [id, held.get(id)?.length ?? 0]));
  for (const { person, column } of candidates) found[person.id] = (found[person.id] ?? 0) + Math.round(answer.values[column] ?? 0);
  return found;
}

function modelOf({ columns, rows }: ModelBuilder, terms: readonly Term[], limits: SolverLimits): LinearModel {
  const cost = columns.map(() => 0);
  for (const [column, value] of terms) cost[column] = (cost[column] ?? 0) + value;
  return { columns: [...columns], rows: [...rows], cost, limits };
}

const sumOf = (terms: readonly Term[], values: readonly number[]): number =>
  terms.reduce((sum, [column, value]) => sum + value * (values[column] ?? 0), 0);

/** Solves part after part. Every part is a whole number in any rota, so what was reached is kept exactly. */
async function solveStages(
  { builder, costs, start, changesBase }: RotaModel,
  solver: Solver,
  limits: SolverLimits,
): Promise<{ values: readonly number[]; stages: readonly Pick<StageReport, 'part' | 'bound'>[] }> {
  let values = start;
  const stages: Pick<StageReport, 'part' | 'bound'>[] = [];
  for (const part of SCORE_PARTS) {
    const terms = costs[part];
    const base = part === 'changes' ? changesBase : 0;
    const floor = least(terms, builder);
    let bound = floor;
    if (Math.round(sumOf(terms, values)) > floor) {
      const found = await solveStage(part, modelOf(builder, terms, limits), { solver, before: values });
      values = found.values;
      bound = Math.max(floor, Math.ceil(found.bound - BOUND_SLACK));
    }
    const reached = Math.round(sumOf(terms, values));
    stages.push({ part, bound: Math.min(bound, reached) + base });
    if (terms.length > 0) builder.atMost(terms, reached);
  }
  return { values, stages };
}

interface StageStart {
  readonly solver: Solver;
  /** Allowed, so it stays where a limit ends the search before anything as good is found. */
  readonly before: readonly number[];
}

async function solveStage(
  part: string,
  model: LinearModel,
  { solver, before }: StageStart,
): Promise<{ readonly values: readonly number[]; readonly bound: number }> {
  const answer = await solver(model);
  switch (answer.status) {
    case 'optimal':
      return answer;
    case 'limit': {
      const costOf = (values: readonly number[]): number =>
        values.reduce((sum, value, column) => sum + value * (model.cost[column] ?? 0), 0);
      return { values: costOf(answer.values) <= costOf(before) ? answer.values : before, bound: answer.bound };
    }
    case 'none-found':
      return { values: before, bound: Number.NEGATIVE_INFINITY };
    case 'infeasible':
    case 'unbounded':
      throw new Error(`Cannot make a rota as ${part} must have a least value: the solver said ${answer.status}`);
    default:
      return answer satisfies never;
  }
}

/** What the bounds of the columns alone allow. */
const least = (terms: readonly Term[], { columns }: ModelBuilder): number =>
  terms.reduce((sum, [column, value]) => sum + value * ((value > 0 ? columns[column]?.lower : columns[column]?.upper) ?? 0), 0);

const gapOf = ({ value, bound }: StageReport): number => (value - bound) / Math.max(1, Math.abs(value));

const proposalsOf = ({ candidates }: RotaModel, values: readonly number[]): readonly Proposal[] =>
  candidates
    .filter(({ column }) => (values[column] ?? 0) > 0.5)
    .map(({ person, shift, group }) => ({ personId: person.id, shiftId: shift.id, group }));
