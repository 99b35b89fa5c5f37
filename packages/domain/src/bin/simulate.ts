import { assess } from '../signals/assess.ts';
import { mediansOf } from '../signals/member-day.ts';
import { type Band, SIGNAL_IDS, type SignalId } from '../signals/types.ts';
import { type Standing, standingOf } from '../standing.ts';
import type { DayRow, Ledgers, ResultRow } from './outcome.ts';
import { advance, forkRun, ledgersOf, rowsOf, viewOf } from './run.ts';
import type { Scenario } from './scenario.ts';

export interface SimulatedSignal {
  readonly probability: number;
  readonly band: Band;
}

/** The result file, `middenry-result/1`. */
export interface SimulationResult {
  readonly schema: 'middenry-result/1';
  /** days + 1 rows; row d is the state at the end of day d. */
  readonly days: readonly ResultRow[];
  /** On the last day, looking 7 days ahead with nothing more planned. */
  readonly signals: Readonly<Record<SignalId, SimulatedSignal>>;
  readonly ledger: Ledgers;
}

/** A file says nothing of how often a bin is looked at; once a week is usual. */
const CHECK_INTERVAL_DAYS = 7;

/**
 * Runs a scenario to its end.
 *
 * @shape scenario -> result
 * @returns Plain data; the same bytes for the same scenario on the same kind of processor
 * @valid a scenario in which `checkScenario` finds nothing
 */
export function simulate(scenario: Scenario): SimulationResult {
  const standing = standingOf(scenario, scenario.days, { checkIntervalDays: CHECK_INTERVAL_DAYS, resting: false });
  return {
    schema: 'middenry-result/1',
    days: rowsOf(standing.run).map(resultRow),
    signals: signalsOf(standing),
    ledger: ledgersOf(standing.run),
  };
}

const resultRow = ({ foodInHandDays: _onlyForPages, ...row }: DayRow): ResultRow => row;

function signalsOf(standing: Standing): Record<SignalId, SimulatedSignal> {
  const { run, today, planned, log, past, coming, bin } = standing;
  const found = assess({
    ...standing,
    days: [...past, ...coming],
    events: [...log, ...planned],
    binOn: (day) => (day === today ? bin : mediansOf(viewOf(advance(forkRun(run), day - today, planned)))),
  });
  const named = {} as Record<SignalId, SimulatedSignal>;
  for (const id of SIGNAL_IDS) {
    const signal = found.find((each) => each.id === id);
    named[id] = { probability: signal?.probability ?? 0, band: signal?.band ?? 'unknown' };
  }
  return named;
}
