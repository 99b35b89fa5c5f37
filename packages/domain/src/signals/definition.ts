import { type Parameter, type ParameterSet, parameter } from '../bin/parameter.ts';
import type { BinEvent, BinSetup } from '../bin/scenario.ts';
import type { LogFacts, Seen } from './log-facts.ts';
import type { BinDay, Reading } from './member-day.ts';
import type { CautionId, Reason, RemedyId, SignalId } from './types.ts';

/** One member on one day, with what the log says by then. */
export interface SignalAt {
  readonly reading: Reading;
  readonly day: number;
  readonly ageDays: number;
  readonly log: LogFacts;
  readonly setup: BinSetup;
  readonly checkIntervalDays: number;
  readonly resting: boolean;
}

/** The same with the bin's zones: what a reason is told from. */
export interface SignalTold extends SignalAt {
  readonly bin: BinDay;
}

/** Who is to see to it. */
export const SIGNAL_OWNERS = ['volunteer', 'site-lead', 'coordinator'] as const;
export type SignalOwner = (typeof SIGNAL_OWNERS)[number];

/**
 * One thing that can go wrong: when it holds, for how long, who sees to it and how soon, and what helps. Its cause, what it
 * leads to and what to do are words, which each language of the pages has beside each other.
 * An `alert` counts as one when it first enters `act`; a `duty` is `watch` until it is overdue.
 */
export interface SignalDefinition {
  readonly id: SignalId;
  readonly role: 'alert' | 'duty';
  /** 1 comes first when several act. */
  readonly priority: number;
  readonly owner: SignalOwner;
  readonly respondWithinDays: number;
  readonly thresholds: ParameterSet;
  /** How far back it must come before it is over, in the threshold's unit. */
  readonly deadBand: Parameter;
  /** Days running that the condition must hold first. */
  readonly delayDays: number;
  readonly remedies: readonly RemedyId[];
  readonly cautions: readonly CautionId[];
  /** Whether the condition is met on this day; `holding` = it was met the day before, so the dead band counts. */
  readonly condition: (at: SignalAt, holding: boolean) => boolean;
  /** Something written down that is itself the event: it acts at once. */
  readonly seen: (at: SignalAt) => readonly Reason[];
  readonly zone: (at: SignalTold) => number | null;
  readonly reasons: (at: SignalTold) => readonly Reason[];
}

/** What was seen counts for a week, unless somebody saw otherwise or care was given and it had time to work. */
export const SEEN_COUNTS = parameter(7, 'd', 'estimate', 'common-practice');
export const CARE_WORKS = parameter(1, 'd', 'estimate', 'common-practice');
/** Care of the same day may have come before the look. */
export const SAME_DAY_CARE_WORKS = parameter(2, 'd', 'estimate', 'common-practice');

/** Whether a thing seen still stands on the day of the facts, after the care that ends it. */
export function stillStands(log: LogFacts, seenDay: number, endedBy: readonly BinEvent['type'][]): boolean {
  if (log.day - seenDay > SEEN_COUNTS.value) return false;
  const careDay = Math.max(...endedBy.map((type) => log.lastCareDay.get(type) ?? Number.NEGATIVE_INFINITY));
  const works = careDay > seenDay ? CARE_WORKS.value : SAME_DAY_CARE_WORKS.value;
  return !(careDay >= seenDay && log.day >= careDay + works);
}

/**
 * The newest reading beyond a mark, if every reading after it stayed within the dead band: a thermometer that jitters round the
 * mark is one event and not many.
 *
 * @shape readings[n] newest first -> reading
 */
export function lastBeyond(
  readings: readonly Seen<number>[],
  isBeyond: (value: number) => boolean,
  isBack: (value: number) => boolean,
): Seen<number> | null {
  for (const each of readings) {
    if (isBeyond(each.value)) return each;
    if (isBack(each.value)) return null;
  }
  return null;
}

export const reason = (code: Reason['code'], values: Reason['values'], entryIds: readonly string[] = []): Reason => ({
  code,
  values,
  entryIds,
});

export const nothingSeen = (): readonly Reason[] => [];
export const noZone = (): null => null;
