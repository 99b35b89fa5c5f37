import { type Parameter, parameter } from '../bin/parameter.ts';
import type { DateSpan } from '../rota/types.ts';
import type { DutyKind } from './types.ts';

/** A duty with its window in local dates. */
export interface DueDuty {
  readonly binId: string;
  readonly kind: DutyKind;
  readonly fromDate: string;
  readonly dueDate: string;
  readonly overdueDate: string;
  /** The bin asks for it at once: a signal in `act` names this as its remedy. */
  readonly actNow: boolean;
}

export interface BinSpot {
  readonly id: string;
  readonly siteId: string;
  /** Bins of one area stand near each other: a bed, a shed, a row. */
  readonly area: string;
}

/** Opening hours in local time; Monday is 1. One span a weekday is used, the first. */
export interface SiteHours {
  readonly siteId: string;
  readonly open: readonly { readonly weekday: number; readonly fromMinute: number; readonly toMinute: number }[];
  /** Closed days and holidays. */
  readonly closed: readonly DateSpan[];
  /** Minutes of a duty where they differ from the usual ones. */
  readonly dutyMinutes?: Readonly<Partial<Record<DutyKind, number>>>;
}

/** A shift that is there already, from a standing week or made by hand; its time and places stay as they are. */
export interface StandingShift {
  readonly id: string;
  readonly siteId: string;
  readonly localDate: string;
  readonly fromMinute: number;
  readonly minutes: number;
  readonly places: number;
  readonly duties: readonly { readonly binId: string; readonly kind: DutyKind }[];
}

export interface GatherSettings {
  readonly today: string;
  /** Last date to plan for. */
  readonly lastDate: string;
  /** Longest that anybody is asked to work [min]. */
  readonly mostMinutes: number;
  readonly mostPlaces: number;
  /** Fewest places of a proposed shift; 2 where nobody should work alone. */
  readonly leastPlaces: number;
}

/** 1 = in its window, 2 = past due, 3 = overdue or asked for at once; the weight of an uncovered place in the rota. */
export type DutyUrgency = 1 | 2 | 3;

export interface GatheredDuty extends DueDuty {
  readonly minutes: number;
  readonly urgency: DutyUrgency;
  /** The shift comes after the due date. */
  readonly late: boolean;
}

export interface ProposedShift {
  /** The standing shift that it fills, or null for a new one. */
  readonly standingId: string | null;
  readonly siteId: string;
  readonly localDate: string;
  readonly fromMinute: number;
  readonly minutes: number;
  readonly places: number;
  /** Most urgent first, then area by area and bin by bin. */
  readonly duties: readonly GatheredDuty[];
  readonly urgency: DutyUrgency;
}

export const UNPLACED_REASONS = ['site-closed', 'no-room', 'too-long', 'feed-or-harvest'] as const;
export type UnplacedReason = (typeof UNPLACED_REASONS)[number];

export interface GatheredShifts {
  readonly shifts: readonly ProposedShift[];
  readonly unplaced: readonly { readonly duty: DueDuty; readonly reason: UnplacedReason }[];
}

/** Working time of one duty at one bin [min]; a walk to another area comes on top. */
export const DUTY_MINUTES: Readonly<Record<DutyKind, Parameter>> = {
  feed: parameter(10, 'min', 'estimate', 'none: weigh, open, bury, cover, note'),
  check: parameter(5, 'min', 'estimate', 'none: look, squeeze, read, note'),
  loosen: parameter(10, 'min', 'estimate', 'none: the whole bed by hand'),
  water: parameter(5, 'min', 'estimate', 'none: one can'),
  bedding: parameter(10, 'min', 'estimate', 'none: tear, wet, spread'),
  inoculate: parameter(5, 'min', 'estimate', 'none: a few handfuls'),
  harvest: parameter(40, 'min', 'estimate', 'none: take out, sort, weigh, put back'),
  rest: parameter(0, 'min', 'estimate', 'none: nothing to do'),
};
export const WALK_MINUTES = parameter(5, 'min', 'estimate', 'none: tools carried to another corner of the site');
