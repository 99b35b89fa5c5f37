import type { FoundRota, RotaPerson, RotaShift, RotaSpec, SolverLimits } from '@middenry/domain';
import { solveRota } from '@middenry/domain';
import { highsSolver } from '../apps/api/src/solver/highs-solver.ts';
import { rotaFaults } from '../packages/domain/src/rota/check.ts';
import { table } from './measure.ts';

/** Chance that is the same in every run. */
function diceOf(seed: number): (sides: number) => number {
  let state = seed >>> 0;
  return (sides) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * sides);
  };
}

const msPerMinute = 60_000;
const startMinutes = [540, 630, 840, 1020];

function madeUpShift(index: number, count: number, dice: (sides: number) => number): RotaShift {
  const day = Math.floor((index / count) * 56);
  const fromMinute = startMinutes[dice(startMinutes.length)] ?? 540;
  const startsAtMs = Date.UTC(2027, 4, 3 + day) + fromMinute * msPerMinute;
  return {
    id: `shift ${String(index).padStart(3, '0')}`,
    siteId: `site ${dice(2)}`,
    urgency: 1 + dice(3),
    startsAtMs,
    endsAtMs: startsAtMs + 90 * msPerMinute,
    localDate: new Date(startsAtMs).toISOString().slice(0, 10),
    fromMinute,
    toMinute: fromMinute + 90,
    places:
      dice(3) === 0
        ? [
            { count: 1, skills: ['harvest'] },
            { count: 2, skills: [] },
          ]
        : [{ count: 2 + dice(2), skills: [] }],
    adultRule: { leastAdults: 2, pupilsPerAdult: 8 },
  };
}

function madeUpPerson(index: number, dice: (sides: number) => number): RotaPerson {
  const times = Array.from({ length: 3 + dice(4) }, () => {
    const fromMinute = [480, 780, 960][dice(3)] ?? 480;
    return {
      weekday: 1 + dice(7),
      fromMinute,
      toMinute: fromMinute + 360,
      liking: (['glad', 'can', 'if-needed'] as const)[dice(3)] ?? 'can',
    };
  });
  const awayDay = 1 + dice(28);
  const date = (day: number): string => `2027-05-${String(day).padStart(2, '0')}`;
  const adult = index % 6 !== 5;
  return {
    id: `person ${String(index).padStart(2, '0')}`,
    siteIds: dice(3) === 0 ? [`site ${dice(2)}`] : ['site 0', 'site 1'],
    adult,
    cleared: adult && dice(5) > 0,
    skills: dice(3) === 0 ? ['harvest'] : [],
    wish: 1 + dice(7),
    caps: { period: 8, week: 2, day: 1 },
    weekly: times,
    away: dice(2) === 0 ? [{ from: date(awayDay), to: date(awayDay + 3) }] : [],
    declined: [],
    marks: {},
  };
}

/** Believable people and shifts over eight weeks; a quarter of the places are taken by the first who may. */
export function madeUpRota(people: number, shifts: number, seed: number): RotaSpec {
  const dice = diceOf(seed);
  const spec: RotaSpec = {
    people: Array.from({ length: people }, (_, index) => madeUpPerson(index, dice)),
    shifts: Array.from({ length: shifts }, (_, index) => madeUpShift(index, shifts, dice)),
    signUps: [],
    earlier: [],
    travelMinutes: 30,
  };
  const adults = spec.people.filter(({ adult }) => adult);
  // One sign-up for every second shift, nobody twice in a week: no rule is broken.
  const signUps = spec.shifts
    .filter((_, index) => index % 2 === 0)
    .map(({ id }, index) => ({ personId: adults[index % adults.length]?.id ?? '', shiftId: id }));
  return { ...spec, signUps };
}

const sizes = [
  [20, 40],
  [60, 120],
  [100, 200],
] as const;

async function measured(spec: RotaSpec, limits: SolverLimits): Promise<{ rota: FoundRota; ms: number; solves: number; solverMs: number }> {
  const { solve, close } = highsSolver();
  let solves = 0;
  let solverMs = 0;
  try {
    const since = performance.now();
    const rota = await solveRota(
      spec,
      async (model) => {
        const before = performance.now();
        const answer = await solve(model);
        solves += 1;
        solverMs += performance.now() - before;
        return answer;
      },
      limits,
    );
    const ms = performance.now() - since;
    if (rota.status === 'infeasible') throw new Error(`the made-up rota has conflicts: ${JSON.stringify(rota.conflicts.slice(0, 3))}`);
    return { rota, ms, solves, solverMs };
  } finally {
    await close();
  }
}

/** Rotas of three sizes and three seeds, each to proven optimum or ten seconds a stage; the checker judges every one of the season's size. */
export async function benchRota(): Promise<string> {
  const rows: (string | number)[][] = [];
  for (const [people, shifts] of sizes) {
    for (const seed of [1, 2, 3]) {
      const spec = madeUpRota(people, shifts, seed);
      const { rota, ms, solves, solverMs } = await measured(spec, { nodes: null, seconds: 10, gap: 0 });
      const faults = people <= 60 ? rotaFaults(spec, { ...rota }) : null;
      rows.push([
        `${people} x ${shifts}, seed ${seed}`,
        rota.proposals.length,
        Object.values(rota.score).join(' '),
        rota.status,
        `${(rota.gap * 100).toFixed(2)} %`,
        solves,
        ms / 1000,
        solverMs / 1000,
        faults === null ? 'not run' : faults.length === 0 ? 'no fault' : `${faults.length} faults: ${faults[0]}`,
      ]);
    }
  }
  return table(['people x shifts', 'proposals', 'score', 'status', 'gap', 'solves', 's', 's in solver', 'checker'], rows);
}
