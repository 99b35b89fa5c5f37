/**
 * Chance without a generator: a number is a function of what it is for, so the same log gives the same bytes
 * and an entry added later changes nobody else's draw.
 */
const MIX_A = 0x85ebca6b;
const MIX_B = 0xc2b2ae35;

function scramble(value: number): number {
  let h = value | 0;
  h = Math.imul(h ^ (h >>> 16), MIX_A);
  h = Math.imul(h ^ (h >>> 13), MIX_B);
  return (h ^ (h >>> 16)) >>> 0;
}

const TWO_32 = 4_294_967_296;

/** Uniform in (0, 1) from up to four whole numbers. */
export function uniformOf(seed: number, a: number, b = 0, c = 0): number {
  let h = scramble(seed ^ 0x9e3779b9);
  h = scramble(h ^ Math.imul(a + 1, 0x27d4eb2f));
  h = scramble(h ^ Math.imul(b + 1, 0x165667b1));
  h = scramble(h ^ Math.imul(c + 1, 0x2545f491));
  return (h + 0.5) / TWO_32;
}

/** A text's number, for entries known by name. */
export function numberOfText(text: string): number {
  let h = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  return h >>> 0;
}

/**
 * Standard normal quantile by Acklam's rational approximation, relative error below 1.2e-9.
 *
 * @shape scalar -> scalar
 * @valid 0 < p < 1
 * @source none: coefficients as widely printed, checked against the normal distribution in chance.test.ts
 */
export function normalQuantile(p: number): number {
  const a = [-39.69683028665376, 220.9460984245205, -275.9285104469687, 138.357751867269, -30.66479806614716, 2.506628277459239];
  const b = [-54.47609879822406, 161.5858368580409, -155.6989798598866, 66.80131188771972, -13.28068155288572];
  const c = [-0.007784894002430293, -0.3223964580411365, -2.400758277161838, -2.549732539343734, 4.374664141464968, 2.938163982698783];
  const d = [0.007784695709041462, 0.3224671290700398, 2.445134137142996, 3.754408661907416];
  const tail = 0.02425;
  const horner = (k: readonly number[], x: number): number => k.reduce((sum, coefficient) => sum * x + coefficient, 0);
  if (p < tail) {
    const q = Math.sqrt(-2 * Math.log(p));
    return horner(c, q) / (horner(d, q) * q + 1);
  }
  if (p > 1 - tail) return -normalQuantile(1 - p);
  const q = p - 0.5;
  const r = q * q;
  return (horner(a, r) * q) / (horner(b, r) * r + 1);
}

const LATTICE_DIMENSIONS = 9;

/** Irrational steps of an additive lattice: powers of the root of x^(d+1) = x + 1 (Kronecker's sequence). */
const LATTICE_ROOT = rootOfLattice(LATTICE_DIMENSIONS);

function rootOfLattice(dimensions: number): number {
  let root = 1;
  for (let i = 0; i < 100; i++) root = (1 + root) ** (1 / (dimensions + 1));
  return root;
}

/** Quasi-random uniform of one member in one dimension, shifted by the seed. */
export function quasiUniform(seed: number, member: number, dimension: number): number {
  const step = LATTICE_ROOT ** -(dimension + 1);
  const at = uniformOf(seed, dimension, 77) + (member + 1) * step;
  const share = at - Math.floor(at);
  return Math.min(1 - 1e-9, Math.max(1e-9, share));
}

/**
 * Uniform of one member for one thing in the log: a lattice over the members whose start and step are drawn from the thing,
 * so that members cover it evenly and two things stay independent.
 */
export function entryUniform(seed: number, entry: number, item: number, member: number): number {
  const at = uniformOf(seed, entry, item) + (member + 1) * uniformOf(seed ^ 0x68e31da4, entry, item, 5);
  return Math.min(1 - 1e-9, Math.max(1e-9, at - Math.floor(at)));
}
