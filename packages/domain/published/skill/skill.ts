import { shareOf } from '../../src/ensemble/spread.ts';
import { trackOf, weightsOf } from '../../src/index.ts';
import { AS_PEOPLE_DO, believed, comes, historyOf, type Keeping, LOG_DAYS, type Truth, WATCHED, type Watched } from './history.ts';

export const HORIZONS_DAYS = [3, 7, 14] as const;
const BINS = 5;
const RANKS = 8;

export interface SkillRow {
  readonly truth: Truth;
  readonly what: Watched;
  readonly horizonDays: number;
  readonly histories: number;
  readonly baseRate: number;
  readonly brier: number;
  /** 1 - Brier / Brier of the base rate; the base rate is from separate histories. */
  readonly skill: number;
  /** Mean forecast, share that happened and number of histories in each fifth of probability. */
  readonly reliability: readonly { readonly forecast: number; readonly happened: number; readonly histories: number }[];
}

export interface SkillReport {
  readonly rows: readonly SkillRow[];
  /** In how many histories the truth's moisture ranks in each eighth of the members: as many in each where the spread is right. */
  readonly ranks: readonly number[];
}

interface Pair {
  readonly forecast: number;
  readonly happened: boolean;
}

/**
 * How good the forecasts are, on truths drawn from one kind of world, with missing and wrong entries.
 *
 * @shape kind of truth, number of histories -> report
 * @returns Brier scores, skill against the base rate, reliability, rank histogram
 */
export function skillOf(truth: Truth, histories: number, keeping: Keeping = AS_PEOPLE_DO): SkillReport {
  const pairs = new Map<string, Pair[]>(WATCHED.flatMap((what) => HORIZONS_DAYS.map((days) => [`${what} ${days}`, []])));
  const ranks = new Array<number>(RANKS).fill(0);
  for (let seed = 1; seed <= histories; seed++) {
    const history = historyOf(seed, truth, keeping);
    const run = believed(history);
    for (const what of WATCHED)
      for (const days of HORIZONS_DAYS) {
        pairs.get(`${what} ${days}`)?.push({
          forecast: shareOf(weightsOf(run), (m) => comes(run, m, days, what)),
          happened: comes(history.truth, history.member, days, what),
        });
      }
    const moisture = trackOf(run, 'moistureFracWb', LOG_DAYS - 1);
    const real = trackOf(history.truth, 'moistureFracWb', LOG_DAYS - 1)[history.member]!;
    const rank = Math.min(RANKS - 1, Math.floor(shareOf(weightsOf(run), (m) => moisture[m]! < real) * RANKS));
    ranks[rank]!++;
  }
  const half = Math.floor(histories / 2);
  const rows = WATCHED.flatMap((what) =>
    HORIZONS_DAYS.map((horizonDays) => rowOf(truth, what, horizonDays, pairs.get(`${what} ${horizonDays}`)!, half)),
  );
  return { rows, ranks };
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);

function rowOf(truth: Truth, what: Watched, horizonDays: number, pairs: readonly Pair[], half: number): SkillRow {
  const miss = (list: readonly Pair[], forecast: (pair: Pair) => number): number =>
    mean(list.map((pair) => (forecast(pair) - (pair.happened ? 1 : 0)) ** 2));
  const rate = (list: readonly Pair[]): number => mean(list.map(({ happened }) => (happened ? 1 : 0)));
  // Each half is measured against the base rate of the other.
  const halves = [pairs.slice(0, half), pairs.slice(half)] as const;
  const reference = mean([miss(halves[0], () => rate(halves[1])), miss(halves[1], () => rate(halves[0]))]);
  const brier = miss(pairs, ({ forecast }) => forecast);
  const reliability = Array.from({ length: BINS }, (_, bin) => {
    const inBin = pairs.filter(({ forecast }) => Math.min(BINS - 1, Math.floor(forecast * BINS)) === bin);
    return { forecast: mean(inBin.map(({ forecast }) => forecast)), happened: rate(inBin), histories: inBin.length };
  });
  return {
    truth,
    what,
    horizonDays,
    histories: pairs.length,
    baseRate: rate(pairs),
    brier,
    skill: reference > 0 ? 1 - brier / reference : 0,
    reliability,
  };
}
