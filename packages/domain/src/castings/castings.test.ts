import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SQUEEZES } from '../bin/scenario.ts';
import { moistureFromOven } from '../materials/measure.ts';
import { correctedCastingsG } from '../season/castings-corrected.ts';
import { castingsReadyOn } from './curing.ts';
import { squeezeMoisture } from './squeeze-moisture.ts';
import { castingsShort, castingsStock } from './stock.ts';

describe('moisture of castings', () => {
  it('a squeeze gives the middle of its band and a range that reaches 5 % into the next (science 4)', () => {
    // One or two drops: 70 to 80 % of water, so 75 %, and anything from 65 to 85 %.
    expect(squeezeMoisture('one-two-drops').moistureFracWb).toBeCloseTo(0.75, 12);
    expect(squeezeMoisture('one-two-drops').lowFracWb).toBeCloseTo(0.65, 12);
    expect(squeezeMoisture('one-two-drops').highFracWb).toBeCloseTo(0.85, 12);
    const middles = SQUEEZES.map((squeeze) => squeezeMoisture(squeeze).moistureFracWb);
    expect(middles).toEqual([...middles].sort((a, b) => a - b));
    for (const squeeze of SQUEEZES) {
      const { lowFracWb, moistureFracWb, highFracWb } = squeezeMoisture(squeeze);
      expect(lowFracWb > 0 && lowFracWb < moistureFracWb && moistureFracWb < highFracWb && highFracWb < 1).toBe(true);
    }
  });

  it('by hand: 12.6 kg that dry from 50 g to 14 g in the oven are 10.08 kg at 65 %', () => {
    // 50 - 14 = 36 g of water of 50 g: 72 %. Dry 12.6 x 0.28 = 3.528 kg; over 0.35: 10.08 kg.
    const moistureFracWb = moistureFromOven({ wetG: 50, dishG: 4, dishAndDryG: 18 });
    expect(moistureFracWb).toBeCloseTo(0.72, 12);
    expect(correctedCastingsG(12_600, moistureFracWb)).toBe(10_080);
  });

  it('by hand: 5 kg of one or two drops are 3.571 kg at 65 %, and lie between 2.143 and 5 kg', () => {
    // 5 x 0.25 / 0.35 = 3.5714; at the wettest 5 x 0.15 / 0.35 = 2.1429; at the driest 5 x 0.35 / 0.35 = 5.
    const { moistureFracWb, lowFracWb, highFracWb } = squeezeMoisture('one-two-drops');
    expect([moistureFracWb, highFracWb, lowFracWb].map((moisture) => correctedCastingsG(5000, moisture))).toEqual([3571, 2143, 5000]);
  });
});

describe('castingsReadyOn()', () => {
  it('is three weeks later, over the end of a month and a leap day', () => {
    expect(castingsReadyOn('2026-11-25')).toBe('2026-12-16');
    expect(castingsReadyOn('2028-02-20', 14)).toBe('2028-03-05');
  });
});

describe('castingsStock()', () => {
  const flows = [
    { on: '2026-11-01', grams: 8000 },
    { on: '2026-12-16', grams: 5000 },
    { on: '2026-11-20', grams: -3000 },
  ];

  it('keeps what cures apart from what is ready', () => {
    expect(castingsStock(flows, '2026-11-25')).toEqual({ readyG: 5000, curingG: 5000 });
    expect(castingsStock(flows, '2026-12-16')).toEqual({ readyG: 10_000, curingG: 0 });
  });

  it('castingsShort() names the first day that asked too much and the worst of all', () => {
    expect(castingsShort(flows)).toBeNull();
    expect(castingsShort([...flows, { on: '2026-11-21', grams: -5001 }, { on: '2026-11-22', grams: -40 }])).toEqual({
      on: '2026-11-21',
      shortG: 41,
    });
    // What came in on the day itself may go out on it.
    expect(castingsShort([{ on: '2026-11-01', grams: -8000 }, ...flows.slice(0, 1)])).toBeNull();
  });

  it('where there was always enough, no day has less than nothing in store; in whatever order it was written down', () => {
    const day = fc.integer({ min: 1, max: 28 }).map((n) => `2026-11-${String(n).padStart(2, '0')}`);
    const flow = fc.record({ on: day, grams: fc.integer({ min: -5000, max: 5000 }) });
    fc.assert(
      fc.property(fc.array(flow, { maxLength: 20 }), (list) => {
        const stocks = list.map(({ on }) => castingsStock(list, on).readyG);
        const short = castingsShort(list);
        expect(short === null).toBe(stocks.every((grams) => grams >= 0));
        expect(castingsShort([...list].reverse())).toEqual(short);
        expect(Math.max(0, ...stocks.map((grams) => -grams))).toBe(short?.shortG ?? 0);
      }),
    );
  });
});
