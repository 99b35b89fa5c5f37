import { describe, expect, it } from 'vitest';
import { castingsOut, type StoreFlow, storeBalance } from './castings-out.ts';

describe('castingsOut()', () => {
  it('D2: by hand: 3 kg to plots of a bin and 1.5 kg of a store are 7.5 litres at 0.6 kg a litre; a measured bucket counts as measured', () => {
    const gift = (destination: string, grams: number, from: 'bin' | 'store', volumeMl: number | null = null) => ({
      ...{ destination, grams, from, volumeMl },
    });
    const gifts = [gift('plots', 3000, 'bin'), gift('class', 2000, 'bin', 4000), gift('plots', 1500, 'store'), gift('sale', 250, 'store')];
    // 4500, 2000 and 250 of 6750 are 66.7, 29.6 and 3.7 %.
    expect(castingsOut(gifts)).toEqual([
      { destination: 'plots', fromBinG: 3000, fromStoreG: 1500, grams: 4500, ml: 7500, percent: 67 },
      { destination: 'class', fromBinG: 2000, fromStoreG: 0, grams: 2000, ml: 4000, percent: 29 },
      { destination: 'sale', fromBinG: 0, fromStoreG: 250, grams: 250, ml: 417, percent: 4 },
    ]);
  });
});

describe('storeBalance()', () => {
  const flow = (on: string, kind: StoreFlow['kind'], grams: number): StoreFlow => ({ on, kind, grams });
  const flows = [
    ...[flow('2026-01-05', 'harvested', 9000), flow('2026-02-01', 'given-out', 2500), flow('2026-03-01', 'brought-in', 700)],
    ...[flow('2026-03-31', 'given-out', 1200), flow('2026-03-31', 'written-off', 300), flow('2026-04-01', 'given-out', 5000)],
  ];

  it('by hand: 6.5 kg and 0.7 kg less 1.5 kg are 5.7 kg, both ends of the season counted', () => {
    expect(storeBalance(flows, { from: '2026-03-01', to: '2026-03-31' })).toEqual({
      ...{ beginG: 6500, harvestedG: 0, broughtInG: 700, givenOutG: 1200, writtenOffG: 300, endG: 5700 },
    });
  });

  it('a season ends with what the next one begins with', () => {
    const pairs = [
      ...[
        ['2026-01-04', '2026-01-05'],
        ['2026-01-05', '2026-01-06'],
        ['2026-01-31', '2026-02-01'],
        ['2026-02-01', '2026-02-02'],
      ],
      ...[
        ['2026-02-28', '2026-03-01'],
        ['2026-03-30', '2026-03-31'],
        ['2026-03-31', '2026-04-01'],
      ],
    ] as [string, string][];
    for (const [last, next] of pairs) {
      const { endG } = storeBalance(flows, { from: '2026-01-01', to: last });
      expect([last, storeBalance(flows, { from: next, to: '2026-12-31' }).beginG]).toEqual([last, endG]);
    }
  });
});
