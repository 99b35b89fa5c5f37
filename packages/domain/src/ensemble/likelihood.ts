import * as read from '../bin/observe.ts';
import { parameter } from '../bin/parameter.ts';
import { type BinEvent, LEFTOVERS, SMELLS, SQUEEZES, WORM_SIGHTINGS } from '../bin/scenario.ts';
import type { BinState } from '../bin/state.ts';

/**
 * Model.md 3: how likely each thing seen is in a member. 5 % is held for a mistaken entry: of words and readings by an error with
 * exponential tails, 5 % of which lie beyond the honest misreading below. Unlike a flat 5 % this keeps the order of things: more
 * left over never speaks for less food, however odd the entry.
 */
export const LIKELIHOOD_PARAMETERS = {
  mistakenFrac: parameter(0.05, 'share', 'estimate', 'model 3'),
  leftoverMisread: parameter(0.45, 'share', 'estimate', 'none: half taken for nearly all'),
  squeezeMisread: parameter(0.12, 'share', 'estimate', 'science 4: bands overlap by +/-5 %'),
  thermometerMisreadC: parameter(4, 'C', 'estimate', 'none: one place, one moment'),
  phMisread: parameter(1.2, 'pH', 'estimate', 'none: strips and probes'),
  levelMisreadM: parameter(0.1, 'm', 'estimate', 'none: an uneven top'),
  sightingMisreadLog: parameter(2.4, 'log', 'estimate', 'none: worms hide'),
  harvestAllFrac: parameter(0.25, 'share', 'estimate', 'none: most take only a part of what is ready'),
  harvestMisreadFactor: parameter(1.6, 'x/÷', 'estimate', 'none: what comes out with castings, and how wet'),
  rottenMidFrac: parameter(0.3, 'share airless', 'estimate', 'none: smelled when a third of a layer has no air'),
  rottenStepFrac: parameter(0.08, 'share airless', 'estimate', 'none'),
  sourMidPh: parameter(5.6, 'pH', 'estimate', 'science 11'),
  sourStepPh: parameter(0.25, 'pH', 'estimate', 'none'),
  ammoniaMidPh: parameter(8, 'pH', 'estimate', 'science 5'),
  ammoniaStepPh: parameter(0.25, 'pH', 'estimate', 'none'),
  faintSmell: parameter(0.02, 'share', 'estimate', 'none: a smell from elsewhere'),
  strongSmell: parameter(0.75, 'share', 'estimate', 'none: noticed when it is there'),
} as const;
const P = LIKELIHOOD_PARAMETERS;

/** Marks between neighbouring words, and the spread with which people read them. */
const LEFTOVER_MARKS = [0.1, 0.3, 0.6, 0.85] as const;
const SQUEEZE_MARKS = [0.6, 0.7, 0.8, 0.85] as const;
const SIGHTING_MARKS_KG_PER_M2 = [0.03, 0.4, 1.5] as const;

/** Scale of an error with exponential tails of which the mistaken share lies beyond `misread`. */
const scaleOf = (misread: number): number => misread / -Math.log(P.mistakenFrac.value);

/** Probability of an error with exponential tails below a mark. */
const errorBelow = (mark: number, scale: number): number => (mark < 0 ? 0.5 * Math.exp(mark / scale) : 1 - 0.5 * Math.exp(-mark / scale));

/** Probability of each word in order, given the quantity behind it: an ordered scale read with such an error. */
export function wordProbability(value: number, misread: number, marks: readonly number[], word: number): number {
  const scale = scaleOf(misread);
  const below = word === marks.length ? 1 : errorBelow(marks[word]! - value, scale);
  return below - (word === 0 ? 0 : errorBelow(marks[word - 1]! - value, scale));
}

export const SEEN_KINDS = ['leftover', 'squeeze', 'smell', 'temperature', 'worms', 'ph', 'level', 'harvest'] as const;
export type SeenKind = (typeof SEEN_KINDS)[number];

/** One thing seen, and how likely a member makes it, mistakes included. */
export interface Seen {
  readonly kind: SeenKind;
  readonly zone: number | null;
  readonly of: (state: BinState, m: number) => number;
}

/** Everything a log entry lets us see, before the entry changes anything. */
export function seenIn(event: BinEvent, areaM2: number): readonly Seen[] {
  if (event.type === 'harvest') return event.massKg > 0 && (event.how ?? 'weighed') === 'weighed' ? [harvestSeen(event.massKg)] : [];
  return event.type === 'check' ? checkSeen(event, areaM2) : [];
}

