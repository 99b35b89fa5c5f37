import type { Geometry } from '../geometry.ts';
import type { Structure } from '../run-types.ts';
import type { Scenario } from '../scenario.ts';
import type { BinState } from '../state.ts';
import type { DayWeather } from '../weather.ts';
import type { SpeciesFacts } from '../worms.ts';
import type { Scratch } from './scratch.ts';

/** What one step of one bin needs to know; made once a day. */
export interface StepContext {
  readonly scenario: Scenario;
  readonly structure: Structure;
  readonly geometry: Geometry;
  readonly species: SpeciesFacts;
  readonly stageMassesG: readonly number[];
  readonly state: BinState;
  readonly scratch: Scratch;
  readonly weather: DayWeather;
  readonly sunGainC: number;
  readonly exposureRatio: number;
  readonly larvaePerDay: number;
  readonly day: number;
  readonly days: number;
}
