import type { BinEvent, Scenario } from './bin/scenario.ts';
import type { RunMemory } from './ensemble/memory.ts';
import type { OutlookSettings } from './outlook.ts';
import { benchesOf, standingOf, troubleUnder } from './standing.ts';

/** Chance of trouble under feedings of the days ahead, 0 to 1. */
export type TrialOf = (events: readonly BinEvent[]) => number;

/**
 * Chance that a bin runs short of air or food piles up in it within the forecast, under feedings of the days ahead and nothing else.
 *
 * @shape scenario, day -> (events -> scalar)
 * @returns A question that can be asked of the same bin many times; share of members, 0 to 1
 * @valid events after today and within the forecast
 * @source none: glue of the model and the signals
 */
export function trialOf(scenario: Scenario, today: number, settings: OutlookSettings, memory?: RunMemory): TrialOf {
  const standing = standingOf(scenario, today, settings, memory);
  const { few } = benchesOf(standing);
  return (events) => troubleUnder(standing, events, few).either;
}
