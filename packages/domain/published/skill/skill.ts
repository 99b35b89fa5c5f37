import { shareOf } from '../../src/ensemble/spread.ts';
import { trackOf, weightsOf } from '../../src/index.ts';
import { AS_PEOPLE_DO, believed, comes, historyOf, type Keeping, LOG_DAYS, type Truth, WATCHED, type Watched } from './history.ts';

export const HORIZONS_DAYS = [3, 7, 14] as const;
const FIFTHS = 5;
const EIGHTHS = 8;
/** Fewer histories than this make no point of a reliability diagram (issue 4). */
const LEAST_A_POINT = 100;
/** Chi-square of seven degrees of freedom that a flat histogram exceeds once in twenty times. */
export const FLAT_BELOW = 14.07;

/** Histories whose forecasts were alike: how likely they were told to be, and how often it came. */
export interface Point {
  readonly forecast: number;
  readonly happened: number;
  readonly histories: number;
}

export interface SkillRow {
  readonly truth: Truth;
  readonly what: Watched;
  readonly horizonDays: number;
  readonly histories: number;
  readonly baseRate: number;
  readonly brier: number;
  /** 1 - Brier / Brier of the base rate; the base rate is from separate histories. */
  readonly skill: number;
  /** By fifths of probability, neighbours together until each has a hundred histories; one point when there are fewer in all. */
  readonly points: readonly Point[];
}

/** In how many histories the truth ranks in each eighth of the members: as many in each where the spread is right. */
export interface Ranks {
  readonly of: 'moistureFracWb' | 'wormsKg';
  readonly counts: readonly number[];
  readonly chiSquare: number;
}

export interface SkillReport {
  readonly rows: readonly SkillRow[];
  readonly ranks: readonly Ranks[];
}

interface Pair {
  readonly forecast: number;
  readonly happened: boolean;
}

const RANKED = ['moistureFracWb', 'wormsKg'] as const;

/**
 * How good the forecasts are, on truths drawn from one kind of world, with missing and wrong entries.
 *
 * @shape kind of truth, number of histories -> report
 * @returns Brier scores, skill against the base rate, reliability, rank histograms
 */
export function skillOf(truth: Truth, histories: number, keeping: Keeping = AS_PEOPLE_DO, members?: number): SkillReport {
  const pairs = new Map<string, Pair[]>(WATCHED.flatMap((what) => HORIZONS_DAYS.map((days) => [`${what} ${days}`, []])));
  const counts = RANKED.map(() => new Array<number>(EIGHTHS).fill(0));
  for (let seed = 1; seed <= histories; seed++) {
    const history = historyOf(seed, truth, keeping, members);
    const run = believed(history);
    for (const what of WATCHED)
      for (const days of HORIZONS_DAYS) {
        pairs.get(`${what} ${days}`)?.push({
          forecast: shareOf(weightsOf(run), (m) => comes(run, m, days, what)),
          happened: comes(history.truth, history.member, days, what),
        });
      }
    RANKED.forEach((name, at) => {
      const values = trackOf(run, name, LOG_DAYS - 1);
      const real = trackOf(history.truth, name, LOG_DAYS - 1)[history.member]!;
      const below = shareOf(weightsOf(run), (m) => values[m]! < real);
      counts[at]![Math.min(EIGHTHS - 1, Math.floor(below * EIGHTHS))]!++;
    });
  }
  const rows = WATCHED.flatMap((what) => HORIZONS_DAYS.map((days) => rowOf(truth, what, days, pairs.get(`${what} ${days}`)!)));
  return { rows, ranks: RANKED.map((of, at) => ({ of, counts: counts[at]!, chiSquare: chiSquareOf(counts[at]!) })) };
}

function chiSquareOf(counts: readonly number[]): number {
  const expected = counts.reduce((sum, each) => sum + each, 0) / counts.length;
  return counts.reduce((sum, each) => sum + (each - expected) ** 2 / expected, 0);
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
const rate = (pairs: readonly Pair[]): number => mean(pairs.map(({ happened }) => (happened ? 1 : 0)));
const miss = (pairs: readonly Pair[], forecast: (pair: Pair) => number): number =>
  mean(pairs.map((pair) => (forecast(pair) - (pair.happened ? 1 : 0)) ** 2));

function rowOf(truth: Truth, what: Watched, horizonDays: number, pairs: readonly Pair[]): SkillRow {
  const half = Math.floor(pairs.length / 2);
  // Each half is measured against the base rate of the other.
  const halves = [pairs.slice(0, half), pairs.slice(half)] as const;
  const reference = mean([miss(halves[0], () => rate(halves[1])), miss(halves[1], () => rate(halves[0]))]);
  const brier = miss(pairs, ({ forecast }) => forecast);
  const skill = reference > 0 ? 1 - brier / reference : 0;
  return { truth, what, horizonDays, histories: pairs.length, baseRate: rate(pairs), brier, skill, points: pointsOf(pairs) };
}

/** Fifths of probability; the smallest that is too small joins its smaller neighbour until none is. */
export function pointsOf(pairs: readonly Pair[]): readonly Point[] {
  const groups = Array.from({ length: FIFTHS }, (_, fifth) =>
    pairs.filter(({ forecast }) => Math.min(FIFTHS - 1, Math.floor(forecast * FIFTHS)) === fifth),
  );
  for (;;) {
    const sizes = groups.map((group) => group.length);
    const smallest = sizes.indexOf(Math.min(...sizes));
    if (groups.length === 1 || sizes[smallest]! >= LEAST_A_POINT) break;
    const [before, after] = [sizes[smallest - 1] ?? Number.POSITIVE_INFINITY, sizes[smallest + 1] ?? Number.POSITIVE_INFINITY];
    const first = before <= after ? smallest - 1 : smallest;
    groups.splice(first, 2, [...groups[first]!, ...groups[first + 1]!]);
  }
  return groups.map((group) => ({
    forecast: mean(group.map(({ forecast }) => forecast)),
    happened: rate(group),
    histories: group.length,
  }));
}
