import type { BinView, DayRow, Ledgers } from './bin/outcome.ts';
import { advance, forkRun, ledgersOf, rowsOf, viewOf } from './bin/run.ts';
import type { BinEvent, Scenario } from './bin/scenario.ts';
import type { Surprise } from './ensemble/learn.ts';
import type { RunMemory } from './ensemble/memory.ts';
import { type FanRow, fanOf } from './fan.ts';
import { dutiesOf } from './plan/duties.ts';
import { type FeedScene, feedAdvice, feedingPlan, weeklyRationKg } from './plan/feed-advice.ts';
import type { DutyWindow, FeedAdvice, HoldReason } from './plan/types.ts';
import { askFor } from './signals/ask-for.ts';
import { type Assessable, assess, type BandsBefore } from './signals/assess.ts';
import { binBand } from './signals/bands.ts';
import { logFactsAt } from './signals/log-facts.ts';
import { type BinDay, type MembersDay, mediansOf } from './signals/member-day.ts';
import { remediesFor, type Trial } from './signals/remedies.ts';
import type { Band, SignalId, SignalOutlook } from './signals/types.ts';
import { benchesOf, LOOK_BACK_DAYS, type Standing, standingOf, troubleAfter } from './standing.ts';

/** Everything the board, the bin page and the log form need to know of one bin on one day. */
export interface Outlook {
  /** Scenario day that is today. */
  readonly day: number;
  readonly band: Band;
  /** The signal that gives the bin its band; null when settled. */
  readonly lead: SignalId | null;
  readonly signals: readonly SignalOutlook[];
  readonly now: BinView;
  /** Rows day 0 to today, or the last `historyDays` and today. */
  readonly history: readonly DayRow[];
  /** Rows today to today + 14 under the plan known so far. */
  readonly forecast: readonly DayRow[];
  /** What a bin's page draws, from a fortnight back to a fortnight ahead. */
  readonly fan: readonly FanRow[];
  readonly advice: FeedAdvice;
  readonly duties: readonly DutyWindow[];
  readonly ledgers: Ledgers;
  /** What was seen of late against all expectation, oldest first; none with one member, which expects nothing. */
  readonly surprises: readonly Surprise[];
}

/** Settings of a bin that are not physics. */
export interface OutlookSettings {
  /** Usual days between looks; `unseen` fires at twice this. */
  readonly checkIntervalDays: number;
  readonly resting: boolean;
  /** How many days before today `history` should hold; all when left out. Fewer are worked out faster. */
  readonly historyDays?: number;
  /** Feedings and care expected after today, beside what the scenario holds; without an entry's id. */
  readonly plan?: readonly BinEvent[];
  /** `band` and `asked` of each signal at the last look (yesterday's, say), so that a probability near a mark does not flicker. */
  readonly bandsBefore?: BandsBefore;
}

/**
 * The state of a bin, what is coming in 14 days, why, what helps, what to feed and what falls due.
 *
 * @shape scenario, day -> outlook
 * @returns Plain data; the same for the same input, with a memory or without
 * @valid today a whole day of 0 or more; events after today are the plan known so far
 * @throws {RangeError} when today is not such a day
 * @source none: glue of the model, the signals and the plans
 */
export function outlookOf(scenario: Scenario, today: number, settings: OutlookSettings, memory?: RunMemory): Outlook {
  if (!Number.isInteger(today) || today < 0)
    throw new RangeError(`Cannot look at a bin as today is a whole day from 0: current value is ${today}`);
  const standing = standingOf(scenario, today, settings, memory);
  const signals = assess(assessable(standing, settings));
  const { band, lead } = binBand(signals);
  const benches = benchesOf(standing);
  const advice = feedAdvice(feedScene(standing, benches));
  return {
    day: today,
    band,
    lead,
    signals: withRemedies(standing, benches, signals, advice.hold),
    now: viewOf(standing.run),
    history: rowsOf(standing.run),
    forecast: rowsOf(standing.ahead).filter((row) => row.day >= today),
    fan: fanOf(standing.ahead, today),
    advice,
    duties: dutiesFor(standing, benches, signals, advice.hold),
    ledgers: ledgersOf(standing.run),
    surprises: standing.run.surprises.filter(({ day }) => day >= today - LOOK_BACK_DAYS),
  };
}

