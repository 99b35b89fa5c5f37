import { createRequire } from 'node:module';
import { Worker } from 'node:worker_threads';
import type { LinearModel, Solver, SolverAnswer } from '@middenry/domain';
import { workerSource } from './worker-source.ts';

/** A solver in a thread of its own, so that a long search never holds up a request. */
export interface OwnSolver {
  readonly solve: Solver;
  /** Ends the thread; what is still being solved is refused. */
  close(): Promise<void>;
}

interface Pending {
  readonly resolve: (answer: SolverAnswer) => void;
  readonly reject: (reason: Error) => void;
}

type Reply = { readonly id: number; readonly answer?: SolverAnswer; readonly fault?: string };

/**
 * HiGHS (WebAssembly, one thread). Models are solved one after another in the order they came. The thread starts with the first model
 * and starts anew after a crash.
 */
export function highsSolver(): OwnSolver {
  const pending = new Map<number, Pending>();
  let worker: Worker | null = null;
  let lastId = 0;

  const refuseAll = (reason: Error): void => {
    for (const { reject } of pending.values()) reject(reason);
    pending.clear();
    worker = null;
  };

  const started = (): Worker => {
    const made = new Worker(workerSource, { eval: true, workerData: { libraryPath: createRequire(import.meta.url).resolve('highs') } });
    made.on('message', ({ id, answer, fault }: Reply) => {
      const waiting = pending.get(id);
      pending.delete(id);
      // An idle thread must not keep a process alive that has nothing else to do.
      if (pending.size === 0) made.unref();
      if (answer) waiting?.resolve(answer);
      else waiting?.reject(new Error(`Cannot solve as the solver failed: ${fault}`));
    });
    made.on('error', (error) => worker === made && refuseAll(error));
    made.on('exit', () => worker === made && refuseAll(new Error('Cannot solve as the solver was stopped')));
    return made;
  };

  return {
    solve: (model) => {
      if (model.columns.length === 0) return Promise.resolve(withoutColumns(model));
      worker ??= started();
      worker.ref();
      const id = ++lastId;
      worker.postMessage({ id, model: packed(model) });
      return new Promise((resolve, reject) => pending.set(id, { resolve, reject }));
    },
    close: async () => {
      await worker?.terminate();
    },
  };
}

/** Nothing unknown: either every row holds with nothing in it, or none can. */
function withoutColumns({ rows }: LinearModel): SolverAnswer {
  const holds = rows.every(({ lower, upper }) => lower <= 0 && upper >= 0);
  return holds ? { status: 'optimal', objective: 0, bound: 0, values: [] } : { status: 'infeasible' };
}

/** The model as typed arrays, rows one after another. */
function packed({ columns, rows, cost, limits }: LinearModel) {
  const starts = new Int32Array(rows.length + 1);
  rows.forEach((row, index) => {
    starts[index + 1] = (starts[index] ?? 0) + row.columns.length;
  });
  return {
    columns: {
      lower: Float64Array.from(columns, ({ lower }) => lower),
      upper: Float64Array.from(columns, ({ upper }) => upper),
    },
    rows: {
      lower: Float64Array.from(rows, ({ lower }) => lower),
      upper: Float64Array.from(rows, ({ upper }) => upper),
      starts,
      indices: Int32Array.from(rows.flatMap((row) => row.columns)),
      values: Float64Array.from(rows.flatMap((row) => row.values)),
    },
    integrality: Int32Array.from(columns, ({ integer }) => (integer ? 1 : 0)),
    cost: Float64Array.from(cost),
    limits,
  };
}
