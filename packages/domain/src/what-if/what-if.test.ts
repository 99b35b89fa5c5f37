import { describe, expect, it } from 'vitest';
import type { BinEvent, Scenario } from '../bin/scenario.ts';
import { trialOf } from '../trial.ts';
import { eventsOfChoice, NOTHING_DONE, warmerAhead } from './choice.ts';
import { ensembleOf, WHAT_IF_MEMBERS } from './ensemble.ts';
import { COARSE_MEMBERS, openEnsemble, whatIf } from './what-if.ts';

const TODAY = 60;
const fed: BinEvent[] = Array.from({ length: 9 }, (_, week) => ({
  day: week * 7,
  type: 'feeding',
  zone: (week % 3) + 1,
  items: [{ material: 'food_scraps_veg', massKg: 0.8, how: 'container' }],
  beddingKg: 0.1,
}));
const scenario: Scenario = {
  schema: 'middenry-scenario/1',
  days: TODAY,
  members: 64,
  seed: 7,
  bin: {
    kind: 'tote',
    areaM2: 0.3,
    depthM: 0.4,
    zones: 3,
    openBase: false,
    ageDays: 30,
    worms: { massKg: 0.8 },
    bed: [
      { material: 'cardboard_corrugated', massKg: 2.5 },
      { material: 'castings', massKg: 5 },
    ],
    bedWaterKg: 7,
  },
  climate: { tempC: 18 },
  events: [...fed, { day: 55, type: 'check', smell: 'earthy', squeeze: 'damp' }],
};
const settings = { checkIntervalDays: 7, resting: false };
const packed = ensembleOf(scenario, TODAY, settings);
const open = openEnsemble(packed);
const choose = (change: Partial<typeof NOTHING_DONE>) => ({ ...NOTHING_DONE, ...change });

describe('what if', () => {
  it('the same question has the same answer, asked again and of a copy that went through text', () => {
    const choice = choose({ foodKg: 2, zones: 2, beddingKg: 0.2, repeat: 'weekly', loosen: true, warmerC: 4 });
    const copy = JSON.parse(JSON.stringify({ ...packed, state: [...packed.state] }));
    const there = openEnsemble({ ...copy, state: Float64Array.from(copy.state) });
    expect(whatIf(open, choice)).toEqual(whatIf(open, choice));
    expect(whatIf(there, choice)).toEqual(whatIf(open, choice));
    expect([whatIf(open).members, whatIf(open, choice, true).members]).toEqual([WHAT_IF_MEMBERS, COARSE_MEMBERS]);
  });

  it('a heap in one zone is shorter of air than the same spread out, and card and air help', () => {
    const heap = whatIf(open, choose({ foodKg: 6 }));
    const spread = whatIf(open, choose({ foodKg: 6, zones: 3 }));
    const worst = (answer: typeof heap) => Math.max(...answer.days.map((day) => day.airlessFrac.p50));
    expect(worst(heap)).toBeGreaterThan(worst(spread));
    expect(heap.chances.airless).toBeGreaterThan(whatIf(open).chances.airless);
    expect(heap.trouble).toBeGreaterThanOrEqual(heap.chances.airless);
  });

  it('heat ahead warms the bed on every day ahead, and today is what it is', () => {
    const [cool, warm] = [whatIf(open), whatIf(open, choose({ warmerC: 12 }))];
    expect(warm.days[0]).toEqual(cool.days[0]);
    expect(warm.days.slice(1).every((day, i) => day.bedTempC.p50 > cool.days[i + 1]!.bedTempC.p50)).toBe(true);
    expect(warm.chances.hot).toBeGreaterThan(cool.chances.hot);
  });

  it('agrees with the trial of all members to what the fewer members allow', () => {
    const choice = choose({ foodKg: 4, zones: 1 });
    const events = eventsOfChoice(choice, [1, 2, 3], TODAY, 14);
    const trouble = trialOf(scenario, TODAY, settings)(events);
    const { chances } = whatIf(open, choice);
    expect(Math.abs(Math.max(chances.airless, chances.overfed) - trouble)).toBeLessThan(0.3);
  });
});

describe('a choice', () => {
  it('feeds the zones in turn, as often as it says, within the days ahead', () => {
    const events = eventsOfChoice(choose({ foodKg: 1, zones: 2, repeat: 'weekly' }), [3, 1, 2], 10, 14);
    expect(events.map((event) => [event.day, 'zone' in event ? event.zone : null])).toEqual([
      [11, 3],
      [11, 1],
      [18, 2],
      [18, 3],
    ]);
    expect(
      eventsOfChoice(choose({ beddingKg: 1, loosen: true, waterKg: 1, takenOutFrac: 0.5 }), [1], 0, 14).map(({ type }) => type),
    ).toEqual(['remove', 'loosen', 'water', 'bedding']);
  });

  it('nothing is warmer by nothing, and a bed held warm stays so', () => {
    expect(warmerAhead({ tempC: 18 }, 3, 2, 0)).toEqual({ tempC: 18 });
    expect(warmerAhead({ tempC: 18 }, 3, 2, -5)).toEqual({
      tempC: 18,
      readings: [
        [4, 13],
        [5, 13],
      ],
    });
    expect(warmerAhead({ bedTempC: 20 }, 3, 2, 5)).toEqual({ bedTempC: 20 });
  });
});
