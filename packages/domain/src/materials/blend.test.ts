import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BlendResult, type MixFacts, massesForBoth, massForCn, massForMoisture, mixOf } from './blend.ts';
import { volatileLossFromAsh, wetMassAfterLoss } from './measure.ts';

const facts = (moisturePct: number, carbonPct: number, nitrogenPct: number): MixFacts => ({
  moistureFracWb: moisturePct / 100,
  carbonFracDb: carbonPct / 100,
  nitrogenFracDb: nitrogenPct / 100,
});
const food = facts(87, 51.3, 2.7);
const leaves = facts(38, 48.6, 0.9);
const cardboard = facts(8, 50, 0.1);
const coffee = facts(75, 45.6, 2.28);
const water = facts(100, 0, 0);
const tenOf = (of: MixFacts) => [{ massKg: 10, facts: of }];

const masses = (result: BlendResult): readonly number[] => {
  expect(result.status).toBe('ok');
  return result.status === 'ok' ? result.massesKg : [];
};

describe('massesForBoth() (derived vectors WD1 to WD5)', () => {
  it.each([
    ['WD1', 75, 33, 2.315918, 0.512105],
    ['WD2', 75, 40, 0.134138, 1.716969],
    ['WD3', 78, 30, 1.500833, 0.428095],
  ])('%s food with leaves and cardboard', (_, moisturePct, cnRatio, leavesKg, cardboardKg) => {
    const result = massesForBoth(tenOf(food), [leaves, cardboard], { moistureFracWb: moisturePct / 100, cnRatio });
    expect(masses(result)[0]).toBeCloseTo(leavesKg, 6);
    expect(masses(result)[1]).toBeCloseTo(cardboardKg, 6);
  });

  it('WD4 says infeasible, with the cardboard that would have to come out', () => {
    const result = massesForBoth(tenOf(food), [leaves, cardboard], { moistureFracWb: 0.75, cnRatio: 30 });
    expect(result).toMatchObject({ status: 'infeasible', reason: 'negative' });
    expect(result.status === 'infeasible' && result.wantedKg[1]).toBeCloseTo(-0.254, 3);
  });

  it('WD5 coffee with cardboard and water', () => {
    const [cardboardKg, waterKg] = masses(massesForBoth(tenOf(coffee), [cardboard, water], { moistureFracWb: 0.75, cnRatio: 30 }));
    expect(cardboardKg).toBeCloseTo(1.318224, 6);
    expect(waterKg).toBeCloseTo(3.53284, 6);
  });

  it('says infeasible when the two materials are the same', () => {
    expect(massesForBoth(tenOf(food), [leaves, leaves], { moistureFracWb: 0.7, cnRatio: 30 })).toMatchObject({
      status: 'infeasible',
      reason: 'same',
    });
  });

  it('meets both wishes whenever it says ok', () => {
    const wish = fc.record({
      moistureFracWb: fc.double({ min: 0.5, max: 0.9, noNaN: true }),
      cnRatio: fc.double({ min: 15, max: 60, noNaN: true }),
    });
    let met = 0;
    fc.assert(
      fc.property(wish, (wanted) => {
        const result = massesForBoth(tenOf(food), [leaves, cardboard], wanted);
        if (result.status === 'infeasible') return result.wantedKg.some((massKg) => massKg < 0);
        met++;
        return (
          Math.abs(result.mix.moistureFracWb - wanted.moistureFracWb) < 1e-9 && Math.abs(result.mix.cnRatio / wanted.cnRatio - 1) < 1e-9
        );
      }),
      { numRuns: 2000, seed: 2 },
    );
    expect(met).toBeGreaterThan(20);
  });
});

