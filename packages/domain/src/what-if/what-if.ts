import type { Spread } from '../bin/outcome.ts';
import { advance, type BinRun, forkRun, type Track, trackOf, weightsOf } from '../bin/run.ts';
import { fewOf } from '../ensemble/few.ts';
import { systematic } from '../ensemble/resample.ts';
import { shareOf, spreadOf } from '../ensemble/spread.ts';
import { courseOf, daysAt } from '../signals/assess.ts';
import { daysOf } from '../signals/read-days.ts';
import { SIGNALS } from '../signals/registry.ts';
import { FORECAST_DAYS } from '../standing.ts';
import { eventsOfChoice, NOTHING_DONE, type WhatIfChoice, warmerAhead } from './choice.ts';
import { type Ensemble, runOfEnsemble, WHAT_IF_SIGNALS, type WhatIfSignal } from './ensemble.ts';

/** What a what-if draws day by day. */
export const WHAT_IF_QUANTITIES = [
  'airlessFrac',
  'foodInHandDays',
  'wormsKg',
  'moistureFracWb',
  'bedTempC',
] as const satisfies readonly Track[];
export type WhatIfQuantity = (typeof WHAT_IF_QUANTITIES)[number];
/** Members of the first, coarse answer. */
export const COARSE_MEMBERS = 8;

export interface WhatIfDay extends Readonly<Record<WhatIfQuantity, Spread>> {
  /** Days from today. */
  readonly ahead: number;
}
export interface WhatIfAnswer {
  readonly members: number;
  /** Today and each of the days ahead. */
  readonly days: readonly WhatIfDay[];
  /** Chance that each trouble comes, or is there, on any of the days ahead. */
  readonly chances: Readonly<Record<WhatIfSignal, number>>;
  /** Chance that any of them does. */
  readonly trouble: number;
}

/** An ensemble ready to be asked many times. */
export interface OpenEnsemble {
  readonly ensemble: Ensemble;
  readonly all: Party;
  readonly few: Party;
}
interface Party {
  readonly run: BinRun;
  readonly running: Ensemble['running'];
}

/**
 * Opens an ensemble for questions.
 *
 * @shape ensemble -> open ensemble
 */
export function openEnsemble(ensemble: Ensemble): OpenEnsemble {
  const run = runOfEnsemble(ensemble);
  const all: Party = { run, running: ensemble.running };
  const few = fewOf(run, COARSE_MEMBERS);
  if (few === run) return { ensemble, all, few: all };
  const chosen = [...systematic(run.state.bed.weight, 0.5, COARSE_MEMBERS)];
  const running = Object.fromEntries(
    WHAT_IF_SIGNALS.map((id) => [id, chosen.map((m) => ensemble.running[id][m] ?? 0)]),
  ) as unknown as Ensemble['running'];
  return { ensemble, all, few: { run: few, running } };
}

/** Zones by how long ago they were fed. */
export function zonesInTurn({ state }: BinRun): readonly number[] {
  const fedDay = state.zoneMarks.zoneFedDay;
  return Array.from({ length: state.zones }, (_, zone) => zone + 1).sort((a, b) => fedDay[a - 1]! - fedDay[b - 1]! || a - b);
}

/**
 * What comes of a choice within the days ahead.
 *
 * @shape open ensemble, choice -> answer
 * @param few The coarse answer of a few members instead of all
 * @returns Plain data; the same in a browser and on a server
 * @source none: glue of the model and the signals
 */
export function whatIf(open: OpenEnsemble, choice: WhatIfChoice = NOTHING_DONE, few = false): WhatIfAnswer {
  const { ensemble } = open;
  const { run, running } = few ? open.few : open.all;
  const { day: today, log } = ensemble;
  const events = eventsOfChoice(choice, zonesInTurn(run), today, FORECAST_DAYS);
  const climate = warmerAhead(ensemble.climate, today, FORECAST_DAYS, choice.warmerC);
  const trial = forkRun({ ...run, scenario: { ...run.scenario, climate } }, { tracksOnly: true });
  advance(trial, FORECAST_DAYS, events);
  const days = daysOf(trial, today + 1, today + FORECAST_DAYS);
  const at = daysAt(ensemble, days, [...log, ...events]);
  const holds = WHAT_IF_SIGNALS.map((id) => courseOf(SIGNALS[id], at, running[id]).holds);
  const weights = weightsOf(trial);
  const share = (courses: typeof holds): number => shareOf(weights, (m) => courses.some((course) => course.some((day) => day[m])));
  return {
    members: run.state.members,
    days: Array.from({ length: FORECAST_DAYS + 1 }, (_, ahead) => dayOf(trial, today, ahead)),
    chances: Object.fromEntries(WHAT_IF_SIGNALS.map((id, i) => [id, share([holds[i]!])])) as WhatIfAnswer['chances'],
    trouble: share(holds),
  };
}

export function dayOf(run: BinRun, today: number, ahead: number): WhatIfDay {
  const spreads = WHAT_IF_QUANTITIES.map((name) => [name, spreadOf(trackOf(run, name, today + ahead), weightsOf(run))]);
  return { ahead, ...(Object.fromEntries(spreads) as Record<WhatIfQuantity, Spread>) };
}
