/** The spec of a rota: who could come, what needs people, who has signed up, and what a good answer is. */

/** How somebody likes a time of the week. */
export const LIKINGS = ['glad', 'can', 'if-needed'] as const;
export type Liking = (typeof LIKINGS)[number];

/** A part of the week in the site's local time; minutes since midnight. Monday is 1. */
export interface WeeklyTime {
  readonly weekday: number;
  readonly fromMinute: number;
  readonly toMinute: number;
  readonly liking: Liking;
}

/** Local dates, first and last included. */
export interface DateSpan {
  readonly from: string;
  readonly to: string;
}

/** Most places somebody may hold; null = no limit. Sign-ups count. */
export interface PlaceCaps {
  readonly period: number | null;
  readonly week: number | null;
  readonly day: number | null;
}

export interface RotaPerson {
  readonly id: string;
  readonly siteIds: readonly string[];
  /** Marked 18 or over. Everybody else is a pupil. */
  readonly adult: boolean;
  /** Cleared by the coordinator; only cleared adults count for the adult rule (C19). */
  readonly cleared: boolean;
  readonly skills: readonly string[];
  /** Places wished for in this period. */
  readonly wish: number;
  readonly caps: PlaceCaps;
  /** Empty = any time. */
  readonly weekly: readonly WeeklyTime[];
  readonly away: readonly DateSpan[];
  /** Shifts that this person said no to. */
  readonly declined: readonly string[];
  /** Own marks for single shifts by id, 0 = most wanted, whole numbers; they stand instead of the liking of the time. */
  readonly marks: Readonly<Record<string, number>>;
}

/** Places on a shift that ask for the same skills, all of them. */
export interface PlaceGroup {
  readonly count: number;
  readonly skills: readonly string[];
}

/** C19: adults >= max(leastAdults, ceil(pupils / pupilsPerAdult)) as soon as there is a pupil. */
export interface AdultRule {
  readonly leastAdults: number;
  readonly pupilsPerAdult: number;
}

export interface RotaShift {
  readonly id: string;
  readonly siteId: string;
  /** Weight of an uncovered place, a whole number of 1 or more. */
  readonly urgency: number;
  /** Instants [ms since 1970]; shifts overlap when these ranges do. */
  readonly startsAtMs: number;
  readonly endsAtMs: number;
  /** The same in local time, for weekly patterns and caps; `toMinute` may pass midnight. */
  readonly localDate: string;
  readonly fromMinute: number;
  readonly toMinute: number;
  readonly places: readonly PlaceGroup[];
  readonly adultRule: AdultRule;
}

/** A person on a shift. */
export interface Pairing {
  readonly personId: string;
  readonly shiftId: string;
}

export interface RotaSpec {
  readonly people: readonly RotaPerson[];
  readonly shifts: readonly RotaShift[];
  /** Made by people themselves; never moved. */
  readonly signUps: readonly Pairing[];
  /** Proposals made before and not yet answered, for the fewest changes. */
  readonly earlier: readonly Pairing[];
  /** Minutes that somebody needs between shifts at two sites. */
  readonly travelMinutes: number;
}

/** How good a rota is, most important first; smaller is better, and an earlier figure outweighs every later one. */
export const SCORE_PARTS = ['uncovered', 'largestShortfall', 'squaredShortfalls', 'squaredExcess', 'dislike', 'changes'] as const;
export type ScorePart = (typeof SCORE_PARTS)[number];

/**
 * `uncovered`: urgency of places nobody covers and of adults still missing; `largestShortfall`, `squaredShortfalls`: places below
 * min(wish, possible places); `squaredExcess`: places proposed above that, or above what somebody already holds; `dislike`: by liking of
 * the time; `changes`: against the earlier proposals.
 */
export type Score = Readonly<Record<ScorePart, number>>;

export interface Proposal extends Pairing {
  /** Index into the shift's `places` that this person covers. */
  readonly group: number;
}

/** What stands against the sign-ups themselves. */
export const CONFLICT_RULES = ['shift-over-full', 'two-at-once', 'over-cap', 'adults-cannot-fit'] as const;
export type ConflictRule = (typeof CONFLICT_RULES)[number];

export interface Conflict {
  readonly rule: ConflictRule;
  readonly shiftIds: readonly string[];
  readonly personIds: readonly string[];
}

/** How far one stage may be from the best. */
export interface StageReport {
  readonly part: ScorePart;
  readonly value: number;
  /** No rota can be better than this. */
  readonly bound: number;
  readonly proven: boolean;
}

export interface FoundRota {
  readonly status: 'optimal' | 'best-found';
  readonly proposals: readonly Proposal[];
  readonly score: Score;
  /** Relative gap of the first stage that was not proven; 0 when optimal. */
  readonly gap: number;
  readonly stages: readonly StageReport[];
  /** Most places each person could hold, sign-ups included, by id. */
  readonly possible: Readonly<Record<string, number>>;
}

export type RotaAnswer = FoundRota | { readonly status: 'infeasible'; readonly conflicts: readonly Conflict[] };
