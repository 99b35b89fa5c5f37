/**
 * What the people of a bin know of it on a day: the same model that advises them in the app. A bin
 * whose people follow the advice is a bin that is well; the stories of trouble do not follow it.
 */
import { advance, type BinEvent, type BinView, runBin, type Scenario, viewOf, weeklyRationKg } from '@middenry/domain';
import { dayOfYear } from '../apps/api/src/services/local-time.ts';
import type { BinStory } from './world/bins.ts';
import { MAX_C, MIN_C } from './world/sites.ts';

export interface Keeper {
  /** The bin as it lies this morning. */
  view(): BinView;
  /** Food of a week by the advice [kg]. */
  weekKg(): number;
  /** Lets a day pass with what was done on it. */
  pass(events: readonly BinEvent[]): void;
}

export function keeperOf(story: BinStory, startedOn: string): Keeper {
  const scenario = scenarioOf(story, startedOn);
  const run = runBin(scenario, { untilDay: 0, recordsRows: false });
  return {
    view: () => viewOf(run),
    weekKg: () => rationOf(scenario, viewOf(run)),
    pass: (events) =>
      void advance(
        run,
        1,
        events.map((event) => ({ ...event, day: run.day + 1 })),
      ),
  };
}

function rationOf({ bin: setup }: Scenario, view: BinView): number {
  const middle = (name: 'wormsKg' | 'foodInHandDays' | 'bedTempC' | 'labileFoodKgDb' | 'appetiteKgDbPerDay') => view[name].p50;
  const bin = { ageDays: view.ageDays, wormsKg: middle('wormsKg'), foodInHandDays: middle('foodInHandDays'), bedTempC: middle('bedTempC') };
  return weeklyRationKg({ setup, bin: bin as Parameters<typeof weeklyRationKg>[0]['bin'] });
}

const INDOOR_C = 18;

function scenarioOf(story: BinStory, startedOn: string): Scenario {
  const { kind, areaM2, depthM, zones, exposure, openBase = false, wormsKg, bedWaterKg, beddingStartKg } = story;
  const outdoors = { monthly: { minC: MIN_C, maxC: MAX_C, firstDayOfYear: dayOfYear(startedOn) } };
  return {
    schema: 'middenry-scenario/1',
    days: story.startedDaysAgo,
    members: 1,
    seed: 1,
    bin: {
      ...{ kind, areaM2, depthM, zones, exposure, openBase, ageDays: 0, worms: { massKg: wormsKg }, bedWaterKg },
      bed: [{ material: 'cardboard_corrugated', massKg: beddingStartKg }],
    },
    climate: exposure === 'indoors' ? { tempC: INDOOR_C } : outdoors,
    events: [],
  };
}
