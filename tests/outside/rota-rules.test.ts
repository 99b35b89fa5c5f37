import {
  explainRota,
  type FoundRota,
  type ObstacleRule,
  obstaclesOf,
  type RotaSpec,
  type Solver,
  type SolverAnswer,
  solveRota,
  weekdayOf,
  weekOf,
  withoutConflicts,
} from '@middenry/domain';
import { afterAll, describe, expect, test } from 'vitest';
import { highsSolver } from '../../apps/api/src/solver/highs-solver.ts';
import { madeUpRota } from '../../bench/rota.ts';
import { rotaFaults } from '../../packages/domain/src/rota/check.ts';
import { isBetter } from './rota/brute-force.ts';
import { personOf, rotaOf, shiftOf } from './rota/spec.ts';

const { solve, close } = highsSolver();
afterAll(close);

async function found(spec: RotaSpec, solver: Solver = solve): Promise<FoundRota> {
  const rota = await solveRota(spec, solver);
  if (rota.status === 'infeasible') throw new Error(`conflicts: ${JSON.stringify(rota.conflicts)}`);
  return rota;
}

describe('obstaclesOf() names every rule', () => {
  const monday = shiftOf('s', { fromMinute: 540 });
  const noon = shiftOf('noon', { fromMinute: 600 });
  const near = shiftOf('near', { fromMinute: 620, siteId: 'yard' });
  const thursday = shiftOf('thursday', { day: 3 });
  const cases: readonly [ObstacleRule, ReturnType<typeof personOf>, readonly ReturnType<typeof shiftOf>[]][] = [
    ['already-there', personOf('p'), [monday]],
    ['declined', personOf('p', { declined: ['s'] }), []],
    ['other-site', personOf('p', { siteIds: ['yard'] }), []],
    ['away', personOf('p', { away: [{ from: '2027-05-01', to: '2027-05-03' }] }), []],
    ['not-available', personOf('p', { weekly: [{ weekday: 1, fromMinute: 560, toMinute: 700, liking: 'glad' }] }), []],
    ['two-at-once', personOf('p'), [near]],
    ['cap-day', personOf('p', { caps: { period: null, week: null, day: 1 } }), [noon]],
    ['cap-week', personOf('p', { caps: { period: null, week: 1, day: null } }), [thursday]],
    ['cap-period', personOf('p', { caps: { period: 1, week: null, day: null } }), [shiftOf('late', { day: 30 })]],
  ];
  test.each(cases)('%s', (rule, person, held) => {
    expect(obstaclesOf(person, monday, held, 30).map((obstacle) => obstacle.rule)).toEqual([rule]);
  });

  test('no-skill, and nothing for somebody free', () => {
    const skilled = shiftOf('s', { places: [{ count: 1, skills: ['harvest'] }] });
    expect(obstaclesOf(personOf('p'), skilled, [], 0).map(({ rule }) => rule)).toEqual(['no-skill']);
    expect(obstaclesOf(personOf('p', { skills: ['harvest'] }), skilled, [noon, near], 0)).toEqual([]);
  });

  test('weeks begin on Monday, over the turn of a year', () => {
    expect(['2027-05-03', '2027-05-09', '2028-02-29'].map(weekdayOf)).toEqual([1, 7, 2]);
    expect(['2026-12-31', '2027-01-03', '2027-01-04'].map(weekOf)).toEqual(['2026-12-28', '2026-12-28', '2027-01-04']);
  });
});

describe('solveRota() refuses only where sign-ups break a rule', () => {
  const two = [personOf('a'), personOf('b')];
  const pupil = personOf('pupil', { adult: false, cleared: false });
  const on = (personId: string, shiftId: string) => ({ personId, shiftId });
  const cases: readonly [string, RotaSpec][] = [
    ['shift-over-full', rotaOf(two, [shiftOf('s')], { signUps: [on('a', 's'), on('b', 's')] })],
    ['two-at-once', rotaOf(two, [shiftOf('s'), shiftOf('t', { fromMinute: 570 })], { signUps: [on('a', 's'), on('a', 't')] })],
    [
      'over-cap',
      rotaOf([personOf('a', { caps: { period: null, week: 1, day: null } })], [shiftOf('s'), shiftOf('t', { day: 6 })], {
        signUps: [on('a', 's'), on('a', 't')],
      }),
    ],
    ['adults-cannot-fit', rotaOf([pupil, ...two], [shiftOf('s', { places: [{ count: 2, skills: [] }] })], { signUps: [on('pupil', 's')] })],
  ];
  test.each(cases)('%s', async (rule, spec) => {
    const rota = await solveRota(spec, solve);
    expect(rota).toMatchObject({ status: 'infeasible', conflicts: [{ rule }] });
    const rest = withoutConflicts(spec, rota.status === 'infeasible' ? rota.conflicts : []);
    expect(await solveRota(rest, solve)).toMatchObject({ status: 'optimal' });
  });

  test('somebody who signed up while away, off their week and without the skill stays', async () => {
    const own = personOf('a', { away: [{ from: '2027-05-03', to: '2027-05-03' }], siteIds: [] });
    const spec = rotaOf([own], [shiftOf('s', { places: [{ count: 1, skills: ['harvest'] }] })], { signUps: [on('a', 's')] });
    const rota = await found(spec);
    expect(rota).toMatchObject({ status: 'optimal', proposals: [], score: { uncovered: 1 } });
    expect(explainRota(spec, rota).gaps).toEqual([{ shiftId: 's', uncovered: 1, adultsMissing: 0, people: [], rules: [] }]);
  });

  test('a spec that makes no sense is refused in words', async () => {
    const broken = rotaOf([personOf('a', { wish: 1.5 })], []);
    await expect(solveRota(broken, solve)).rejects.toThrow('Cannot make a rota as wish, caps and marks of a must be whole');
    await expect(solveRota(rotaOf([], [], { signUps: [on('x', 's')] }), solve)).rejects.toThrow(RangeError);
  });
});

