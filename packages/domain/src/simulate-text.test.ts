import { describe, expect, it } from 'vitest';
import { DAY_QUANTITIES } from './bin/outcome.ts';
import { SIGNAL_IDS } from './signals/types.ts';
import { simulateText } from './simulate-text.ts';

/** The scenario printed in the reference, shortened. */
const SCENARIO = {
  schema: 'middenry-scenario/1',
  days: 40,
  members: 4,
  seed: 1,
  bin: {
    kind: 'tote',
    areaM2: 0.2,
    depthM: 0.35,
    zones: 4,
    openBase: false,
    ageDays: 0,
    worms: { massKg: 0.5 },
    bed: [{ material: 'cardboard_corrugated', massKg: 2 }],
    bedWaterKg: 4,
  },
  climate: { tempC: 20 },
  events: [
    { day: 0, type: 'feeding', zone: 1, items: [{ material: 'lettuce', massKg: 1.2, how: 'weighed' }] },
    {
      day: 3,
      type: 'feeding',
      zone: 2,
      items: [
        {
          massKg: 1,
          preCompostedDays: 0,
          composition: {
            moistureFracWb: 0.8,
            organicFracDb: 0.9,
            carbonFracDb: 0.45,
            nitrogenFracDb: 0.02,
            labileFrac: 0.7,
            labileRatePerDay: 0.08,
            slowRatePerDay: 0.006,
            qualityRatio: 1,
          },
        },
      ],
    },
    { day: 7, type: 'check', leftover: { '1': 'little' }, squeeze: 'one-two-drops', smell: 'earthy', tempC: 21, worms: 'many', ph: 6.9 },
    { day: 7, type: 'loosen' },
    { day: 9, type: 'water', massKg: 1 },
    { day: 30, type: 'harvest', massKg: 0.5 },
  ],
};

const ran = (text: string) => {
  const outcome = simulateText(text);
  if (outcome.exitCode !== 0) throw new Error(outcome.faultLines.join('\n'));
  return outcome.resultText;
};

describe('simulateText()', () => {
  it('gives days + 1 rows of every quantity, every signal and three ledgers that add up', () => {
    const result = JSON.parse(ran(JSON.stringify(SCENARIO)));
    expect(result.schema).toBe('middenry-result/1');
    expect(result.days.map((row: { day: number }) => row.day)).toEqual(Array.from({ length: 41 }, (_, day) => day));
    for (const row of result.days) {
      for (const quantity of DAY_QUANTITIES) {
        const { p10, p50, p90 } = row[quantity];
        expect(p10 <= p50 && p50 <= p90 && Number.isFinite(p10) && Number.isFinite(p90), `${row.day} ${quantity}`).toBe(true);
      }
    }
    expect(Object.keys(result.signals).sort()).toEqual([...SIGNAL_IDS].sort());
    for (const name of ['carbon', 'nitrogen', 'water']) {
      const { inKg, storedKg, gasKg, drainedKg, harvestedKg, removedKg, unaccountedKg } = result.ledger[name];
      expect(storedKg + gasKg + drainedKg + harvestedKg + removedKg - unaccountedKg, name).toBeCloseTo(inKg, 8);
    }
  });

  it('gives the same bytes for the same text', () => {
    expect(ran(JSON.stringify(SCENARIO))).toBe(ran(JSON.stringify(SCENARIO)));
  });

  it('answers text that is no JSON with one fault and exit 2', () => {
    expect(simulateText('{"schema":')).toMatchObject({ exitCode: 2, faultLines: [expect.stringMatching(/^\$: must be JSON/)] });
  });

  it('gives every fault its own line with its path', () => {
    const bad = {
      ...SCENARIO,
      days: -1,
      bin: { ...SCENARIO.bin, zones: 0 },
      events: [{ day: 0, type: 'feeding', zone: 9, items: [{ material: 'meat_raw', massKg: -1 }] }],
    };
    const outcome = simulateText(JSON.stringify(bad));
    if (outcome.exitCode !== 2) throw new Error('it must be refused');
    for (const path of ['$.days', '$.bin.zones', '$.events[0].items[0].massKg', '$.events[0].items[0].material']) {
      expect(
        outcome.faultLines.filter((line) => line.startsWith(`${path}: `)),
        path,
      ).toHaveLength(1);
    }
  });

  it('reads a file that begins with a byte order mark', () => {
    expect(simulateText(`\uFEFF${JSON.stringify(SCENARIO)}`).exitCode).toBe(0);
  });
});
