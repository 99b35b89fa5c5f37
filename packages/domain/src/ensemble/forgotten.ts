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

/**
 * Lets some members hold a feeding that nobody wrote down since the last look: one like any of those written down of late.
 *
 * @shape run, day -> run
 * @returns Changes the members' food; as often as the log's own feedings and the share forgotten say, Poisson, at most two
 * @source none: estimate of how people keep a log
 */
export function supposeForgotten(run: BinRun, day: number): void {
  const { state, scenario } = run;
  const fed = run.events.filter(
    (event): event is Feeding => event.type === 'feeding' && event.day < day && event.day >= day - P.countedDays.value,
  );
  if (state.members === 1 || fed.length === 0) return;
  const gapDays = Math.min(P.longestGapDays.value, day - Math.max(0, state.marks.lastCheckDay[0]!));
  const perDay = fed.length / Math.min(P.countedDays.value, day);
  const expected = (gapDays * perDay * P.forgottenFrac.value) / (1 - P.forgottenFrac.value);
  const none = Math.exp(-expected);
  const zones = longestUnfed(run);
  for (let m = 0; m < state.members; m++) {
    const chance = (what: number): number => uniformOf(scenario.seed ^ 0x3ad8025f, day, m, what);
    const count = chance(0) < none ? 0 : chance(0) < none * (1 + expected) ? 1 : 2;
    for (let i = 0; i < count; i++)
      putForgotten(run, m, zones[i % zones.length]!, fed[Math.floor(chance(2 * i + 1) * fed.length)]!, gapDays * chance(2 * i + 2));
  }
}

/** Zones by how long ago they were fed, as people feed in turn. */
function longestUnfed({ state }: BinRun): readonly number[] {
  const fedDay = state.zoneMarks.zoneFedDay;
  return Array.from({ length: state.zones }, (_, zone) => zone).sort((a, b) => fedDay[a]! - fedDay[b]! || a - b);
}

function putForgotten(
  { state }: BinRun,
  m: number,
  zone: number,
  { items, beddingKg = 0, beddingMaterial }: Feeding,
  daysAgo: number,
): void {
  for (const item of items) {
    const charge = chargeOf({ ...item, preCompostedDays: (item.preCompostedDays ?? 0) + daysAgo });
    if (isFood(charge)) putFood(state, m, zone, charge, item.massKg);
  }
  if (beddingKg > 0)
    putBedding(state, m, chargeOf({ material: beddingMaterial ?? 'cardboard_corrugated', massKg: beddingKg }), beddingKg, zone);
  const at = zone * state.members + m;
  state.zone.lastLeftFrac[at] = Math.max(state.zone.lastLeftFrac[at]!, leftAfter(daysAgo));
}

const isFood = ({ isFinished, isMineral }: Charge): boolean => !isFinished && !isMineral;

/** About what is left of mixed scraps after so many days, as the eye of the next look would put it. */
const leftAfter = (days: number): number => Math.exp(-LEFT_RATE_PER_DAY.value * days);
const LEFT_RATE_PER_DAY = parameter(0.06, '1/d', 'estimate', 'none: labile rate of mixed scraps, table 7b');
