import { parameter } from '../bin/parameter.ts';
import { type Charge, chargeOf, putBedding, putFood } from '../bin/put.ts';
import type { BinRun } from '../bin/run-types.ts';
import type { BinEvent } from '../bin/scenario.ts';
import { uniformOf } from './chance.ts';

/**
 * Logs have gaps: some feedings are never written down. A member may hold one when the bin is looked at, before what is seen is
 * weighed, so that what was forgotten is neither unthinkable nor taken for certain. Without it the truth lay above nine tenths of
 * the members far too often (docs/explanation/forecast-skill.md).
 */
export const FORGOTTEN_PARAMETERS = {
  forgottenFrac: parameter(0.1, 'share of feedings', 'estimate', 'none: one in ten is not written down'),
  countedDays: parameter(28, 'd', 'estimate', 'none: how this bin is fed of late'),
  longestGapDays: parameter(14, 'd', 'estimate', 'none: what was forgotten before that is eaten'),
} as const;
const P = FORGOTTEN_PARAMETERS;

type Feeding = Extract<BinEvent, { type: 'feeding' }>;

/** One usual feeding of a bin: what is put in, as shares of the food, and how much of it and of bedding. */
interface Usual {
  readonly feeding: Feeding;
  readonly massKg: number;
  readonly beddingKg: number;
}

const foodKg = (feeding: Feeding): number => feeding.items.reduce((sum, { massKg }) => sum + massKg, 0);
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * Lets some members hold a feeding that nobody wrote down since the last look.
 *
 * @shape run, day -> run
 * @returns Changes the members' food; as often as the log's own feedings and the share forgotten say, Poisson, at most one
 * @source none: estimate of how people keep a log
 */
export function supposeForgotten(run: BinRun, day: number): void {
  const { state, scenario } = run;
  const fed = run.events.filter(
    (event): event is Feeding => event.type === 'feeding' && event.day < day && event.day >= day - P.countedDays.value,
  );
  if (state.members === 1 || fed.length === 0) return;
  const lastCheckDay = state.marks.lastCheckDay[0]!;
  const gapDays = Math.min(P.longestGapDays.value, day - Math.max(0, lastCheckDay));
  const perDay = fed.length / Math.min(P.countedDays.value, day);
  const expected = (gapDays * perDay * P.forgottenFrac.value) / (1 - P.forgottenFrac.value);
  const usual: Usual = {
    feeding: fed.at(-1)!,
    massKg: mean(fed.map(foodKg)),
    beddingKg: mean(fed.map(({ beddingKg }) => beddingKg ?? 0)),
  };
  const chance = -Math.expm1(-expected);
  const zone = longestUnfed(run);
  for (let m = 0; m < state.members; m++) {
    const draw = uniformOf(scenario.seed ^ 0x3ad8025f, day, m);
    // The same draw, stretched, says when it was.
    if (draw < chance) putForgotten(run, m, zone, usual, gapDays * (draw / chance));
  }
}

function longestUnfed({ state }: BinRun): number {
  const fedDay = state.zoneMarks.zoneFedDay;
  let zone = 0;
  for (let other = 1; other < state.zones; other++) if (fedDay[other]! < fedDay[zone]!) zone = other;
  return zone;
}

function putForgotten(run: BinRun, m: number, zone: number, { feeding, massKg, beddingKg }: Usual, daysAgo: number): void {
  const { state } = run;
  const ratio = massKg / foodKg(feeding);
  for (const item of feeding.items) {
    const charge = chargeOf({ ...item, preCompostedDays: (item.preCompostedDays ?? 0) + daysAgo });
    if (isFood(charge)) putFood(state, m, zone, charge, item.massKg * ratio);
  }
  if (beddingKg > 0) {
    const bedding = chargeOf({ material: feeding.beddingMaterial ?? 'cardboard_corrugated', massKg: beddingKg });
    putBedding(state, m, bedding, beddingKg, zone);
  }
  const at = zone * state.members + m;
  state.zone.lastLeftFrac[at] = Math.max(state.zone.lastLeftFrac[at]!, leftAfter(daysAgo));
}

const isFood = ({ isFinished, isMineral }: Charge): boolean => !isFinished && !isMineral;

/** About what is left of mixed scraps after so many days, as the eye of the next look would put it. */
const leftAfter = (days: number): number => Math.exp(-LEFT_RATE_PER_DAY.value * days);
const LEFT_RATE_PER_DAY = parameter(0.06, '1/d', 'estimate', 'none: labile rate of mixed scraps, table 7b');
