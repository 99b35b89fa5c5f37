import * as read from '../../src/bin/observe.ts';
import { normalQuantile, uniformOf } from '../../src/ensemble/chance.ts';
import {
  advance,
  type BinEvent,
  type BinRun,
  LEFTOVERS,
  type Scenario,
  SMELLS,
  SQUEEZES,
  type Structure,
  startRun,
  trackOf,
} from '../../src/index.ts';

/** Which world the truth is drawn from: the model's own prior, parameters one spread off, or another structure. */
export const TRUTHS = ['prior', 'one-off', 'other-structure'] as const;
export type Truth = (typeof TRUTHS)[number];

export const LOG_DAYS = 28;
export const AHEAD_DAYS = 14;

/** One bin's history as it happened, and the log that people kept of it. */
export interface History {
  readonly scenario: Scenario;
  readonly truth: BinRun;
  /** The member of the truth run that is the bin. */
  readonly member: number;
}

const chanceOf = (seed: number, a: number, b = 0): number => uniformOf(seed, a, b, 404);
/** As many as the model is made for (model.md 3). */
const MEMBERS = 256;

/** How well people keep the log: share of feedings not written down, share of things seen that are quite wrong. */
export interface Keeping {
  readonly missed: number;
  readonly wrong: number;
}
export const AS_PEOPLE_DO: Keeping = { missed: 0.1, wrong: 0.03 };
export const WITHOUT_FAULT: Keeping = { missed: 0, wrong: 0 };

/** Feedings every three or four days, more or less than the bin can take; a check a week. */
function feedings(seed: number): BinEvent[] {
  const usualKg = 0.4 * 12 ** chanceOf(seed, 1);
  const events: BinEvent[] = [];
  let day = 0;
  for (let i = 0; day < LOG_DAYS + AHEAD_DAYS; i++) {
    const massKg = usualKg * Math.exp(0.35 * normalQuantile(chanceOf(seed, 2, i)));
    events.push({
      day,
      type: 'feeding',
      zone: (i % 2) + 1,
      items: [{ material: 'food_scraps_veg', massKg, how: 'container' }],
      beddingKg: 0.08 * massKg,
      entryId: `f${seed}-${i}`,
    });
    day += chanceOf(seed, 3, i) < 0.5 ? 3 : 4;
  }
  return events;
}

function scenarioOf(seed: number, airTempC: number, events: readonly BinEvent[], members: number): Scenario {
  return {
    schema: 'middenry-scenario/1',
    days: LOG_DAYS + AHEAD_DAYS,
    members,
    seed,
    bin: {
      kind: 'tote',
      areaM2: 0.2,
      depthM: 0.35,
      zones: 2,
      openBase: false,
      ageDays: 90,
      worms: { massKg: 0.6 },
      bed: [{ material: 'cardboard_corrugated', massKg: 2.5 }],
      bedWaterKg: 5,
    },
    climate: { tempC: airTempC },
    events,
  };
}

/** Two members, so that ratios are drawn at all; the first is the bin, the second is left alone. */
const TRUTH_MEMBERS = 2;

export function historyOf(seed: number, kind: Truth, keeping: Keeping = AS_PEOPLE_DO, members = MEMBERS): History {
  const happened = feedings(seed);
  const airTempC = 16 + 10 * chanceOf(seed, 4);
  const structure: Partial<Structure> = kind === 'other-structure' ? { diffusion: 'millington-quirk', microbes: 'rothc' } : {};
  const truth = startRun(scenarioOf(seed ^ 0x5bd1e995, airTempC, happened, TRUTH_MEMBERS), { structure });
  if (kind === 'one-off')
    for (const name of ['labileRateRatio', 'appetiteRatio', 'evaporationRatio'] as const)
      truth.state.bed[name].fill(name === 'evaporationRatio' ? 0.67 : 0.63);
  const seen: BinEvent[] = [];
  for (let day = 0; day < LOG_DAYS + AHEAD_DAYS; day++) {
    if (day > 0 && day < LOG_DAYS && day % 7 === 5) seen.push(checkOf(truth, seed, day, keeping.wrong));
    advance(truth, 1);
  }
  const logged = happened.filter((event, i) => event.day >= LOG_DAYS || chanceOf(seed, 5, i) >= keeping.missed);
  return { scenario: scenarioOf(seed, airTempC, [...logged, ...seen], members), truth, member: 0 };
}

const wordOf = (value: number, marks: readonly number[]): number => marks.filter((mark) => value >= mark).length;

/** What a volunteer writes down: the bin as it is, with an eye's error, and now and then something quite wrong. */
function checkOf(truth: BinRun, seed: number, day: number, wrongShare: number): BinEvent {
  const { state } = truth;
  const wrong = (item: number): boolean => chanceOf(seed, 6 + item, day) < wrongShare;
  const noise = (item: number): number => normalQuantile(chanceOf(seed, 20 + item, day));
  const any = (item: number, count: number): number => Math.floor(chanceOf(seed, 40 + item, day) * count);
  const left = (zone: number): number =>
    wrong(zone) ? any(zone, 5) : wordOf(state.zone.lastLeftFrac[zone * state.members]! + 0.1 * noise(zone), [0.1, 0.3, 0.6, 0.85]);
  const squeeze = wrong(3) ? any(3, 5) : wordOf(read.moistureFracWb(state, 0) + 0.035 * noise(3), [0.6, 0.7, 0.8, 0.85]);
  const airless = Math.max(state.zone.airlessFrac[0]!, state.zone.airlessFrac[state.members]!);
  const rotten = chanceOf(seed, 60, day) < 0.02 + 0.75 / (1 + Math.exp((0.3 - airless) / 0.08));
  return {
    day,
    type: 'check',
    leftover: { '1': LEFTOVERS[left(0)]!, '2': LEFTOVERS[left(1)]! },
    squeeze: SQUEEZES[squeeze]!,
    smell: rotten ? 'rotten' : SMELLS[0],
    tempC: state.bed.bedTempC[0]! + 1.2 * noise(4),
  };
}

export const WATCHED = ['airless', 'overfed'] as const;
export type Watched = (typeof WATCHED)[number];

/** Whether it holds in a member on a day, by the definitions of model.md 4. */
function holdsOn(run: BinRun, m: number, day: number, what: Watched): boolean {
  const of = (name: Parameters<typeof trackOf>[1], on: number): number => trackOf(run, name, on)[m]!;
  if (what === 'overfed') return of('foodInHandDays', day) > 14 || of('oldLabileFrac', day) > 0.5;
  const airless = (on: number): boolean => of('airlessFrac', on) >= 0.25 || of('baseOxygenFrac', on) < 0.05;
  return airless(day) && airless(day - 1);
}

/** Whether it holds on the last day of the log or begins within so many days. */
export function comes(run: BinRun, m: number, days: number, what: Watched): boolean {
  for (let day = LOG_DAYS - 1; day <= LOG_DAYS - 1 + days; day++) if (holdsOn(run, m, day, what)) return true;
  return false;
}

/** What the members say of it; days are kept from the last but one of the log, as nothing before is asked for. */
export function believed({ scenario }: History): BinRun {
  const run = advance(startRun(scenario, { recordsRows: false }), LOG_DAYS - 2);
  run.recordsRows = true;
  run.tracksFromDay = run.day + 1;
  return advance(run, AHEAD_DAYS + 2);
}
