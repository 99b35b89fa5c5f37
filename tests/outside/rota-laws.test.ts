import { adultsNeeded, explainRota, type FoundRota, fairnessOf, type RotaSpec, SCORE_PARTS, solveRota } from '@middenry/domain';
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { highsSolver } from '../../apps/api/src/solver/highs-solver.ts';
import { adultFaults, rotaFaults } from '../../packages/domain/src/rota/check.ts';
import { isBetter, vectorOf } from './rota/brute-force.ts';
import { randomSpec } from './rota/random-spec.ts';
import { personOf } from './rota/spec.ts';

const { solve, close } = highsSolver();
afterAll(close);

/** `npm run proof` asks more often, which `npm test` has no minutes for. */
const isLong = process.env.PROOF === 'long';

const specs = randomSpec({ people: 5, shifts: 5 });

/** The rota of a spec whose sign-ups break no rule; others are drawn again. */
async function found(spec: RotaSpec): Promise<FoundRota> {
  const rota = await solveRota(spec, solve);
  fc.pre(rota.status !== 'infeasible');
  return rota as FoundRota;
}

/** Every law is held against the same rotas, so each of those is searched for once; what a law makes of one is searched for by itself. */
const asDrawn = new Map<string, Promise<FoundRota>>();
function drawn(spec: RotaSpec): Promise<FoundRota> {
  const key = JSON.stringify(spec);
  const rota = asDrawn.get(key) ?? found(spec);
  asDrawn.set(key, rota);
  return rota;
}

const law = (title: string, holds: (spec: RotaSpec, rota: FoundRota) => Promise<void>, numRuns = 50): void =>
  test(title, async () => {
    await fc.assert(
      fc.asyncProperty(specs, async (spec) => holds(spec, await drawn(spec))),
      { numRuns, seed: 20270601 },
    );
    expect.hasAssertions();
  }, 120_000);

type Relaxation = readonly [name: string, relax: (spec: RotaSpec) => RotaSpec];
const people =
  (change: (person: RotaSpec['people'][number]) => Partial<RotaSpec['people'][number]>) =>
  (spec: RotaSpec): RotaSpec => ({
    ...spec,
    people: spec.people.map((person) => ({ ...person, ...change(person) })),
  });
const shifts =
  (change: (shift: RotaSpec['shifts'][number]) => Partial<RotaSpec['shifts'][number]>) =>
  (spec: RotaSpec): RotaSpec => ({
    ...spec,
    shifts: spec.shifts.map((shift) => ({ ...shift, ...change(shift) })),
  });
const relaxations: readonly Relaxation[] = [
  ['no caps', people(() => ({ caps: { period: null, week: null, day: null } }))],
  ['never away', people(() => ({ away: [] }))],
  ['nothing declined', people(() => ({ declined: [] }))],
  ['every site', people(() => ({ siteIds: ['orchard', 'yard'] }))],
  ['every skill', people(() => ({ skills: ['harvest', 'first-aid'] }))],
  ['everybody an adult and cleared', people(() => ({ adult: true, cleared: true }))],
  ['one adult is enough', shifts(({ adultRule }) => ({ adultRule: { leastAdults: 1, pupilsPerAdult: adultRule.pupilsPerAdult } }))],
  ['no skill asked for', shifts(({ places }) => ({ places: places.map(({ count }) => ({ count, skills: [] })) }))],
  ['no way between sites', (spec) => ({ ...spec, travelMinutes: 0 })],
];

const targetsOf = (spec: RotaSpec, { possible }: FoundRota): number[] =>
  spec.people.map(({ id, wish }) => Math.min(wish, possible[id] ?? 0));

