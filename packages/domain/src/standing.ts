import { advance, type BinRun, forkRun, runBin, startRun, viewOf } from './bin/run.ts';
import type { BinEvent, Scenario } from './bin/scenario.ts';
import { fewOf } from './ensemble/few.ts';
import type { RunMemory } from './ensemble/memory.ts';
import { shareOf } from './ensemble/spread.ts';
import type { FeedingPlan, Trouble } from './plan/feed-advice.ts';
import { type Course, courseOf, daysAt, type Keeping } from './signals/assess.ts';
import { type BinDay, type MembersDay, mediansOf } from './signals/member-day.ts';
import { daysOf } from './signals/read-days.ts';
import { SIGNALS } from './signals/registry.ts';
import type { TrialMembers } from './signals/remedies.ts';
import type { SignalId } from './signals/types.ts';

export const FORECAST_DAYS = 14;
/** Long enough for the slowest signal to be seen as overdue, with its days running. */
export const LOOK_BACK_DAYS = 30;

/** One bin on one day, run once and copied for every question. */
export interface Standing extends Keeping {
  readonly today: number;
  readonly log: readonly BinEvent[];
  readonly planned: readonly BinEvent[];
  readonly run: BinRun;
  readonly ahead: BinRun;
  readonly bin: BinDay;
  readonly past: readonly MembersDay[];
  readonly coming: readonly MembersDay[];
}

export function standingOf(
  scenario: Scenario,
  today: number,
  settings: Pick<Keeping, 'checkIntervalDays' | 'resting'> & { readonly historyDays?: number; readonly plan?: readonly BinEvent[] },
  memory?: RunMemory,
): Standing {
  const log = scenario.events.filter((event) => event.day <= today);
  const planned = [...scenario.events, ...(settings.plan ?? [])].filter((event) => event.day > today).sort((a, b) => a.day - b.day);
  const kept = Math.max(settings.historyDays ?? Number.POSITIVE_INFINITY, LOOK_BACK_DAYS);
  const fromDay = Math.max(0, today - kept);
  const logged = { ...scenario, days: Math.max(scenario.days, today), events: log };
  const run = memory ? runRemembering(logged, today, fromDay, memory) : runKeeping(logged, today, fromDay);
  const ahead = forkRun(run);
  advance(ahead, FORECAST_DAYS, planned);
  return {
    setup: scenario.bin,
    checkIntervalDays: settings.checkIntervalDays,
    resting: settings.resting,
    today,
    log,
    planned,
    run,
    ahead,
    bin: mediansOf(viewOf(run)),
    past: daysOf(run, Math.max(0, today - LOOK_BACK_DAYS), today),
    coming: daysOf(ahead, today + 1, today + FORECAST_DAYS),
  };
}

/** A run to today that keeps its days from one on: what nobody will ask for is stepped through and not written down. */
function runKeeping(scenario: Scenario, today: number, fromDay: number): BinRun {
  if (fromDay === 0) return runBin(scenario, { untilDay: today });
  const run = advance(startRun(scenario, { recordsRows: false }), fromDay);
  run.recordsRows = true;
  run.tracksFromDay = fromDay;
  return advance(run, today - fromDay + 1);
}

/** The same run, gone on from where it was kept, and kept again on its way. */
function runRemembering(scenario: Scenario, today: number, fromDay: number, memory: RunMemory): BinRun {
  const run = memory.recall(scenario, today, Math.max(0, today - LOOK_BACK_DAYS)) ?? startRun(scenario);
  for (const day of [...memory.keepDays(today), today]) {
    while (run.day < day) {
      advance(run, Math.min(day - run.day, LOOK_BACK_DAYS));
      // Resampling copies every day of tracks that is held, and nobody reads them further back.
      forgetTracks(run, run.day - LOOK_BACK_DAYS);
      if (run.day === day && day < today) memory.keep(run);
    }
  }
  run.rows.splice(
    0,
    run.rows.findIndex((row) => row.day >= fromDay),
  );
  return run;
}

function forgetTracks(run: BinRun, fromDay: number): void {
  const gone = fromDay - run.tracksFromDay;
  if (gone <= 0) return;
  for (const days of Object.values(run.tracks)) days.splice(0, gone);
  run.tracksFromDay = fromDay;
}

/** The members of a standing bin that plans are tried on. */
export interface Bench extends TrialMembers {
  readonly run: BinRun;
}

/** All members, and few of them for what is tried often; the same where there are few anyway. */
export function benchesOf(standing: Standing): { readonly few: Bench; readonly all: Bench } {
  const { run, today, past, coming, planned } = standing;
  const all: Bench = { run, past, ahead: coming, tryDays: (events, days) => tryDays(run, events, days) };
  const few = fewOf(run);
  if (few === run) return { few: all, all };
  const fewAll: Bench = {
    run: few,
    past: daysOf(few, Math.max(0, today - LOOK_BACK_DAYS), today),
    ahead: tryDays(few, planned, FORECAST_DAYS),
    tryDays: (events, days) => tryDays(few, events, days),
  };
  return { few: fewAll, all };
}

/** The days after a run's last under a plan. */
function tryDays(run: BinRun, events: readonly BinEvent[], days: number): readonly MembersDay[] {
  const trial = forkRun(run, { keepHistory: false, tracksOnly: true });
  advance(trial, days, events);
  return daysOf(trial, run.day + 1, run.day + days);
}

/** Chance that food runs out of air or piles up within the forecast, if this is fed tomorrow and nothing else is. */
export function troubleAfter(standing: Standing, plan: FeedingPlan, bench: Bench): Trouble {
  return troubleUnder(standing, feedingEvents(plan, standing.today + 1), bench);
}

/** The same under any events of the days ahead. */
export function troubleUnder(standing: Standing, events: readonly BinEvent[], bench: Bench): Trouble {
  const { log } = standing;
  const days = bench.tryDays(events, FORECAST_DAYS);
  const before = daysAt(standing, bench.past, log);
  const at = daysAt(standing, days, [...log, ...events]);
  const course = (id: SignalId): Course => courseOf(SIGNALS[id], at, courseOf(SIGNALS[id], before).running);
  const comes = { airless: course('airless'), overfed: course('overfed') };
  const share = (courses: readonly Course[]): number =>
    shareOf(bench.run.state.bed.weight, (m) => courses.some(({ holds }) => holds.some((day) => day[m])));
  return { airless: share([comes.airless]), overfed: share([comes.overfed]), either: share([comes.airless, comes.overfed]) };
}

function feedingEvents({ massKg, beddingKg, zones }: FeedingPlan, day: number): readonly BinEvent[] {
  return zones.map((zone) => ({
    day,
    type: 'feeding',
    zone,
    items: [{ material: 'food_scraps_veg', massKg: massKg / zones.length, how: 'weighed' }],
    beddingKg: beddingKg / zones.length,
    beddingMaterial: 'cardboard_corrugated',
  }));
}
