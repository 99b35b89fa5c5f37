import type { PersonKey } from '../../cast.ts';
import type { Mutation } from './mutations.ts';
import type { Stage } from './stage.ts';

/** One request. */
export interface Sample {
  readonly who: PersonKey | null;
  /** With its ids in place of the path's names, and its query. */
  readonly url: string;
  readonly body?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
}

export interface RouteSample extends Sample {
  /** The names of the path's ids are found again through these values. */
  readonly params?: Readonly<Record<string, string>>;
  /** The same request by somebody to whom the thing does not belong; every route that knows `own` needs one. */
  readonly notTheirs?: readonly Sample[];
  /** Faults that no schema tells: a day before the bin, a food that never goes in. */
  readonly also?: readonly Mutation[];
  /** The instant at which the good request is sent; left out, the cast's own. */
  readonly at?: string;
  /** What must be there before the good request can be taken, such as an invite or a code; `who` will send it. */
  readonly ready?: (stage: Stage, who: PersonKey | null) => void | Promise<void>;
}

/** Sets clock and stage for the good request. */
export async function prepare(stage: Stage, sample: RouteSample, who: PersonKey | null = sample.who): Promise<void> {
  if (sample.at !== undefined) stage.cast.clock.at = new Date(sample.at);
  await sample.ready?.(stage, who);
}

export type Make = (stage: Stage) => RouteSample;

/** A good body with one change at a time, each by its name. */
export const changed = <Body extends Record<string, unknown>>(
  body: Body,
  changes: Readonly<Record<string, Record<string, unknown>>>,
): Mutation[] => Object.entries(changes).map(([name, change]) => ({ name, value: { ...body, ...change } }));
