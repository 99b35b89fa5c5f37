import { describe, expect, it } from 'vitest';
import { moistureFracWb } from '../bin/observe.ts';
import { runBin } from '../bin/run.ts';
import type { BinEvent, Scenario } from '../bin/scenario.ts';
import { LOOKS } from './types.ts';
import { worthAsking } from './worth-asking.ts';

const feeding: BinEvent = { day: 20, type: 'feeding', zone: 2, items: [{ material: 'food_scraps_veg', massKg: 3, how: 'guessed' }] };
const scenario = (members: number): Scenario => ({
  schema: 'middenry-scenario/1',
  days: 30,
  members,
  seed: 3,
  bin: {
    kind: 'tote',
    areaM2: 0.4,
    depthM: 0.4,
    zones: 4,
    openBase: false,
    ageDays: 60,
    worms: { massKg: 1 },
    bed: [
      { material: 'cardboard_corrugated', massKg: 3 },
      { material: 'castings', massKg: 6 },
    ],
    bedWaterKg: 8,
  },
  climate: { tempC: 18 },
  events: [feeding],
});
const stateOf = (members: number) => runBin(scenario(members), { untilDay: 27 }).state;
const AREA_M2 = 0.4;

/** Members whose quantity lies above the middle one. */
function above(values: readonly number[]): readonly boolean[] {
  const middle = [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] as number;
  return values.map((value) => value > middle);
}

describe('worthAsking()', () => {
  const state = stateOf(128);
  const members = Array.from({ length: 128 }, (_, member) => member);

  it('asks what is left where the doubt is how much is left', () => {
    const left = members.map((member) => state.zone.lastLeftFrac[1 * state.members + member] as number);
    const ask = worthAsking(state, above(left), AREA_M2, null);
    expect(ask).toMatchObject({ look: 'leftover', zone: 2 });
    expect(ask?.narrowedFrac).toBeGreaterThan(0.05);
    expect(ask?.narrowedFrac).toBeLessThan(1);
  });

  it('asks for the squeeze test where the doubt is how wet it is', () => {
    const wet = members.map((member) => moistureFracWb(state, member));
    expect(worthAsking(state, above(wet), AREA_M2, 2)?.look).toBe('squeeze');
  });

  it('asks nothing where nobody is in doubt, and nothing of one member', () => {
    expect(
      worthAsking(
        state,
        members.map(() => true),
        AREA_M2,
        null,
      ),
    ).toBeNull();
    expect(
      worthAsking(
        state,
        members.map(() => false),
        AREA_M2,
        null,
      ),
    ).toBeNull();
    expect(worthAsking(stateOf(1), [true], AREA_M2, null)).toBeNull();
  });

  it('never promises more than there is to know, whatever the doubt', () => {
    for (const every of [2, 3, 5, 7]) {
      const ask = worthAsking(
        state,
        members.map((member) => member % every === 0),
        AREA_M2,
        null,
      );
      expect(ask === null || (ask.narrowedFrac > 0 && ask.narrowedFrac <= 1 && LOOKS.includes(ask.look))).toBe(true);
    }
  });
});
