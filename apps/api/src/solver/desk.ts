import type { LinearModel, Solver } from '@middenry/domain';
import { highsSolver, type OwnSolver } from './highs-solver.ts';

/** The solver with the searches that are under way, so that a reader knows of them and a stop waits for their end. */
export interface SolverDesk {
  readonly solve: Solver;
  readonly searches: Map<string, Promise<void>>;
  /** Ends the thread, and with it every search. */
  close(): Promise<void>;
}

export function solverDesk(solver: OwnSolver = highsSolver()): SolverDesk {
  const searches = new Map<string, Promise<void>>();
  return {
    solve: solver.solve,
    searches,
    close: async () => {
      await solver.close();
      await Promise.allSettled(searches.values());
    },
  };
}

/** A stage is given at least that, since a search that is stopped at once finds nothing. */
const LEAST_SECONDS = 0.05;

/** The same solver with one limit of time for all stages together; a model without any keeps having none. */
export function withinTime(solve: Solver, seconds: number, nowMs: () => number = () => performance.now()): Solver {
  const endsAtMs = nowMs() + seconds * 1000;
  const limited = (model: LinearModel): LinearModel => ({
    ...model,
    limits: { ...model.limits, seconds: Math.max(LEAST_SECONDS, (endsAtMs - nowMs()) / 1000) },
  });
  return (model) => solve(model.limits.seconds === null ? model : limited(model));
}
