import { type BinEvent, ensembleOf, type Outlook, type OutlookSettings, outlookOf, type Scenario, trialOf } from '@middenry/domain';
import { type Ahead, aheadOf } from '../model/ahead.ts';
import { lastTrial } from '../model/last-trial.ts';

/** How an outlook is worked out: in this thread, in a worker, or by a stand-in of a test. */
export type Model = (scenario: Scenario, today: number, settings: OutlookSettings) => Outlook | Promise<Outlook>;

/** Chance of trouble under feedings of the days ahead. */
export type TrialModel = (
  scenario: Scenario,
  today: number,
  settings: OutlookSettings,
  events: readonly BinEvent[],
) => number | Promise<number>;

const standing = lastTrial(trialOf);
export const trialInThread: TrialModel = (scenario, today, settings, events) => standing(scenario, today, settings)(events);

/** How a what-if is worked out. */
export type AheadModel = {
  readonly [Name in keyof Ahead]: (...asked: Parameters<Ahead[Name]>) => ReturnType<Ahead[Name]> | Promise<ReturnType<Ahead[Name]>>;
};
export const aheadInThread: AheadModel = aheadOf(ensembleOf);

export const modelInThread: Model = (scenario, today, settings) => outlookOf(scenario, today, settings);

/**
 * How many members a bin has on the board. More would be steadier: against 1024 members the band agreed in 55 of 60
 * bins at 64 and in 59 of 60 at 128; but a bin of fourteen months that nothing is kept of yet must be stepped through from its start for the first reader.
 */
export const MEMBERS = 64;
