/** Problems that checks found, and the check at which each was seen to be over. */
import type { Leftover, Smell, Squeeze } from '../bin/scenario.ts';
import { daysBetween } from '../units/local-day.ts';

export const SEEN_PROBLEMS = ['smell', 'wet', 'dry', 'leftover'] as const;
export type SeenProblem = (typeof SEEN_PROBLEMS)[number];

/** What a check says of a bin; null was not looked at. */
export interface SeasonCheck {
  readonly binId: string;
  /** Local date of the site, year-month-day. */
  readonly localDate: string;
  readonly happenedAt: string;
  readonly smell: Smell | null;
  readonly squeeze: Squeeze | null;
  /** Of every zone that was looked at. */
  readonly leftovers: readonly Leftover[];
}

export interface FoundProblem {
  readonly binId: string;
  readonly problem: SeenProblem;
  readonly foundOn: string;
  /** Null: not over yet, as far as anybody looked. */
  readonly solvedOn: string | null;
  readonly days: number | null;
}

export interface ProblemTally {
  readonly found: number;
  readonly solved: number;
  /** The middle one of the days to solve; null when none is solved. */
  readonly daysToSolveMedian: number | null;
  readonly daysToSolveLongest: number | null;
}

/** True: there it is. False: looked, and it is not there. Null: nobody looked. */
const LOOK: Readonly<Record<SeenProblem, (check: SeasonCheck) => boolean | null>> = {
  smell: ({ smell }) => (smell === null ? null : smell !== 'earthy'),
  wet: ({ squeeze }) => (squeeze === null ? null : squeeze === 'trickle'),
  dry: ({ squeeze }) => (squeeze === null ? null : squeeze === 'crumbles'),
  leftover: ({ leftovers }) => (leftovers.length === 0 ? null : leftovers.some((left) => left === 'most' || left === 'all')),
};

/**
 * Every problem first seen in the season.
 *
 * One lasts from the check that first sees it to the next check of the same bin that looks again and does not.
 * Checks from before the season count, so that an old problem is not found anew.
 *
 * @shape checks[n] -> problems[m]
 * @returns In order of the day found; `days` from the day found to the day seen over
 * @valid dates are year-month-day
 */
export function problemsOf(
  checks: readonly SeasonCheck[],
  season: { readonly from: string; readonly to: string },
): readonly FoundProblem[] {
  const found: FoundProblem[] = [];
  for (const ofBin of byBin(checks.filter((check) => check.localDate <= season.to)).values())
    for (const problem of SEEN_PROBLEMS) found.push(...runsOf(ofBin, problem));
  const inSeason = found.filter(({ foundOn }) => foundOn >= season.from);
  const key = ({ foundOn, binId, problem }: FoundProblem) => `${foundOn} ${binId} ${problem}`;
  return inSeason.sort((a, b) => (key(a) < key(b) ? -1 : 1));
}

/** How many, how many are over, and how long that took. */
export function tallyOf(problems: readonly FoundProblem[]): ProblemTally {
  const days = problems.flatMap((each) => (each.days === null ? [] : [each.days])).sort((a, b) => a - b);
  const middle = Math.floor(days.length / 2);
  const median = days.length % 2 === 1 ? days[middle]! : (days[middle - 1]! + days[middle]!) / 2;
  const some = days.length > 0;
  return {
    found: problems.length,
    solved: days.length,
    daysToSolveMedian: some ? median : null,
    daysToSolveLongest: some ? days.at(-1)! : null,
  };
}

function byBin(checks: readonly SeasonCheck[]): Map<string, SeasonCheck[]> {
  const groups = new Map<string, SeasonCheck[]>();
  for (const check of [...checks].sort((a, b) => (a.happenedAt < b.happenedAt ? -1 : 1))) {
    const group = groups.get(check.binId);
    if (group) group.push(check);
    else groups.set(check.binId, [check]);
  }
  return groups;
}

function runsOf(checks: readonly SeasonCheck[], problem: SeenProblem): FoundProblem[] {
  const runs: FoundProblem[] = [];
  let open: SeasonCheck | null = null;
  const end = (solvedOn: string | null) => {
    if (open === null) return;
    const days = solvedOn === null ? null : daysBetween(open.localDate, solvedOn);
    runs.push({ binId: open.binId, problem, foundOn: open.localDate, solvedOn, days });
    open = null;
  };
  for (const check of checks) {
    const there = LOOK[problem](check);
    if (there === true) open ??= check;
    if (there === false) end(check.localDate);
  }
  end(null);
  return runs;
}
