import { advance, type BinRun, runBin, weightsOf } from '../bin/run.ts';
import type { BinSetup, Climate, Scenario } from '../bin/scenario.ts';
import { shareOf } from '../ensemble/spread.ts';
import { courseOf, daysAt } from '../signals/assess.ts';
import { daysOf } from '../signals/read-days.ts';
import { SIGNALS } from '../signals/registry.ts';
import { eventsOfChoice, NOTHING_DONE, type WhatIfChoice } from './choice.ts';
import { WHAT_IF_SIGNALS, type WhatIfSignal } from './ensemble.ts';
import { dayOf, type WhatIfDay, zonesInTurn } from './what-if.ts';

export const MADE_UP_SIZES = ['small', 'middle', 'large'] as const;
export type MadeUpSize = (typeof MADE_UP_SIZES)[number];
export const MADE_UP_BEDS = ['card', 'leaves', 'straw', 'thin'] as const;
export type MadeUpBed = (typeof MADE_UP_BEDS)[number];
export const MADE_UP_WORMS = ['few', 'some', 'many'] as const;
export type MadeUpWorms = (typeof MADE_UP_WORMS)[number];
/** The longest story: twelve weeks, a school term. */
export const MADE_UP_DAYS = 84;

/** What is done at one time of a story: at the end of `day`, so that it works from the next day on. */
export interface MadeUpMove extends Omit<WhatIfChoice, 'repeat' | 'warmerC'> {
  readonly day: number;
  /** How warm the air is from the next day on; null leaves it as it was. */
  readonly airC: number | null;
}

/** A bin that nobody has, and what is done to it. */
export interface MadeUpBin {
  readonly size: MadeUpSize;
  readonly bed: MadeUpBed;
  readonly worms: MadeUpWorms;
  /** Of the air at the start. */
  readonly airC: number;
  /** In order of day. */
  readonly moves: readonly MadeUpMove[];
}

export interface MadeUpDay extends WhatIfDay {
  /** Share of the members in which each trouble is there on this day. */
  readonly shares: Readonly<Record<WhatIfSignal, number>>;
  /** Share of the members with any of them. */
  readonly trouble: number;
}

/** How big each is; an indoor box, a common tote and a box of boards. */
const SIZES: Readonly<Record<MadeUpSize, Pick<BinSetup, 'areaM2' | 'depthM' | 'zones'>>> = {
  small: { areaM2: 0.12, depthM: 0.3, zones: 2 },
  middle: { areaM2: 0.3, depthM: 0.4, zones: 4 },
  large: { areaM2: 1, depthM: 0.5, zones: 6 },
};
/** Dry bedding [kg/m2] with the water that wets it [kg/kg]; each with castings of an older bin. */
const BEDS: Readonly<Record<MadeUpBed, { readonly material: string; readonly kgM2: number; readonly waterKgKg: number }>> = {
  card: { material: 'cardboard_corrugated', kgM2: 8, waterKgKg: 2.8 },
  leaves: { material: 'leaves_dry', kgM2: 8, waterKgKg: 2 },
  straw: { material: 'straw_general', kgM2: 6, waterKgKg: 2.4 },
  thin: { material: 'cardboard_corrugated', kgM2: 2, waterKgKg: 2.8 },
};
const CASTINGS_KG_M2 = 12;
const WORMS_KG_M2: Readonly<Record<MadeUpWorms, number>> = { few: 0.5, some: 2, many: 5 };
/** Enough to show a spread, few enough that a browser plays a term at once. */
const MEMBERS = 16;
const SEED = 20;
/** Nobody looks at it but the class, every day: that nobody looked is no trouble of a made-up bin. */
const CHECK_INTERVAL_DAYS = 7;

function setupOf({ size, bed, worms }: MadeUpBin): BinSetup {
  const { areaM2, ...box } = SIZES[size];
  const { material, kgM2, waterKgKg } = BEDS[bed];
  return {
    kind: 'tote',
    areaM2,
    ...box,
    openBase: false,
    ageDays: 60,
    worms: { massKg: WORMS_KG_M2[worms] * areaM2 },
    bed: [
      { material, massKg: kgM2 * areaM2 },
      { material: 'castings', massKg: CASTINGS_KG_M2 * areaM2 },
    ],
    bedWaterKg: kgM2 * waterKgKg * areaM2,
  };
}

/** The air of each day, as the moves turn it. */
function airOf({ airC, moves }: MadeUpBin, days: number): Climate {
  let now = airC;
  const turns = moves.filter((move) => move.airC !== null);
  const readings = Array.from({ length: days + 1 }, (_, day): readonly [number, number] => {
    now = turns.findLast((move) => move.day < day)?.airC ?? now;
    return [day, now];
  });
  return { tempC: airC, readings };
}

/**
 * Plays a made-up bin from its start, with what is done to it on the way.
 *
 * @shape made-up bin, day -> days[n]
 * @param days Up to which day; MADE_UP_DAYS at most
 * @returns Day 0 and each day after it; the same for the same story
 * @source none: glue of the model and the signals
 */
export function playMadeUp(bin: MadeUpBin, days: number): readonly MadeUpDay[] {
  const last = Math.min(days, MADE_UP_DAYS);
  const setup = setupOf(bin);
  const scenario: Scenario = {
    schema: 'middenry-scenario/1',
    days: last,
    members: MEMBERS,
    seed: SEED,
    bin: setup,
    climate: airOf(bin, last),
    events: [],
  };
  const run = runBin(scenario, { untilDay: 0 });
  for (const { day, ...move } of bin.moves) {
    if (day >= last || day < run.day) continue;
    advance(run, day - run.day);
    run.events.push(...eventsOfChoice({ ...NOTHING_DONE, ...move }, zonesInTurn(run), day, 1));
  }
  advance(run, last - run.day);
  return toldOf(run, setup, last);
}

function toldOf(run: BinRun, setup: BinSetup, last: number): readonly MadeUpDay[] {
  const at = daysAt({ setup, checkIntervalDays: CHECK_INTERVAL_DAYS, resting: false }, daysOf(run, 0, last), run.events);
  const courses = WHAT_IF_SIGNALS.map((id) => courseOf(SIGNALS[id], at).holds);
  const weights = weightsOf(run);
  return Array.from({ length: last + 1 }, (_, day) => ({
    ...dayOf(run, 0, day),
    shares: Object.fromEntries(
      WHAT_IF_SIGNALS.map((id, i) => [id, shareOf(weights, (m) => courses[i]?.[day]?.[m] === true)]),
    ) as MadeUpDay['shares'],
    trouble: shareOf(weights, (m) => courses.some((holds) => holds[day]?.[m] === true)),
  }));
}
