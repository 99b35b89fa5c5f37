import { SPECIES_FACTS, WORM_PARAMETERS } from '../../src/bin/worms.ts';
import { advance, type BinEvent, type Composition, type DayRow, runBin, type Scenario, startRun, type WormStart } from '../../src/index.ts';

/** A laboratory container: food at the start (and later feedings), one moisture, one temperature. */
export interface Dish {
  readonly areaM2: number;
  readonly tempC: number;
  readonly moistureFracWb: number;
  readonly worms: WormStart;
  readonly days: number;
  readonly feed: Omit<Composition, 'moistureFracWb' | 'qualityRatio'>;
  readonly feedKgWb: number;
  readonly preCompostedDays?: number;
  /** Further events beside the first feeding. */
  readonly events?: readonly BinEvent[];
  /** A second feed mixed with the first at the start. */
  readonly with?: { readonly feed: Dish['feed']; readonly massKgWb: number; readonly qualityRatio: number };
}

/** The dish with the study's one constant. */
export function scenarioOf(dish: Dish, qualityRatio: number): Scenario {
  const composition = { ...dish.feed, moistureFracWb: dish.moistureFracWb, qualityRatio };
  const items = [{ composition, massKg: dish.feedKgWb, preCompostedDays: dish.preCompostedDays ?? 0 }];
  const other = dish.with;
  return {
    schema: 'middenry-scenario/1',
    days: dish.days,
    members: 1,
    seed: 1,
    bin: {
      kind: 'vessel',
      areaM2: dish.areaM2,
      depthM: 0.2,
      zones: 1,
      openBase: false,
      ageDays: 0,
      worms: { cocoonsRemoved: true, ...dish.worms },
      bed: [],
      bedWaterKg: 0,
    },
    climate: { bedTempC: dish.tempC, moistureFracWb: dish.moistureFracWb },
    events: [
      {
        day: 0,
        type: 'feeding',
        zone: 1,
        items: other
          ? [
              ...items,
              {
                composition: { ...other.feed, moistureFracWb: dish.moistureFracWb, qualityRatio: other.qualityRatio },
                massKg: other.massKgWb,
                preCompostedDays: 0,
              },
            ]
          : items,
      },
      ...(dish.events ?? []),
    ],
  };
}

export const runDish = (dish: Dish, qualityRatio: number): readonly DayRow[] => runBin(scenarioOf(dish, qualityRatio)).rows;

/** Mean mass after so many whole days: row d - 1 closes day d. */
export const massOn = (rows: readonly DayRow[], day: number): number =>
  rows[Math.max(0, Math.min(rows.length - 1, day - 1))]!.meanMassMg.p50;
export const maxOf = (rows: readonly DayRow[]): number => Math.max(...rows.map((row) => row.meanMassMg.p50));

/** Cocoons laid per adult and day between two days: the experimenter takes them away, so they stand in the carbon removed. */
export function cocoonsPerAdultDay(dish: Dish, qualityRatio: number, fromDay: number, toDay: number): number {
  const run = startRun(scenarioOf({ ...dish, days: toDay }, qualityRatio));
  const facts = SPECIES_FACTS[dish.worms.species ?? 'eisenia-fetida'];
  const laid = (): number => run.state.bed.carbonRemovedKg[0]! / ((facts.cocoonMassG / 1000) * WORM_PARAMETERS.carbonFracOfLive.value);
  let perAdult = 0;
  for (let day = 0; day <= toDay; day++) {
    const before = laid();
    advance(run, 1);
    const row = run.rows.at(-1)!;
    // Food taken out on a feeding day stands in the same column: such days are left out.
    if (day >= fromDay && row.adultCount.p50 > 0 && !dish.events?.some((event) => event.day === day))
      perAdult += (laid() - before) / row.adultCount.p50;
  }
  const counted = Array.from({ length: toDay - fromDay + 1 }, (_, i) => fromDay + i).filter(
    (day) => !dish.events?.some((event) => event.day === day),
  ).length;
  return perAdult / counted;
}

/** Quality from 0.2 to 5 with the smallest miss: golden section over its logarithm. */
export function bestOf(miss: (quality: number) => number): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [Math.log(0.2), Math.log(5)];
  for (let i = 0; i < 18; i++) {
    const a = high - ratio * (high - low);
    const b = low + ratio * (high - low);
    if (miss(Math.exp(a)) < miss(Math.exp(b))) high = b;
    else low = a;
  }
  return Math.exp((low + high) / 2);
}

/** The one free constant of a study: the quality that brings a series nearest, by squared differences of logarithms. */
export function fitQuality(dish: Dish, points: readonly (readonly [number, number])[], fromDay = 5): number {
  const wanted = points.filter(([day, mass]) => day >= fromDay && mass > 0);
  const days = Math.max(...wanted.map(([day]) => day));
  return bestOf((quality) => missOf(runDish({ ...dish, days }, quality), wanted));
}

export const missOf = (rows: readonly DayRow[], points: readonly (readonly [number, number])[]): number =>
  points.reduce((sum, [day, mass]) => sum + Math.log(massOn(rows, day) / mass) ** 2, 0);
