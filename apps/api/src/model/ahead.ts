import {
  type Ensemble,
  type OpenEnsemble,
  type OutlookSettings,
  openEnsemble,
  type Scenario,
  type WhatIfAnswer,
  type WhatIfChoice,
  whatIf,
} from '@middenry/domain';

/** What comes of a choice, and what comes when nothing is done. */
export interface WhatIfTold {
  readonly answer: WhatIfAnswer;
  readonly without: WhatIfAnswer;
}

/** Packs a bin as it stands, and tries things on it. */
export interface Ahead {
  ensembleOf(scenario: Scenario, today: number, settings: OutlookSettings): Ensemble;
  whatIfOf(scenario: Scenario, today: number, settings: OutlookSettings, choice: WhatIfChoice): WhatIfTold;
}

/** Whoever tries one thing on a bin tries another, so the bin that was asked for last is kept open. */
export function aheadOf(make: (scenario: Scenario, today: number, settings: OutlookSettings) => Ensemble): Ahead {
  let last: { readonly key: string; readonly open: OpenEnsemble; readonly without: WhatIfAnswer } | null = null;
  const opened = (scenario: Scenario, today: number, settings: OutlookSettings) => {
    const key = JSON.stringify([scenario, today, settings]);
    if (last?.key === key) return last;
    const open = openEnsemble(make(scenario, today, settings));
    last = { key, open, without: whatIf(open) };
    return last;
  };
  return {
    ensembleOf: (...asked) => opened(...asked).open.ensemble,
    whatIfOf: (scenario, today, settings, choice) => {
      const { open, without } = opened(scenario, today, settings);
      return { answer: whatIf(open, choice), without };
    },
  };
}
