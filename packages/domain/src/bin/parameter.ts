/** How well a figure of the model is known. */
export type Evidence = 'published' | 'common practice' | 'from memory' | 'derived' | 'estimate';

/**
 * One figure of the model with where it comes from, so that a reader finds every guess beside the process that uses it.
 * `source` is a key of shared/sources.md, or starts with `none:` and says why we chose the value.
 */
export interface Parameter {
  readonly value: number;
  readonly unit: string;
  readonly evidence: Evidence;
  readonly source: string;
}

export const parameter = (value: number, unit: string, evidence: Evidence, source: string): Parameter => ({
  value,
  unit,
  evidence,
  source,
});

export type ParameterSet = Readonly<Record<string, Parameter>>;
