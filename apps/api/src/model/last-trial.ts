import type { OutlookSettings, Scenario, TrialOf } from '@middenry/domain';

/**
 * Trials of one bin come one after another, so the bin that was asked for last is kept as it stands; another one takes its place.
 */
export function lastTrial(make: (scenario: Scenario, today: number, settings: OutlookSettings) => TrialOf): typeof make {
  let last: { readonly key: string; readonly trial: TrialOf } | null = null;
  return (scenario, today, settings) => {
    const key = JSON.stringify([scenario, today, settings]);
    if (last?.key !== key) last = { key, trial: make(scenario, today, settings) };
    return last.trial;
  };
}
