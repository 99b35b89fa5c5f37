import { parameter } from '../bin/parameter.ts';
import { SECONDS_PER_HOUR } from '../units/time.ts';

export const SIGN_UP_WAYS = ['first-come', 'draw'] as const;
export type SignUpWay = (typeof SIGN_UP_WAYS)[number];

export const CAP_PARAMETERS = {
  openShifts: parameter(2, 'open shifts', 'estimate', 'none: two, so that quick fingers leave something for the others'),
  firstHours: parameter(48, 'h', 'estimate', 'none: two days, so that somebody who looks once a day sees open places'),
} as const;

const MS_PER_HOUR = SECONDS_PER_HOUR * 1000;

export interface SeasonScene {
  readonly way: SignUpWay;
  readonly opensAtMs: number;
  readonly cap: number;
  /** Wishes were shared out. */
  readonly drawn: boolean;
  readonly nowMs: number;
  /** Places that this person holds on shifts of the season that are still to come. */
  readonly held: number;
}

/** What keeps somebody from taking a place by themselves just now; null when nothing does (criteria C4). */
export function seasonObstacle({
  way,
  opensAtMs,
  cap,
  drawn,
  nowMs,
  held,
}: SeasonScene): 'not-open-yet' | 'wishes-first' | 'cap-reached' | null {
  if (way === 'draw') return drawn ? null : 'wishes-first';
  if (nowMs < opensAtMs) return 'not-open-yet';
  return nowMs < capEndsAtMs(opensAtMs) && held >= cap ? 'cap-reached' : null;
}

/** From then on everybody takes as many as they like. */
export const capEndsAtMs = (opensAtMs: number): number => opensAtMs + CAP_PARAMETERS.firstHours.value * MS_PER_HOUR;
