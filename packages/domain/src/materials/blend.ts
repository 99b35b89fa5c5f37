import type { MaterialFacts } from './material.ts';

/** What mixing needs to know of a material. */
export type MixFacts = Pick<MaterialFacts, 'moistureFracWb' | 'carbonFracDb' | 'nitrogenFracDb'>;

export interface MixPart {
  readonly massKg: number;
  readonly facts: MixFacts;
}

export interface Mix {
  readonly massKg: number;
  readonly moistureFracWb: number;
  /** Infinity when there is no nitrogen in it. */
  readonly cnRatio: number;
}

/** A wish that cannot be met is a value: the masses that would be needed tell which material is in the way. */
export type BlendResult =
  | { readonly status: 'ok'; readonly massesKg: readonly number[]; readonly mix: Mix }
  | { readonly status: 'infeasible'; readonly reason: InfeasibleReason; readonly wantedKg: readonly number[] };

/** `same` = the materials do not differ in what is asked; `negative` = something would have to be taken out. */
export type InfeasibleReason = 'same' | 'negative';

/** Below this two equations say the same; masses are of order 0.01 to 10,000 kg. */
const SMALLEST_DETERMINANT = 1e-12;

/**
 * Moisture and C:N of a mixture.
 *
 * G = sum(Q M) / sum(Q);  R = sum(Q C (1 - M)) / sum(Q N (1 - M)); Q massKg, M moistureFracWb, C and N by dry mass
 *
 * @shape parts[n] -> mix
 * @returns Mass, [kg]; moisture, wet basis; C:N by mass
 * @valid masses 0 or more, their sum above 0
 * @throws {RangeError} when a mass is negative or nothing is mixed
 * @source cornell-moisture, cornell-cn
 */
export function mixOf(parts: readonly MixPart[]): Mix {
  let massKg = 0;
  let waterKg = 0;
  let carbonKg = 0;
  let nitrogenKg = 0;
  for (const part of parts) {
    if (!(part.massKg >= 0)) throw new RangeError(`Cannot mix as every mass must be zero or more: current value is ${part.massKg}`);
    const dryKg = part.massKg * (1 - part.facts.moistureFracWb);
    massKg += part.massKg;
    waterKg += part.massKg - dryKg;
    carbonKg += dryKg * part.facts.carbonFracDb;
    nitrogenKg += dryKg * part.facts.nitrogenFracDb;
  }
  if (!(massKg > 0)) throw new RangeError(`Cannot mix as there must be something to mix: current value is ${massKg} kg`);
  return { massKg, moistureFracWb: waterKg / massKg, cnRatio: nitrogenKg === 0 ? Number.POSITIVE_INFINITY : carbonKg / nitrogenKg };
}

/**
 * Mass of one material that brings what is there to a moisture.
 *
 * Q2 = sum(Q1 (G - M1)) / (M2 - G)
 *
 * @shape parts[n], facts, fraction -> mass
 * @returns One mass, [kg], or infeasible
 * @valid moisture 0 to 1
 * @source cornell-moisture
 */
export function massForMoisture(there: readonly MixPart[], other: MixFacts, moistureFracWb: number): BlendResult {
  return solveOne(there, other, (facts) => facts.moistureFracWb - moistureFracWb);
}

/**
 * Mass of one material that brings what is there to a C:N.
 *
 * sum(Q (1 - M) (C - R N)) = 0
 *
 * @shape parts[n], facts, ratio -> mass
 * @returns One mass, [kg], or infeasible
 * @valid ratio above 0
 * @source cornell-cn
 */
export function massForCn(there: readonly MixPart[], other: MixFacts, cnRatio: number): BlendResult {
  return solveOne(there, other, (facts) => carbonExcess(facts, cnRatio));
}

/**
 * Masses of two materials that bring what is there to a moisture and a C:N at once; water may be one of them.
 *
 * Two linear equations: sum(Q (M - G)) = 0 and sum(Q (1 - M) (C - R N)) = 0
 *
 * @shape parts[n], facts[2], wish -> mass[2]
 * @returns Two masses, [kg], or infeasible with the masses that would be needed
 * @valid moisture 0 to 1, ratio above 0
 * @source cornell-cn
 */
export function massesForBoth(
  there: readonly MixPart[],
  others: readonly [MixFacts, MixFacts],
  wish: { readonly moistureFracWb: number; readonly cnRatio: number },
): BlendResult {
  const water = (facts: MixFacts) => facts.moistureFracWb - wish.moistureFracWb;
  const carbon = (facts: MixFacts) => carbonExcess(facts, wish.cnRatio);
  const [first, second] = others;
  const [a, b, c, d] = [water(first), water(second), carbon(first), carbon(second)];
  const determinant = a * d - b * c;
  if (Math.abs(determinant) < SMALLEST_DETERMINANT) return { status: 'infeasible', reason: 'same', wantedKg: [] };
  const [e, f] = [-sumOver(there, water), -sumOver(there, carbon)];
  return result(there, others, [(e * d - b * f) / determinant, (a * f - e * c) / determinant]);
}

const carbonExcess = (facts: MixFacts, cnRatio: number): number =>
  (1 - facts.moistureFracWb) * (facts.carbonFracDb - cnRatio * facts.nitrogenFracDb);

const sumOver = (parts: readonly MixPart[], excess: (facts: MixFacts) => number): number =>
  parts.reduce((sum, part) => sum + part.massKg * excess(part.facts), 0);

function solveOne(there: readonly MixPart[], other: MixFacts, excess: (facts: MixFacts) => number): BlendResult {
  const perKg = excess(other);
  if (Math.abs(perKg) < SMALLEST_DETERMINANT) return { status: 'infeasible', reason: 'same', wantedKg: [] };
  return result(there, [other], [-sumOver(there, excess) / perKg]);
}

function result(there: readonly MixPart[], others: readonly MixFacts[], wantedKg: readonly number[]): BlendResult {
  if (wantedKg.some((massKg) => massKg < 0)) return { status: 'infeasible', reason: 'negative', wantedKg };
  const added = wantedKg.map((massKg, index) => ({ massKg, facts: others[index] as MixFacts }));
  return { status: 'ok', massesKg: wantedKg, mix: mixOf([...there, ...added]) };
}