describe('solveRota() when a limit ends the search', () => {
  const spec = rotaOf(
    ['a', 'b', 'c'].map((id) => personOf(id, { wish: 2 })),
    [shiftOf('s'), shiftOf('t', { day: 1 }), shiftOf('u', { day: 2 })],
  );
  const whole = { columns: 9, isPossible: (cost: readonly number[]): boolean => cost.every((value) => value === -1) };
  /** The real solver for counting possible places, then only what `worse` gives. */
  const limited =
    (worse: (answer: SolverAnswer) => SolverAnswer): Solver =>
    async (model) => {
      const answer = await solve(model);
      return whole.isPossible(model.cost) && model.columns.length === whole.columns ? answer : worse(answer);
    };

  test('nothing found leaves everybody unasked, and says so', async () => {
    const rota = await found(
      spec,
      limited(() => ({ status: 'none-found' })),
    );
    expect(rota).toMatchObject({ status: 'best-found', proposals: [], gap: 1, score: { uncovered: 3 } });
    expect(rotaFaults(spec, rota)).toEqual([]);
  });

  test('the best found comes with its gap', async () => {
    const rota = await found(
      spec,
      limited((answer) => ('values' in answer ? { ...answer, status: 'limit', bound: answer.objective - 1 } : answer)),
    );
    expect(rota.status).toBe('best-found');
    expect(rota.gap).toBeGreaterThan(0);
    expect(rotaFaults(spec, rota)).toEqual([]);
  });
});

test('the real solver, stopped at its first node, gives an allowed rota with an honest gap', async () => {
  const spec = madeUpRota(20, 40, 2);
  const whole = await found(spec);
  const stopped = await solveRota(spec, solve, { nodes: 0, seconds: null, gap: 0 });
  if (stopped.status === 'infeasible') throw new Error('the made-up rota has no conflicts');
  expect(rotaFaults(spec, stopped)).toEqual([]);
  expect(stopped.status).toBe(stopped.stages.every(({ proven }) => proven) ? 'optimal' : 'best-found');
  expect(stopped.status).toBe('best-found');
  expect(stopped.gap).toBeGreaterThan(0);
  expect(isBetter(stopped.score, whole.score)).toBe(false);
}, 60_000);

describe('rotaFaults() catches planted faults', () => {
  const pupil = personOf('pupil', { adult: false, cleared: false, declined: ['s'] });
  const spec = rotaOf(
    [
      personOf('a', { caps: { period: 1, week: null, day: null } }),
      personOf('b', { skills: ['harvest'], siteIds: ['orchard', 'yard'] }),
      pupil,
    ],
    [
      shiftOf('s'),
      shiftOf('t', { fromMinute: 570 }),
      shiftOf('u', { day: 1, places: [{ count: 1, skills: ['harvest'] }] }),
      shiftOf('v', { day: 2, siteId: 'yard' }),
    ],
  );
  const ask = (personId: string, shiftId: string, group = 0) => ({ personId, shiftId, group });
  const cases: readonly [string, FoundRota['proposals']][] = [
    ['lacks a skill', [ask('a', 'u')]],
    ['at another site', [ask('a', 'v')]],
    ['at once', [ask('b', 's'), ask('b', 't')]],
    ['over the cap', [ask('a', 's'), ask('a', 'v')]],
    ['over full', [ask('a', 's'), ask('b', 's')]],
    ['who declined', [ask('pupil', 's')]],
    ['without enough adults', [ask('pupil', 't')]],
    ['no such group', [ask('b', 's', 1)]],
    ['asked twice', [ask('b', 's'), ask('b', 's')]],
    ['unknown', [ask('stranger', 's')]],
    ['uncovered is', []],
  ];
  test.each(cases)('%s', async (words, proposals) => {
    const { score, possible } = await found(spec);
    expect(rotaFaults(spec, { proposals, score, possible }).join('; ')).toContain(words);
  });
});

test('explainRota() says why this person, and which rules leave a place open', async () => {
  const spec = rotaOf(
    [
      personOf('asha', { skills: ['harvest'], wish: 2, weekly: [{ weekday: 1, fromMinute: 480, toMinute: 720, liking: 'glad' }] }),
      personOf('ben', { caps: { period: 1, week: null, day: null }, wish: 1 }),
    ],
    [shiftOf('monday', { places: [{ count: 1, skills: ['harvest'] }] }), shiftOf('tuesday', { day: 1 }), shiftOf('wednesday', { day: 2 })],
    { signUps: [{ personId: 'ben', shiftId: 'tuesday' }] },
  );
  const { proposals, gaps } = explainRota(spec, await found(spec));
  expect(proposals).toEqual([
    {
      personId: 'asha',
      shiftId: 'monday',
      why: ['only-one', 'furthest-below-wish', 'has-skill', 'glad-then'],
      others: 0,
      wish: 2,
      heldBefore: 0,
      heldAfter: 1,
      liking: 'glad',
    },
  ]);
  expect(gaps).toEqual([
    {
      shiftId: 'wednesday',
      uncovered: 1,
      adultsMissing: 0,
      people: [
        { personId: 'asha', hindrances: [{ rule: 'not-available', shiftIds: [], proposals: [] }] },
        { personId: 'ben', hindrances: [{ rule: 'cap-period', shiftIds: ['tuesday'], proposals: [] }] },
      ],
      rules: [
        { rule: 'not-available', count: 1 },
        { rule: 'cap-period', count: 1 },
      ],
    },
  ]);
});
