/**
 * The worker's program as text: Node 20 cannot start a `.ts` file, and the bundle has no second file to start, so this runs the same
 * under tsx, vitest and the built server. It only turns plain arrays into the library's call and back.
 *
 * Release 1.15.3 was seen to fail on a small model of ours that it solves without presolve, and, given a start, to call that start optimal
 * while its own bound said that better exists. So no start is handed over, a failure is tried once more without presolve, and an answer
 * counts as optimal only when its bound agrees.
 */
export const workerSource = `
const { parentPort, workerData } = require('node:worker_threads');
const { pathToFileURL } = require('node:url');

const ready = import(pathToFileURL(workerData.libraryPath).href).then((library) => library.default());

function solve(highs, problem) {
  const answer = attempt(highs, problem, 'choose');
  return answer ?? attempt(highs, problem, 'off') ?? { status: 'none-found' };
}

function attempt(highs, { columns, rows, integrality, cost, limits }, presolve) {
  const { modelStatus, solutionStatus } = highs.constants;
  const model = highs.createModel({
    numCols: columns.lower.length, numRows: rows.lower.length, colCost: cost,
    colLower: columns.lower, colUpper: columns.upper, rowLower: rows.lower, rowUpper: rows.upper,
    matrix: { format: 'csr', numRows: rows.lower.length, numCols: columns.lower.length,
      starts: rows.starts, indices: rows.indices, values: rows.values },
    integrality,
  });
  try {
    model.options.set({ output_flag: false, presolve, random_seed: 0, mip_rel_gap: limits.gap, mip_abs_gap: limits.gap > 0 ? 1e-6 : 0 });
    if (limits.nodes !== null) model.options.set('mip_max_nodes', limits.nodes);
    if (limits.seconds !== null) model.options.set('time_limit', limits.seconds);
    try {
      model.run();
    } catch {
      return null;
    }
    const status = model.getModelStatus();
    if (status === modelStatus.infeasible) return { status: 'infeasible' };
    if (status === modelStatus.unbounded || status === modelStatus.unboundedOrInfeasible) return { status: 'unbounded' };
    const hasFound = model.info.get('primal_solution_status') === solutionStatus.feasible;
    if (status !== modelStatus.optimal && !hasFound) return { status: 'none-found' };
    const isMip = integrality.some((whole) => whole === 1);
    const objective = model.getObjectiveValue();
    const bound = isMip ? model.info.get('mip_dual_bound') : status === modelStatus.optimal ? objective : -Infinity;
    const isNear = objective - bound <= Math.max(1e-6, limits.gap * Math.abs(objective)) * (1 + 1e-9);
    if (status === modelStatus.optimal && !isNear && presolve !== 'off') return null;
    return {
      status: status === modelStatus.optimal && isNear ? 'optimal' : 'limit',
      objective,
      bound,
      values: Float64Array.from(model.getSolution().colValue),
    };
  } finally {
    model.dispose();
  }
}

parentPort.on('message', async ({ id, model }) => {
  try {
    parentPort.postMessage({ id, answer: solve(await ready, model) });
  } catch (error) {
    parentPort.postMessage({ id, fault: String(error && error.message || error) });
  }
});
`;