/**
 * The bands of a bin's signals on a day and nothing else, for the next day's look to start from.
 *
 * @shape scenario, day -> bands
 * @source none: glue of the model and the signals
 */
export function signalBandsOn(scenario: Scenario, day: number, settings: OutlookSettings, memory?: RunMemory): BandsBefore {
  return bandsFor(assess(assessable(standingOf(scenario, day, settings, memory), settings)));
}

/** What a look leaves behind for the next one. */
export const bandsFor = (signals: readonly SignalOutlook[]): BandsBefore =>
  Object.fromEntries(signals.map(({ id, band, asked }) => [id, { band, asked }]));

function assessable(standing: Standing, settings: OutlookSettings): Assessable {
  const { today, run, planned, log, past, coming, bin } = standing;
  const binOn = (day: number): BinDay => {
    if (day === today) return bin;
    const then = forkRun(run, { keepHistory: false });
    advance(then, day - today, planned);
    return mediansOf(viewOf(then));
  };
  return { ...standing, days: [...past, ...coming], events: [...log, ...planned], binOn, bandsBefore: settings.bandsBefore };
}

type Benches = ReturnType<typeof benchesOf>;

function feedScene(standing: Standing, benches: Benches): FeedScene {
  const { setup, bin, today, log, resting } = standing;
  return { setup, bin, log: logFactsAt(log, today), resting, troubleAfter: (plan, by) => troubleAfter(standing, plan, benches[by]) };
}

/** Who is told to feed nothing is not offered a feeding beside it. */
const NO_RATION = { massKg: 0, beddingKg: 0, zones: [] } as const;

function withRemedies(
  standing: Standing,
  benches: Benches,
  signals: readonly SignalOutlook[],
  hold: HoldReason | null,
): readonly SignalOutlook[] {
  const { today, setup, bin, run, planned, log } = standing;
  const last = rowsOf(run).at(-1);
  const trial: Trial = {
    ...standing,
    scene: {
      today,
      setup,
      bin,
      solidsKgDb: last?.solidsKgDb.p50 ?? 0,
      planned,
      ration: hold ? NO_RATION : feedingPlan({ setup, bin }, weeklyRationKg({ setup, bin })),
    },
    ...benches,
    log,
  };
  return signals.map((signal) => {
    if (signal.band === 'settled') return signal;
    return { ...signal, remedies: remediesFor(signal, trial), ask: askFor(signal, standing) };
  });
}

function dutiesFor(
  standing: Standing,
  benches: Benches,
  signals: readonly SignalOutlook[],
  hold: HoldReason | null,
): readonly DutyWindow[] {
  const { past, coming, today, log, checkIntervalDays, resting } = standing;
  const sinceDay = (id: SignalId): number | null => {
    const signal = signals.find((each) => each.id === id);
    return signal?.sinceDay ?? signal?.firstLikelyDay ?? null;
  };
  // What is planned is no reason not to plan it: the duty asks when food would run out if nobody came.
  const unfed = standing.planned.length === 0 ? coming : benches.all.tryDays([], coming.length);
  const foodInHandDays = [past.at(-1), ...unfed].map((each) => weightedMedian(each));
  return dutiesOf({ today, log: logFactsAt(log, today), checkIntervalDays, resting, hold, foodInHandDays, sinceDay });
}

function weightedMedian(day: MembersDay | undefined): number {
  const pairs = (day?.readings ?? [])
    .map((reading, member) => [reading.foodInHandDays, day?.weights[member] ?? 0] as const)
    .sort((a, b) => a[0] - b[0]);
  let share = 0;
  for (const [value, weight] of pairs) {
    share += weight;
    if (share >= 0.5) return value;
  }
  return pairs.at(-1)?.[0] ?? 0;
}