describe('laws of a rota', () => {
  law('another order of people, shifts and sign-ups gives the same rota', async (spec, rota) => {
    const turned = {
      ...spec,
      people: [...spec.people].reverse(),
      shifts: [...spec.shifts].reverse(),
      signUps: [...spec.signUps].reverse(),
      earlier: [...spec.earlier].reverse(),
    };
    expect(await found(turned)).toEqual(rota);
  });

  law('other names of people and shifts give the same score', async (spec, rota) => {
    const person = new Map(spec.people.map(({ id }, index) => [id, `z${9 - index}`]));
    const shift = new Map(spec.shifts.map(({ id }, index) => [id, `y${9 - index}`]));
    const renamed = JSON.parse(
      JSON.stringify(spec).replace(/"([ps]\d)"/g, (_, id: string) => `"${person.get(id) ?? shift.get(id) ?? `gone ${id}`}"`),
    ) as RotaSpec;
    expect(vectorOf((await found(renamed)).score)).toEqual(vectorOf(rota.score));
  });

  law('somebody with no possible place changes no score', async (spec, rota) => {
    const idle = personOf('nobody', { wish: 3, caps: { period: 0, week: null, day: null } });
    const more = await found({ ...spec, people: [...spec.people, idle] });
    expect(vectorOf(more.score)).toEqual(vectorOf(rota.score));
    expect(more.possible.nobody).toBe(0);
  });

  law(
    'relaxing a rule never leaves more uncovered, and never worsens the score while nobody could hold more than before',
    async (spec, rota) => {
      for (const [name, relax] of relaxations) {
        const relaxed = await found(relax(spec));
        expect(relaxed.score.uncovered, name).toBeLessThanOrEqual(rota.score.uncovered);
        const isComparable = JSON.stringify(targetsOf(spec, relaxed)) === JSON.stringify(targetsOf(spec, rota));
        expect(isComparable && isBetter(rota.score, relaxed.score), name).toBe(false);
      }
    },
    // Nine more rotas for each.
    isLong ? 50 : 20,
  );

  law('whoever is not on a shift with a gap has a rule in their way', async (spec, rota) => {
    const { gaps } = explainRota(spec, rota);
    expect(
      gaps.flatMap((gap) => gap.people.filter(({ hindrances }) => hindrances.length === 0).map(({ personId }) => [gap.shiftId, personId])),
    ).toEqual([]);
    const urgencyOf = (id: string): number => spec.shifts.find((shift) => shift.id === id)?.urgency ?? 0;
    const weighed = gaps.reduce((sum, { shiftId, uncovered, adultsMissing }) => sum + urgencyOf(shiftId) * (uncovered + adultsMissing), 0);
    expect(weighed).toBe(rota.score.uncovered);
  });

  law('the report of fairness adds up to the score, and nobody holds less than before', async (spec, rota) => {
    const { rows, before, after } = fairnessOf(spec, rota);
    expect([after.largestShortfall, after.squaredShortfalls]).toEqual([rota.score.largestShortfall, rota.score.squaredShortfalls]);
    expect(after.held - before.held).toBe(rota.proposals.length);
    expect(rows.filter(({ heldBefore, heldAfter }) => heldAfter < heldBefore)).toEqual([]);
    expect(before.largestShortfall).toBeGreaterThanOrEqual(after.largestShortfall);
  });

  law('solving again with the proposals as earlier ones changes nothing', async (spec, rota) => {
    const again = await found({ ...spec, earlier: rota.proposals.map(({ personId, shiftId }) => ({ personId, shiftId })) });
    expect(again.score.changes).toBe(0);
    expect(vectorOf(again.score).slice(0, SCORE_PARTS.indexOf('changes'))).toEqual(
      vectorOf(rota.score).slice(0, SCORE_PARTS.indexOf('changes')),
    );
  });
});

describe('C19: pupils are never alone', () => {
  test('no rota asks a pupil without enough adults, however many pupils there are', async () => {
    let asked = 0;
    await fc.assert(
      fc.asyncProperty(specs, fc.array(fc.boolean(), { minLength: 5, maxLength: 5 }), async (spec, pupils) => {
        const young = { ...spec, people: spec.people.map((person, index) => ({ ...person, adult: !pupils[index] })) };
        const rota = await found(young);
        const ids = new Set(young.people.filter(({ adult }) => !adult).map(({ id }) => id));
        asked += rota.proposals.filter(({ personId }) => ids.has(personId)).length;
        expect(adultFaults(young, rota.proposals)).toEqual([]);
        expect(rotaFaults(young, rota)).toEqual([]);
      }),
      { numRuns: isLong ? 250 : 120, seed: 20270602 },
    );
    expect(asked).toBeGreaterThan(isLong ? 50 : 25);
  }, 120_000);

  test('adultsNeeded() is the least number that keeps the rule, over 10,000 random ones', () => {
    const count = fc.integer({ min: 1, max: 12 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40 }), count, count, (pupils, leastAdults, pupilsPerAdult) => {
        const adults = adultsNeeded(pupils, { leastAdults, pupilsPerAdult });
        const isEnough = (some: number): boolean => pupils === 0 || (some >= leastAdults && some * pupilsPerAdult >= pupils);
        expect([isEnough(adults), adults === 0 || isEnough(adults - 1)]).toEqual([true, adults === 0]);
      }),
      { numRuns: 10_000, seed: 20270603 },
    );
  });
});