function checkSeen(event: Extract<BinEvent, { type: 'check' }>, areaM2: number): readonly Seen[] {
  const seen: Seen[] = [];
  for (const [zone, left] of Object.entries(event.leftover ?? {})) seen.push(leftoverSeen(Number(zone) - 1, LEFTOVERS.indexOf(left)));
  if (event.squeeze)
    seen.push(wordSeen('squeeze', read.moistureFracWb, P.squeezeMisread.value, SQUEEZE_MARKS, SQUEEZES.indexOf(event.squeeze)));
  if (event.smell) seen.push(smellSeen(event.smell));
  const { tempC, ph, levelM } = event;
  if (tempC !== undefined) seen.push(readingSeen('temperature', tempC, (s, m) => s.bed.bedTempC[m]!, P.thermometerMisreadC.value));
  if (event.worms) seen.push(sightingSeen(WORM_SIGHTINGS.indexOf(event.worms), areaM2));
  if (ph !== undefined) seen.push(readingSeen('ph', ph, read.ph, P.phMisread.value));
  if (levelM !== undefined) seen.push(readingSeen('level', levelM, (s, m) => read.levelM(s, m, areaM2), P.levelMisreadM.value));
  return seen;
}

function wordSeen(
  kind: SeenKind,
  of: (state: BinState, m: number) => number,
  misread: number,
  marks: readonly number[],
  word: number,
): Seen {
  return { kind, zone: null, of: (state, m) => wordProbability(of(state, m), misread, marks, word) };
}

function leftoverSeen(zone: number, word: number): Seen {
  const left = wordSeen('leftover', (s, m) => s.zone.lastLeftFrac[zone * s.members + m]!, P.leftoverMisread.value, LEFTOVER_MARKS, word);
  return { ...left, zone: zone + 1 };
}

function sightingSeen(word: number, areaM2: number): Seen {
  const marks = SIGHTING_MARKS_KG_PER_M2.map(Math.log);
  return wordSeen('worms', (s, m) => Math.log(Math.max(1e-6, read.wormsKg(s, m) / areaM2)), P.sightingMisreadLog.value, marks, word);
}

/** A number read with such an error, as the probability of a value at least so far off: comparable with words. */
function readingSeen(kind: SeenKind, value: number, of: (state: BinState, m: number) => number, misread: number): Seen {
  const scale = scaleOf(misread);
  return { kind, zone: null, of: (state, m) => Math.exp(-Math.abs(value - of(state, m)) / scale) };
}

const withMistakes = (chance: number, ifMistaken: number): number =>
  (1 - P.mistakenFrac.value) * chance + P.mistakenFrac.value * ifMistaken;

const rising = (value: number, middle: number, step: number): number => 1 / (1 + Math.exp((middle - value) / step));

function smellSeen(smell: (typeof SMELLS)[number]): Seen {
  const of = (state: BinState, m: number): number => {
    const noticed = (share: number): number => P.faintSmell.value + P.strongSmell.value * share;
    const rotten = noticed(rising(worstAirless(state, m), P.rottenMidFrac.value, P.rottenStepFrac.value));
    const sour = noticed(rising(-read.ph(state, m), -P.sourMidPh.value, P.sourStepPh.value));
    const ammonia = noticed(rising(read.ph(state, m), P.ammoniaMidPh.value, P.ammoniaStepPh.value));
    const earthy = Math.max(0.05, 1 - rotten - sour - ammonia);
    const all = rotten + sour + ammonia + earthy;
    return withMistakes({ earthy, sour, rotten, ammonia }[smell] / all, 1 / SMELLS.length);
  };
  return { kind: 'smell', zone: null, of };
}

function worstAirless(state: BinState, m: number): number {
  let worst = state.bed.bedAirlessFrac[m]! / 2;
  for (let at = m; at < state.members * state.zones; at += state.members)
    if (read.layerFoodKgWb(state, at) >= read.LEAST_LAYER_KG) worst = Math.max(worst, state.zone.airlessFrac[at]!);
  return worst;
}

/** So that nothing is divided by an empty bin. */
const LEAST_HELD_KG = 0.001;

/**
 * Either all castings were taken, and the weight is theirs, or only a part of them, and then nobody takes out more than there is.
 * One below what was expected thus speaks softly for less, and a tiny one for nothing: whoever always takes a little must not empty
 * the bin in belief.
 */
function harvestSeen(massKg: number): Seen {
  const scale = scaleOf(Math.log(P.harvestMisreadFactor.value));
  const allFrac = P.harvestAllFrac.value;
  const of = (state: BinState, m: number): number => {
    const castingsKg = Math.max(LEAST_HELD_KG, read.castingsKgWb(state, m));
    const heldKg = castingsKg + read.beddingSolidsKg(state, m);
    const all = Math.exp(-Math.abs(Math.log(massKg / castingsKg)) / scale);
    const part = Math.exp(-Math.max(0, Math.log(massKg / heldKg)) / scale);
    return allFrac * all + (1 - allFrac) * part;
  };
  return { kind: 'harvest', zone: null, of };
}
