import { parameter } from '../bin/parameter.ts';
import type { BinRun } from '../bin/run-types.ts';
import type { BinEvent } from '../bin/scenario.ts';
import { MEMBER_RATIOS, type MemberRatio } from '../bin/state.ts';
import { normalQuantile, uniformOf } from './chance.ts';
import { supposeForgotten } from './forgotten.ts';
import { type Seen, type SeenKind, seenIn } from './likelihood.ts';
import { RATIO_FACTORS } from './priors.ts';
import { effectiveMembers, resample } from './resample.ts';

export const LEARN_PARAMETERS = {
  surpriseBelow: parameter(0.01, 'probability', 'estimate', 'model 3'),
  resampleBelow: parameter(0.5, 'share of members', 'estimate', 'model 3'),
  /** Jitter keeps mean and variance: parameters shrink to their mean by this and are spread again. */
  shrinkage: parameter(0.98, 'ratio', 'estimate', 'liu-west-2001'),
  driftPerDay: parameter(0.004, '1/d', 'estimate', 'none: what a bin is like is forgotten over a season'),
  driftEveryDays: parameter(7, 'd', 'estimate', 'none: often enough'),
} as const;
const P = LEARN_PARAMETERS;

export const SURPRISE_CAUSES = [
  'feeding-not-logged',
  'larvae',
  'wrong-unit',
  'wrong-bin',
  'mistaken-reading',
  'harvest-not-logged',
  'worms-left',
] as const;
export type SurpriseCause = (typeof SURPRISE_CAUSES)[number];

/** Something seen that the members had given less than one chance in a hundred. */
export interface Surprise {
  readonly day: number;
  readonly entryId: string | null;
  readonly kind: SeenKind;
  readonly zone: number | null;
  /** What the members had given it. */
  readonly probability: number;
  readonly causes: readonly SurpriseCause[];
}

const CAUSES_OF: Readonly<Record<SeenKind, readonly SurpriseCause[]>> = {
  leftover: ['feeding-not-logged', 'larvae', 'wrong-unit'],
  squeeze: ['mistaken-reading', 'wrong-bin'],
  smell: ['feeding-not-logged', 'mistaken-reading'],
  temperature: ['mistaken-reading', 'wrong-unit', 'larvae'],
  worms: ['worms-left', 'wrong-bin'],
  ph: ['mistaken-reading', 'feeding-not-logged'],
  level: ['harvest-not-logged', 'feeding-not-logged', 'larvae'],
  harvest: ['wrong-unit', 'wrong-bin', 'feeding-not-logged'],
};

/** Lets a log entry teach the members: weights by likelihood, then resampling where few are left that count. */
export function learnFrom(run: BinRun, event: BinEvent, day: number): void {
  const seen = seenIn(event, run.scenario.bin.areaM2).filter((each) => canTeach(run, each));
  if (seen.length === 0) return;
  if (event.type === 'check') supposeForgotten(run, day);
  for (const each of seen) weigh(run, each, event, day);
  if (run.state.members > 1 && effectiveMembers(run.state.bed.weight) < P.resampleBelow.value * run.state.members) {
    resample(run, uniformOf(run.scenario.seed, day, run.events.indexOf(event), 991));
    jitter(run, day);
  }
}

/** What is left of a feeding says nothing where nothing was fed. */
const canTeach = (run: BinRun, { kind, zone }: Seen): boolean =>
  kind !== 'leftover' || (zone !== null && zone <= run.state.zones && run.state.zoneMarks.zoneFedDay[zone - 1]! >= 0);

function weigh(run: BinRun, seen: Seen, event: BinEvent, day: number): void {
  const { state } = run;
  const { weight } = state.bed;
  let predicted = 0;
  let total = 0;
  for (let m = 0; m < state.members; m++) {
    const chance = seen.of(state, m);
    predicted += weight[m]! * chance;
    weight[m]! *= chance;
    total += weight[m]!;
  }
  for (let m = 0; m < state.members; m++) weight[m]! /= total;
  if (predicted >= P.surpriseBelow.value || state.members === 1) return;
  run.surprises.push({
    day,
    entryId: event.entryId ?? null,
    kind: seen.kind,
    zone: seen.zone,
    probability: predicted,
    causes: CAUSES_OF[seen.kind],
  });
}

/** After resampling: the copies' parameters part a little, mean and variance stay; state is not touched. */
function jitter({ state, scenario }: BinRun, day: number): void {
  MEMBER_RATIOS.forEach((name, dimension) => {
    const ratio = state.bed[name];
    const { mean, spread } = momentsOfLog(ratio);
    const shrink = P.shrinkage.value;
    const noise = spread * Math.sqrt(1 - shrink * shrink);
    for (let m = 0; m < state.members; m++) {
      const z = normalQuantile(uniformOf(scenario.seed ^ 0x51ed270b, day, dimension, m));
      ratio[m] = Math.exp(mean + shrink * (Math.log(ratio[m]!) - mean) + noise * z);
    }
  });
}

function momentsOfLog(values: Float64Array): { mean: number; spread: number } {
  let sum = 0;
  let squares = 0;
  for (const value of values) {
    const log = Math.log(value);
    sum += log;
    squares += log * log;
  }
  const mean = sum / values.length;
  return { mean, spread: Math.sqrt(Math.max(0, squares / values.length - mean * mean)) };
}

/** A bin's nature changes slowly: now and then each ratio moves towards its prior and is spread by as much. */
export function drift({ state, scenario }: BinRun, day: number): void {
  const every = P.driftEveryDays.value;
  if (state.members === 1 || day === 0 || day % every !== 0) return;
  const keep = Math.exp(-P.driftPerDay.value * every);
  MEMBER_RATIOS.forEach((name: MemberRatio, dimension) => {
    const noise = Math.log(RATIO_FACTORS[name]) * Math.sqrt(1 - keep * keep);
    const ratio = state.bed[name];
    for (let m = 0; m < state.members; m++) {
      const z = normalQuantile(uniformOf(scenario.seed ^ 0x2c1b3c6d, day, dimension, m));
      ratio[m] = Math.exp(keep * Math.log(ratio[m]!) + noise * z);
    }
  });
}
