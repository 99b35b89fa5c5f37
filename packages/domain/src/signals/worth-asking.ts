import { type BinEvent, LEFTOVERS, SMELLS, SQUEEZES, WORM_SIGHTINGS } from '../bin/scenario.ts';
import type { BinState } from '../bin/state.ts';
import { seenIn } from '../ensemble/likelihood.ts';
import type { Ask, Look } from './types.ts';

/** Less than this is not worth a walk. */
const LEAST_NARROWED_FRAC = 0.02;
const LEAST_DOUBT = 1e-9;

interface Candidate {
  readonly look: Look;
  readonly zone: number | null;
  /** Every answer that somebody could note. */
  readonly answers: readonly BinEvent[];
}

/**
 * Which look would tell most about whether a thing happens, by reweighting the members as each answer would.
 *
 * doubt p (1 - p); after answer a: p_a = sum(w e L_a) / sum(w L_a); narrowed = 1 - sum(P(a) p_a (1 - p_a)) / (p (1 - p))
 *
 * @shape state, happens[n] -> look
 * @returns The best look, or null where there is no doubt or no look would tell
 * @valid members 1 or more; with one there is never doubt
 * @source none: expected variance after the answer, with the likelihoods of ensemble/likelihood.ts
 */
export function worthAsking(state: BinState, happens: readonly boolean[], areaM2: number, zone: number | null): Ask | null {
  const weights = state.bed.weight;
  const share = sumOver(weights, (member) => (happens[member] ? 1 : 0));
  const doubt = share * (1 - share);
  if (doubt < LEAST_DOUBT) return null;
  const asks = candidates(state, zone).map(({ look, zone: where, answers }) => ({
    look,
    zone: where,
    narrowedFrac: 1 - answers.reduce((left, answer) => left + doubtAfter(state, happens, answer, areaM2), 0) / doubt,
  }));
  const best = asks.reduce((a, b) => (b.narrowedFrac > a.narrowedFrac ? b : a));
  return best.narrowedFrac >= LEAST_NARROWED_FRAC ? best : null;
}

/** Probability of an answer times the doubt it would leave. */
function doubtAfter(state: BinState, happens: readonly boolean[], answer: BinEvent, areaM2: number): number {
  const seen = seenIn(answer, areaM2);
  const likely = (member: number): number => seen.reduce((product, each) => product * each.of(state, member), 1);
  const all = sumOver(state.bed.weight, likely);
  if (all <= 0) return 0;
  const yes = sumOver(state.bed.weight, (member) => (happens[member] ? likely(member) : 0)) / all;
  return all * yes * (1 - yes);
}

function candidates(state: BinState, zone: number | null): readonly Candidate[] {
  const zones = zone === null ? Array.from({ length: state.zones }, (_, index) => index + 1) : [zone];
  const check = (part: Partial<Extract<BinEvent, { type: 'check' }>>): BinEvent => ({ day: 0, type: 'check', ...part });
  return [
    ...zones.map(
      (where): Candidate => ({
        look: 'leftover',
        zone: where,
        answers: LEFTOVERS.map((word) => check({ leftover: { [String(where)]: word } })),
      }),
    ),
    { look: 'squeeze', zone: null, answers: SQUEEZES.map((squeeze) => check({ squeeze })) },
    { look: 'smell', zone: null, answers: SMELLS.map((smell) => check({ smell })) },
    { look: 'worms', zone: null, answers: WORM_SIGHTINGS.map((worms) => check({ worms })) },
  ];
}

function sumOver(weights: Float64Array, of: (member: number) => number): number {
  let sum = 0;
  for (let member = 0; member < weights.length; member++) sum += (weights[member] ?? 0) * of(member);
  return sum;
}