describe('massForCn(), massForMoisture()', () => {
  const grass = facts(77, 45, 2.4);
  const cornellLeaves = facts(35, 50, 0.75);

  it('WP3 leaves for C:N 30 (published inputs from memory, arithmetic derived)', () => {
    const result = massForCn(tenOf(grass), cornellLeaves, 30);
    expect(masses(result)[0]).toBeCloseTo(3.474126, 6);
    expect(result.status === 'ok' && result.mix.moistureFracWb).toBeCloseTo(0.6617, 4);
  });

  it('WP4 C:N of the moisture mix (derived)', () => {
    expect(mixOf([...tenOf(grass), { massKg: 6.8, facts: cornellLeaves }]).cnRatio).toBeCloseTo(36.7289, 4);
  });

  it('WP11 water to bring paper to 60 per cent (from memory)', () => {
    expect(masses(massForMoisture([{ massKg: 10, facts: facts(7, 43, 0.3) }], water, 0.6))[0]).toBeCloseTo(13.25, 9);
  });

  it('WP12 sludge with leaves to C:N 25 (from memory)', () => {
    const dryLeaves = facts(50, 35, 0.7);
    const sludge = facts(75, 6.3 * 5.6, 5.6);
    expect(masses(massForCn([{ massKg: 1, facts: dryLeaves }], sludge, 25))[0]).toBeCloseTo(0.334225, 6);
  });

  it('WD6 cardboard alone to C:N 30 (derived)', () => {
    const result = massForCn(tenOf(food), cardboard, 30);
    expect(masses(result)[0]).toBeCloseTo(0.892923, 6);
    expect(result.status === 'ok' && result.mix.moistureFracWb).toBeCloseTo(0.805, 3);
  });

  it('WD7 cardboard alone to 75 per cent (derived)', () => {
    expect(masses(massForMoisture(tenOf(food), cardboard, 0.75))[0]).toBeCloseTo(1.791045, 6);
  });

  it('WD8 water for dry cardboard (derived)', () => {
    expect(masses(massForMoisture([{ massKg: 1, facts: cardboard }], water, 0.75))[0]).toBeCloseTo(2.68, 9);
    expect(masses(massForMoisture([{ massKg: 1, facts: cardboard }], water, 0.8))[0]).toBeCloseTo(3.6, 9);
  });

  it('says infeasible when the other is on the wrong side or no different', () => {
    expect(massForMoisture(tenOf(food), water, 0.75)).toMatchObject({ status: 'infeasible', reason: 'negative' });
    expect(massForMoisture(tenOf(food), facts(75, 40, 1), 0.75)).toMatchObject({ status: 'infeasible', reason: 'same' });
  });
});

describe('mixOf()', () => {
  it('keeps mass and lies between its parts', () => {
    const mass = fc.double({ min: 0.001, max: 1000, noNaN: true });
    fc.assert(
      fc.property(mass, mass, (a, b) => {
        const mix = mixOf([
          { massKg: a, facts: food },
          { massKg: b, facts: cardboard },
        ]);
        return (
          Math.abs(mix.massKg - a - b) < 1e-9 * (a + b) &&
          mix.moistureFracWb >= 0.08 - 1e-12 &&
          mix.moistureFracWb <= 0.87 + 1e-12 &&
          mix.cnRatio >= 18.99 &&
          mix.cnRatio <= 500.01
        );
      }),
      { seed: 3 },
    );
  });

  it('refuses a negative mass and an empty mix', () => {
    expect(() => mixOf([{ massKg: -1, facts: food }])).toThrow(RangeError);
    expect(() => mixOf([])).toThrow(RangeError);
  });

  it('has no C:N without nitrogen', () => {
    expect(mixOf(tenOf(water)).cnRatio).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('ash balance (derived vector WD9)', () => {
  it('loses 68.18 per cent of volatile solids from 12 to 30 per cent ash and leaves 22.857 kg', () => {
    const loss = volatileLossFromAsh(0.12, 0.3);
    expect(loss).toBeCloseTo(0.6818, 4);
    const dryLeftFrac = 0.12 + 0.88 * (1 - loss);
    expect(dryLeftFrac).toBeCloseTo(0.4, 9);
    expect(wetMassAfterLoss(20, 1 - dryLeftFrac, 0.65)).toBeCloseTo(22.857, 3);
  });

  it('gives EQ8 yield: 1 kg food with 0.15 kg paper leaves 0.48 kg castings', () => {
    expect(wetMassAfterLoss(1 * 0.15 + 0.15 * 0.92, 0.5, 0.7)).toBeCloseTo(0.48, 2);
  });
});
