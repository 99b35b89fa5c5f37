import type { BinRun } from '../bin/run-types.ts';
import type { BinEvent, Scenario } from '../bin/scenario.ts';
import { weatherOf } from '../bin/weather.ts';

/**
 * Somebody who keeps runs, so that a bin's long history is not stepped through again for every question.
 * What it gives back must be what was kept, to the byte; giving nothing back is always right, only slower.
 */
export interface RunMemory {
  /** The latest run kept that rests on the same log, ended before today and holds its tracks from a day on. */
  recall(scenario: Scenario, today: number, tracksFromDay: number): BinRun | null;
  /** Days at whose end `keep` is called when the run passes them, rising. */
  keepDays(today: number): readonly number[];
  /** The run goes on afterwards: what is to be kept must be copied. */
  keep(run: BinRun): void;
}

/**
 * All that a run rests on, as lines of text: the first is its start, then one a day with the day's weather and events.
 *
 * @shape scenario, day -> text[day + 2]
 * @returns Two scenarios with the same first d + 2 lines have the same state at the end of day d
 */
export function restsOn(scenario: Scenario, untilDay: number): readonly string[] {
  const { bin, seed, members, climate } = scenario;
  const eventsOf = new Map<number, BinEvent[]>();
  for (const event of scenario.events) eventsOf.set(event.day, [...(eventsOf.get(event.day) ?? []), event]);
  const days = Array.from({ length: untilDay + 1 }, (_, day) => JSON.stringify([weatherOf(climate, day), eventsOf.get(day) ?? []]));
  // A prescribed moisture is not weather, but acts every day all the same.
  return [JSON.stringify([bin, seed, members, climate.moistureFracWb ?? null]), ...days];
}
