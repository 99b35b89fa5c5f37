import type { BinView, DayRow, Ledgers } from './bin/outcome.ts';
import type { DutyWindow, FeedAdvice } from './plan/types.ts';
import type { Band, SignalId, SignalOutlook } from './signals/types.ts';

/** Everything the board, the bin page and the log form need to know of one bin on one day. */
export interface Outlook {
  /** Scenario day that is today. */
  readonly day: number;
  readonly band: Band;
  /** The signal that gives the bin its band; null when settled. */
  readonly lead: SignalId | null;
  readonly signals: readonly SignalOutlook[];
  readonly now: BinView;
  /** Rows day 0 to today. */
  readonly history: readonly DayRow[];
  /** Rows today to today + 14 under the plan known so far. */
  readonly forecast: readonly DayRow[];
  readonly advice: FeedAdvice;
  readonly duties: readonly DutyWindow[];
  readonly ledgers: Ledgers;
}

/** Settings of a bin that are not physics. */
export interface OutlookSettings {
  /** Usual days between looks; `unseen` fires at twice this. */
  readonly checkIntervalDays: number;
  readonly resting: boolean;
}
