import type { MaterialFacts } from '../materials/material.ts';

/** What a stream's rotting and mixing hang on. */
export type ScrapFacts = Pick<
  MaterialFacts,
  'moistureFracWb' | 'organicFracDb' | 'carbonFracDb' | 'nitrogenFracDb' | 'labileFrac' | 'labileRatePerDay' | 'slowRatePerDay'
>;

/** Scraps on offer for one day. */
export interface IntakeStream {
  readonly id: string;
  readonly massKg: number;
  readonly facts: ScrapFacts;
}

export interface IntakeBin {
  readonly id: string;
  /** What the feed advice allows today, in kg of the reference food; 0 = hold. */
  readonly adviceKg: number;
}

/** Bedding in stock; a kind that could be got but is not there has mass 0. */
export interface IntakeBedding {
  readonly id: string;
  readonly massKg: number;
  readonly facts: ScrapFacts;
}

/** The mix that every bin's feeding keeps: no wetter, and no richer in nitrogen. */
export interface IntakeMix {
  readonly moistureFracWb: number;
  readonly cnLow: number;
}

export interface IntakeAsk {
  readonly streams: readonly IntakeStream[];
  readonly bins: readonly IntakeBin[];
  readonly bedding: readonly IntakeBedding[];
  /** The food that the bins' advice was worked out for. */
  readonly reference: ScrapFacts;
  readonly mix: IntakeMix;
}

export interface PlannedPart {
  readonly id: string;
  readonly massKg: number;
}

/** What one bin gets. */
export interface PlannedFeeding {
  readonly binId: string;
  readonly scraps: readonly PlannedPart[];
  readonly bedding: readonly PlannedPart[];
  /** First-week oxygen demand over what the advice allows, 0 to 1. */
  readonly fillFrac: number;
  /** From the forecast; null when none was asked for, or there was no time for it. */
  readonly troubleProbability: number | null;
}

/** Scraps that stay, by what keeps them from the bins. */
export interface LeftOver {
  readonly streamId: string;
  readonly massKg: number;
  /** Part that more bedding would let in. */
  readonly forBeddingKg: number;
  /** Part for which the bins have no room, or would come to trouble. */
  readonly forRoomKg: number;
}

export interface IntakePlan {
  readonly feedings: readonly PlannedFeeding[];
  readonly leftOver: readonly LeftOver[];
  /** Bedding to get, so that all of `forBeddingKg` could go in. */
  readonly beddingMissing: readonly PlannedPart[];
  /** Times the plan was made anew because a bin's forecast came out too risky. */
  readonly rounds: number;
}

/** Probability of `airless` or `overfed` within 14 days of this feeding; null when there is no time left to find out. */
export type TroubleAfterFeeding = (feeding: Pick<PlannedFeeding, 'binId' | 'scraps' | 'bedding'>) => number | null | Promise<number | null>;
