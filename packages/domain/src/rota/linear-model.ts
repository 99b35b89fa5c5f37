/** An optimisation as plain data in and plain data out: whoever solves it is an argument, so the domain depends on no solver. */

/** One unknown. */
export interface ModelColumn {
  readonly lower: number;
  readonly upper: number;
  readonly integer: boolean;
}

/** lower <= sum(value x column) <= upper; `columns[i]` goes with `values[i]`, each column at most once. */
export interface ModelRow {
  readonly columns: readonly number[];
  readonly values: readonly number[];
  readonly lower: number;
  readonly upper: number;
}

/** Always a minimum: to maximise, turn the signs of `cost`. */
export interface LinearModel {
  readonly columns: readonly ModelColumn[];
  readonly rows: readonly ModelRow[];
  /** One for each column. */
  readonly cost: readonly number[];
  readonly limits: SolverLimits;
}

/** A node limit gives the same answer on every machine; the clock is for live use. null = no limit. */
export interface SolverLimits {
  readonly nodes: number | null;
  readonly seconds: number | null;
  /** Relative gap that is close enough; 0 = proven optimum. */
  readonly gap: number;
}

/** Expected ways to end. `optimal` with a gap limit above 0 means within that gap. `limit` has the best found, if any was. */
export type SolverAnswer =
  | { readonly status: 'optimal'; readonly objective: number; readonly bound: number; readonly values: readonly number[] }
  | { readonly status: 'limit'; readonly objective: number; readonly bound: number; readonly values: readonly number[] }
  | { readonly status: 'none-found' }
  | { readonly status: 'infeasible' }
  | { readonly status: 'unbounded' };

export type Solver = (model: LinearModel) => Promise<SolverAnswer>;

/** Collects columns and rows; the model itself is plain data. */
export class ModelBuilder {
  readonly columns: ModelColumn[] = [];
  readonly rows: ModelRow[] = [];

  /** @returns The number of the new column. */
  column(lower: number, upper: number, integer: boolean): number {
    return this.columns.push({ lower, upper, integer }) - 1;
  }

  row(terms: readonly Term[], lower: number, upper: number): void {
    this.rows.push({ columns: terms.map(([column]) => column), values: terms.map(([, value]) => value), lower, upper });
  }

  atMost(terms: readonly Term[], upper: number): void {
    this.row(terms, Number.NEGATIVE_INFINITY, upper);
  }

  atLeast(terms: readonly Term[], lower: number): void {
    this.row(terms, lower, Number.POSITIVE_INFINITY);
  }
}

/** Column and factor. */
export type Term = readonly [column: number, value: number];
