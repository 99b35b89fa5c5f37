import type { HowMeasured } from '../bin/scenario.ts';

/** What a bin may be given on a visit today. */
export interface FeedAdvice {
  /** Whole feeding today [kg wet food]; 0 = hold. */
  readonly massKg: number;
  /** The range of EQ12's honest spread. */
  readonly lowKg: number;
  readonly highKg: number;
  /** Zones whose turn it is, first is next; empty when it holds. */
  readonly zones: readonly number[];
  /** Dry bedding that belongs with it [kg]. */
  readonly beddingKg: number;
  readonly hold: HoldReason | null;
  /** Why not more; null when it holds. */
  readonly limit: FeedLimit | null;
  /** Chance that food runs out of air or piles up within 14 days if this is fed tomorrow; null when it holds. */
  readonly troubleProbability: number | null;
  /** What to keep back, as material risk words. */
  readonly estimateValid: boolean;
  readonly how: HowMeasured;
}

export const HOLD_REASONS = ['hot', 'cold', 'airless', 'sour', 'smell', 'food-in-hand', 'fed-lately', 'resting'] as const;
export type HoldReason = (typeof HOLD_REASONS)[number];

/** `ration`: what this many worms eat in a week; `room`: thin layers fill the zones; the others come within 14 days if more is fed. */
export const FEED_LIMITS = ['ration', 'room', 'airless', 'overfed'] as const;
export type FeedLimit = (typeof FEED_LIMITS)[number];

export const DUTY_KINDS = ['feed', 'check', 'loosen', 'water', 'bedding', 'inoculate', 'harvest', 'rest'] as const;
export type DutyKind = (typeof DUTY_KINDS)[number];

/** Why a duty falls due; the words live in the web's messages. */
export const DUTY_WHYS = [
  'food-nearly-gone',
  'time-to-look',
  'packs-down',
  'keeps-microbes-varied',
  'castings-ready',
  'bedding-eaten',
  'drying-out',
  'more-than-eaten',
  'short-of-air',
  'bed-sour',
  'bed-hot',
] as const;
export type DutyWhy = (typeof DUTY_WHYS)[number];

/** A thing that falls due at a bin, with its window in scenario days. */
export interface DutyWindow {
  readonly kind: DutyKind;
  readonly fromDay: number;
  readonly dueDay: number;
  readonly overdueDay: number;
  readonly why: DutyWhy;
}
